"""Cards: what a device may hold of one thing, in an open part and a part for the owner alone."""

import json
from zlib import crc32

from ..coins import grades
from . import coin_money, floor_cards, goals, quick, units
from .knowledge import date_text, denomination_name, title, type_name
from .tables import Card, CardSum, Setting, Show, Want

SUM_MODULUS = 1 << 48


def coin(key: str):
    found = quick.row(_COIN, key)
    if found is None:
        return None
    row = dict(zip(_COIN_FIELDS, found, strict=True))
    cost, floor, held, theirs = (row.pop(name) for name in ("cost", "floor", "held", "theirs"))
    bought, added, moved, packed, papers = (row.pop(name) for name in ("bought", "added", "moved", "packed", "papers"))
    happened = coin_money.moves(key) if moved else []
    own_part = {"floor": floor, "cost": cost} | (coin_money.purchase(key) if bought else {"costs": [], "purchase": None})
    given = bought and (own_part["purchase"] or {}).get("how") == "gift"
    made = units.worked(key, row["pieces"]) if (added or row["pieces"] > 1 or given) and not theirs else None
    own_part |= coin_money.history(row, cost, happened, made) if happened else {"sale": None}
    if held:
        own_part["held"] = held
    if added or row["pieces"] > 1:
        own_part["costs"] = own_part["costs"] + coin_money.later_costs(key, made)
    if made:
        own_part |= coin_money.parts(key, made)
    if papers:
        own_part |= coin_money.receipts(key)
    cost_left = row.pop("cost_left")
    if 0 < row["left"] < row["pieces"]:
        own_part["cost_left"] = cost_left
    if row["pieces"] == 1:
        del row["pieces"], row["left"]
    denomination, name = denomination_name(row["denom"]), type_name(row["type"])
    said = row["title"]
    open_part = row | {
        "denomName": denomination, "typeName": name, "title": title(denomination, name or said),
        "dateText": date_text(row["year"], row["mint"]), "publish": json.loads(row["publish"]),
        "gradeName": grades.parse(row["grade"]).name if row["grade"] else "",
        "notes": [dict(zip(("fact", "when", "text", "by"), r, strict=True)) for r in quick.rows(_NOTES, key)],
        "checks": {k: {"answer": a, "note": n, "when": w} for k, a, n, w in quick.rows(_CHECKS, key)},
        "photos": [dict(zip(("photo", "side", "fact"), r, strict=True)) for r in quick.rows(_PHOTOS, key)],
        "looks": quick.row(_LOOKS, f"coin/{key}", True)[0],
    }  # fmt: skip
    if said and name:
        open_part["titleText"] = said
    if theirs:
        open_part["theirs"] = True
    if packed:
        open_part["packed"] = floor_cards.packed(key)
    if bought:
        open_part |= coin_money.came(key)
    return open_part | coin_money.whereabouts(row["state"], happened), own_part


_COIN_FIELDS = (
    "id", "denom", "type", "title", "year", "mint", "variety", "grade", "gradeNumber", "certified_by", "certificate",
    "place", "state", "ask", "publish", "cost", "floor", "pieces", "left", "held", "theirs", "bought", "added", "moved",
    "packed", "papers", "cost_left",
)  # fmt: skip
_COIN = (
    "select id, denom, type, title, year, mint, variety, grade, grade_number, certified_by, certificate, "
    'place, state, ask, publish, cost, floor, pieces, "left", held, theirs, '
    "exists (select 1 from bought where coin = coin.id), exists (select 1 from added where coin = coin.id), "
    "exists (select 1 from move where coin = coin.id), exists (select 1 from packed where coin = coin.id), exists (select 1 from receipt), cost_left "
    "from coin where id = ?"
)
_NOTES = "select fact, when_ms, text, device from note where coin = ? order by when_ms, fact"
_CHECKS = 'select key, answer, note, when_ms from "check" where coin = ?'
_PHOTOS = "select photo, side, fact from photo where coin = ? order by fact"
_LOOKS = "select count(*) from look where subject = ? and open = ?"


