"""Cards: what a device may hold of one thing, in an open part and a part for the owner alone."""

import json
from zlib import crc32

from ..coins import grades
from .knowledge import denomination_name, type_name
from .tables import Blank, Bought, Card, CardSum, Check, Coin, Look, Note, Photo, Purchase, Sale, Setting, Show, Want

SUM_MODULUS = 1 << 48


def coin(key: str):
    row = Coin.get_or_none(Coin.id == key)
    if row is None:
        return None
    name = type_name(row.type)
    denomination = denomination_name(row.denom)
    open_part = {
        "id": row.id, "denom": row.denom, "denomName": denomination, "type": row.type, "typeName": name,
        "title": title(denomination, name or row.title), "year": row.year, "mint": row.mint,
        "variety": row.variety, "dateText": date_text(row.year, row.mint), "grade": row.grade,
        "gradeName": grades.parse(row.grade).name if row.grade else "", "gradeNumber": row.grade_number,
        "certified_by": row.certified_by, "certificate": row.certificate, "place": row.place,
        "state": row.state, "ask": row.ask, "publish": row.publish,
        "notes": [
            {"fact": n.fact, "when": n.when_ms, "text": n.text, "by": n.device}
            for n in Note.select().where(Note.coin == row).order_by(Note.when_ms, Note.fact)
        ],
        "checks": {
            c.key: {"answer": c.answer, "note": c.note, "when": c.when_ms}
            for c in Check.select().where(Check.coin == row)
        },
        "photos": [
            {"photo": p.photo, "side": p.side, "fact": p.fact}
            for p in Photo.select().where(Photo.coin == row).order_by(Photo.fact)
        ],
        "looks": Look.select().where(Look.subject == f"coin/{key}", Look.open == True).count(),  # noqa: E712
    }  # fmt: skip
    if row.title and name:
        open_part["titleText"] = row.title
    return open_part, {"floor": row.floor, **_money(row)}


def _money(row: Coin) -> dict:
    bought = Bought.get_or_none(Bought.coin == row) if row.cost is not None else None
    sold = Sale.get_or_none((Sale.coin == row) & (Sale.live == True)) if row.state == "sold" else None  # noqa: E712
    part = {"costs": [], "cost": row.cost, "purchase": None, "sale": None}
    if bought:
        purchase = Purchase.get_by_id(bought.purchase_id)
        part["costs"] = bought.costs
        part["purchase"] = {
            "fact": purchase.fact, "date": purchase.date, "from": purchase.party, "show": purchase.show,
            "payment": purchase.payment, "note": purchase.note, "total": purchase.total,
        }  # fmt: skip
    if sold:
        proceeds = sold.price - sum(line["cents"] for line in sold.costs)
        part["sale"] = {
            "fact": sold.fact, "price": sold.price, "costs": sold.costs, "to": sold.party, "date": sold.date,
            "show": sold.show, "payment": sold.payment, "note": sold.note,
            "gain": None if row.cost is None else proceeds - row.cost,
        }  # fmt: skip
    return part


def title(denomination: str, name: str) -> str:
    """The line that says what it is: `Half cent, Draped Bust`."""
    if name and denomination and not name.lower().startswith(denomination.lower()):
        return f"{denomination}, {name}"
    return name or denomination or "Coin not named yet"


def date_text(year: int | None, mint: str) -> str:
    return "no date" if year is None else f"{year}-{mint}" if mint else str(year)


def want(key: str):
    row = Want.get_or_none(Want.id == key)
    if row is None:
        return None
    name = type_name(row.type)
    denomination = denomination_name(row.denom)
    return {
        "id": row.id, "denom": row.denom, "denomName": denomination, "type": row.type, "typeName": name,
        "title": title(denomination, name or row.title), "years": row.years, "grade_from": row.grade_from,
        "grade_to": row.grade_to, "priority": row.priority, "note": row.note,
    }, {"ceiling": row.ceiling}  # fmt: skip


def show(key: str):
    row = Show.get_or_none(Show.id == key)
    if row is None:
        return None
    return {"id": row.id, "name": row.name, "place": row.place, "table": row.table, "starts": row.starts,
            "ends": row.ends, "note": row.note}, {"float": row.float}  # fmt: skip


def blank(key: str):
    row = Blank.get_or_none(Blank.id == key)
    if row is None or Coin.get_or_none(Coin.id == key):
        return None
    return {"id": row.id, "printed": row.printed_ms}, None


def book(key: str):
    kept = {row.key: row.value for row in Setting.select()}
    return {"name": kept.get("name", ""), "currency": kept.get("currency", "USD")}, {
        "costCode": kept.get("cost_code")
    }


MAKERS = {"coin": coin, "want": want, "show": show, "blank": blank, "book": book}


def mark(kind: str, key: str, seq: int) -> int:
    """A card's part of the digest: which version of which card is held."""
    return crc32(f"{kind}/{key}/{seq}".encode())


class Sums:
    """Count and digest sum of live cards by kind, carried through a transaction and saved at its end."""

    def __init__(self):
        self.now = {row.kind: [row.count, row.sum] for row in CardSum.select()}

    def add(self, kind: str, key: str, seq: int, sign: int = 1) -> None:
        count = self.now.setdefault(kind, [0, 0])
        count[0] += sign
        count[1] = (count[1] + sign * mark(kind, key, seq)) % SUM_MODULUS

    def save(self) -> None:
        rows = [{"kind": kind, "count": count, "sum": total} for kind, (count, total) in sorted(self.now.items())]
        if rows:
            CardSum.replace_many(rows).execute()


def digest(kinds) -> dict:
    """{count, sum} over the live cards of these kinds."""
    rows = list(CardSum.select().where(CardSum.kind.in_(list(kinds))))
    return {"count": sum(r.count for r in rows), "sum": sum(r.sum for r in rows) % SUM_MODULUS}


def lookup(kind: str, key: str) -> Card | None:
    return Card.get_or_none((Card.kind == kind) & (Card.id == key))


def text(row: Card, role: str) -> str:
    """A live card's JSON as a device of this role may hold it: the owner's part is its own key."""
    if role == "owner" and row.own is not None:
        return f'{row.open[:-1]},"own":{row.own}}}'
    return row.open


def whole(row: Card, role: str) -> dict:
    return json.loads(text(row, role))