def is_found(want: str) -> bool:
    """A purchase or a trade that stands brought what was sought: the want is off the list."""
    return quick.there("select 1 from bought where want = ?", want)


def want(key: str):
    row = Want.get_or_none(Want.id == key)
    if row is None or row.gone or is_found(key):
        return None
    name = type_name(row.type)
    denomination = denomination_name(row.denom)
    for_set = {key: getattr(row, key) for key in ("goal", "slot", "types") if getattr(row, key)}
    return {
        "id": row.id, "denom": row.denom, "denomName": denomination, "type": row.type, "typeName": name,
        "title": title(denomination, name or row.title), "years": row.years, "grade_from": row.grade_from,
        "grade_to": row.grade_to, "priority": row.priority, "note": row.note, **for_set,
    } | floor_cards.where_seen("want", row.id), {"ceiling": row.ceiling}  # fmt: skip


def show(key: str):
    row = Show.get_or_none(Show.id == key)
    if row is None:
        return None
    tax = {name: getattr(row, name) for name in ("tax_rate", "tax_place") if getattr(row, name)}
    head = {"id": row.id, "name": row.name, "place": row.place, "table": row.table, "starts": row.starts,
            "ends": row.ends, "note": row.note}  # fmt: skip
    return head | tax | floor_cards.standing(key), {"float": row.float} | floor_cards.money(row)


def blank(key: str):
    found = quick.row(_BLANK, key)
    return ({"id": found[0], "printed": found[1]}, None) if found else None


_BLANK = "select id, printed_ms from blank where id = ? and not exists (select 1 from coin where coin.id = blank.id)"


def book(key: str):
    kept = {row.key: row.value for row in Setting.select()}
    lots = {"lots": kept["lots"]} if kept.get("lots") == "specific" else {}
    return {"name": kept.get("name", ""), "currency": kept.get("currency", "USD")}, {"costCode": kept.get("cost_code")} | lots


MAKERS = {"coin": coin, "want": want, "show": show, "blank": blank, "book": book, "goal": goals.card, **floor_cards.MAKERS}


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
        rows = [{"kind": kind, "count": count, "sum": total} for kind, (count, total) in sorted(self.now.items()) if count]
        if rows:
            CardSum.replace_many(rows).execute()
        if len(rows) < len(self.now):  # a card that came and went within one turn leaves no line, nor does the last of its kind
            CardSum.delete().where(CardSum.kind.not_in([row["kind"] for row in rows])).execute()


def digest(kinds) -> dict:
    """{count, sum} over the live cards of these kinds."""
    rows = list(CardSum.select().where(CardSum.kind.in_(list(kinds))))
    return {"count": sum(r.count for r in rows), "sum": sum(r.sum for r in rows) % SUM_MODULUS}


def lookup(kind: str, key: str) -> Card | None:
    found = quick.row("select seq, open, own from card where kind = ? and id = ?", kind, key)
    return Card(kind=kind, id=key, seq=found[0], open=found[1], own=found[2]) if found else None


def keep(kind: str, key: str, seq: int, open_text: str | None, own_text: str | None) -> None:
    """Write a card's new version; no `open_text` leaves a tombstone."""
    quick.run(
        "insert into card (kind, id, seq, open, own) values (?, ?, ?, ?, ?) on conflict (kind, id) "
        "do update set seq = excluded.seq, open = excluded.open, own = excluded.own",
        kind, key, seq, open_text, own_text,
    )  # fmt: skip


def text(row: Card, role: str) -> str:
    """A live card's JSON as a device of this role may hold it."""
    return joined(row.open, row.own, role)


def joined(open_text: str, own_text: str | None, role: str) -> str:
    """A card's JSON from its parts: the owner's part is its own key."""
    if role == "owner" and own_text is not None:
        return f'{open_text[:-1]},"own":{own_text}}}'
    return open_text


def whole(row: Card, role: str) -> dict:
    return json.loads(text(row, role))
