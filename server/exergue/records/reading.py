"""What the desk reads. Everything here runs inside `book.connected()` and changes nothing."""

from dataclasses import dataclass

from peewee import Case, fn

from . import cards, devices
from .fold.decide import ROWS
from .knowledge import catalogue, denomination_name, type_name
from .tables import (
    About, Blank, Bought, Card, Coin, Contact, Evidence, Fact, Import, Look, Purchase, Sale, Setting, Show, Voided,
    Want,
)  # fmt: skip

ORDERS = {
    "id": [Coin.id],
    "newest": [Coin.fact_seq.desc()],
    "date": [Coin.year, Coin.mint, Coin.id],
    "grade": [Coin.grade_number.desc(), Coin.id],
    "cost": [Coin.cost.desc(), Coin.id],
    "ask": [Coin.ask.desc(), Coin.id],
    "place": [Coin.place, Coin.id],
}


@dataclass(frozen=True)
class Page:
    """One page of cards, and the sums over everything that was found (cents)."""

    rows: list[dict]
    total: int
    page: int
    pages: int
    cost: int
    ask: int


def found(text="", denom="", state="", place="", grade_from=None, grade_to=None, type=""):  # noqa: A002
    """Query of the coins that fit: every word of `text` is somewhere in what is said of the coin."""
    query = Coin.select()
    for word in text.lower().split():
        query = query.where(Coin.words.contains(word))
    for field, value in ((Coin.denom, denom), (Coin.state, state), (Coin.place, place), (Coin.type, type)):
        if value:
            query = query.where(field == value)
    if grade_from is not None:
        query = query.where(Coin.grade_number >= grade_from)
    if grade_to is not None:
        query = query.where(Coin.grade_number <= grade_to)
    return query


def order_by(order: str) -> list:
    """The columns of an order; “what” goes by denomination, type and date as the trade lists them."""
    if order in ORDERS:
        return ORDERS[order]
    known = catalogue()
    first_year = {key: known.types[key].years[0] for key in known.types}
    denom = Case(Coin.denom, [(key, one.order) for key, one in known.denominations.items()], 9999)
    type_ = Case(Coin.type, list(first_year.items()), 9999)
    return [denom, type_, Coin.title, Coin.year, Coin.mint, Coin.id]


def stock(order="what", page=1, per=50, **filters) -> Page:
    """A page of coin cards, whole (with the owner's part)."""
    query = found(**filters)
    # What others lent us is no stock of ours. Of a lot what is left counts, as coin_money.asking has it.
    ours = Case(None, [(Coin.theirs == True, 0), ((Coin.left > 0) & (Coin.left < Coin.pieces), (2 * Coin.ask * Coin.left + Coin.pieces) / (2 * Coin.pieces))], Coin.ask)  # noqa: E712
    total, cost, ask = query.select(
        fn.COUNT(Coin.id), fn.COALESCE(fn.SUM(Coin.cost_left), 0), fn.COALESCE(fn.SUM(ours), 0)
    ).tuples()[0]
    pages = max(1, -(-total // per))
    page = min(max(1, page), pages)
    ids = [row.id for row in query.select(Coin.id).order_by(*order_by(order)).paginate(page, per)]
    return Page(coins(ids), total, page, pages, cost, ask)


def coins(ids: list[str]) -> list[dict]:
    """Whole cards of these coins, in this order."""
    held = {row.id: row for row in Card.select().where(Card.kind == "coin", Card.id.in_(ids))}
    return [cards.whole(held[key], "owner") for key in ids if key in held and held[key].open is not None]


def coin_ids(**filters) -> list[str]:
    return [key for (key,) in found(**filters).select(Coin.id).order_by(*order_by("what")).tuples()]


def held_by_type() -> dict[str, list[int | None]]:
    """type → the years of the coins in stock of it."""
    found: dict[str, list[int | None]] = {}
    for key, year in Coin.select(Coin.type, Coin.year).where(Coin.state == "in stock", Coin.type != "").tuples():
        found.setdefault(key, []).append(year)
    return found


def history(coin_id: str) -> list[dict]:
    """Every fact about a coin, oldest first, with who sent it and what became of it."""
    ids = {key for (key,) in About.select(About.fact).where(About.coin == coin_id).tuples()}
    ids |= {str(row.purchase_id) for row in Bought.select().where(Bought.coin == coin_id)}
    return _lines(Fact.select().where(Fact.id.in_(list(ids))).order_by(Fact.seq))


def journal(limit=100, before: int | None = None, device: str = "") -> list[dict]:
    """The newest facts, newest first."""
    query = Fact.select().order_by(Fact.seq.desc()).limit(limit)
    if before is not None:
        query = query.where(Fact.seq < before)
    if device:
        query = query.where(Fact.device == device)
    return _lines(query)


def of_kinds(kinds) -> list[dict]:
    """Every fact of these kinds, in the order of the book."""
    return _lines(Fact.select().where(Fact.kind.in_(list(kinds))).order_by(Fact.seq))


def returns_of(sale: str) -> list[dict]:
    """Every return of what this entry sold, in the order of the book."""
    return _lines(Fact.select().where(Fact.kind == "return", fn.json_extract(Fact.body, "$.of") == sale).order_by(Fact.seq))


def _lines(query) -> list[dict]:
    rows = list(query)
    names = devices.names()
    voided = {v.fact: v.by for v in Voided.select().where(Voided.fact.in_([r.id for r in rows]))}
    return [
        {
            "seq": r.seq, "fact": r.id, "n": r.n, "kind": r.kind, "when_ms": r.when_ms, "received_ms": r.received_ms,
            "device": r.device, "device_name": names.get(r.device, "a device of before"), "verdict": r.verdict,
            "code": r.code, "message": r.message, "now": r.now, "body": r.body, "voided": voided.get(r.id),
        }
        for r in rows
    ]  # fmt: skip


def fact(fact_id: str) -> dict | None:
    lines = _lines(Fact.select().where(Fact.id == fact_id))
    return lines[0] if lines else None


def _cards(kind: str) -> list[dict]:
    return [cards.whole(row, "owner") for row in Card.select().where(Card.kind == kind, Card.open.is_null(False))]


def wants() -> list[dict]:
    """Whole want cards, most pressing first."""
    rank = {"high": 0, "usual": 1, "low": 2}
    return sorted(_cards("want"), key=lambda w: (rank.get(w["priority"], 1), w["title"], w["years"], w["id"]))


def goals() -> list[dict]:
    """Whole cards of the sets, by name."""
    return sorted(_cards("goal"), key=lambda g: (g["name"].lower(), g["id"]))


_NOT_FILLED = Want.id.not_in(Bought.select(Bought.want).where(Bought.want.is_null(False)))


def open_wants():
    """Query of the wants on the list: those that nothing has filled, and that nobody took off."""
    return Want.select().where(Want.gone == "", _NOT_FILLED)


def found_wants() -> list[dict]:
    """Wants that a purchase or a trade filled, the latest first: [{id, title, years, coin, date, show, cost}]."""
    query = (
        Want.select(Want, Purchase.date, Purchase.show, Bought.coin, Bought.total)
        .join(Bought, on=(Bought.want == Want.id))
        .join(Purchase, on=(Bought.purchase == Purchase.fact))
        .order_by(Purchase.date.desc(), Want.id, Bought.coin)
    )
    return [
        {"id": row["id"], "years": row["years"], "coin": row["coin"], "date": row["date"], "show": row["show"], "cost": row["total"],
         "title": cards.title(denomination_name(row["denom"]), type_name(row["type"]) or row["title"])}
        for row in query.dicts()
    ]  # fmt: skip


def dropped_wants() -> list[dict]:
    """Wants that somebody took off the list, the latest first: [{id, fact (that did it), when (ms), title, years}]."""
    query = Want.select(Want, Fact.when_ms).join(Fact, on=(Fact.id == Want.gone)).where(_NOT_FILLED).order_by(Fact.seq.desc())
    return [
        {"id": row["id"], "fact": row["gone"], "when": row["when_ms"], "years": row["years"],
         "title": cards.title(denomination_name(row["denom"]), type_name(row["type"]) or row["title"])}
        for row in query.dicts()
    ]  # fmt: skip


def contact_names() -> list[str]:
    """Names of the contacts, each once, in order."""
    rows = Contact.select(Contact.name).where(Contact.gone == "", Contact.name != "").distinct().tuples()
    return sorted((name for (name,) in rows), key=str.casefold)


def contacts() -> list[dict]:
    """Whole contact cards, by name."""
    return sorted(_cards("contact"), key=lambda one: (one["name"].lower(), one["id"]))


def sightings() -> list[dict]:
    """Whole sighting cards, the latest first."""
    return sorted(_cards("sighting"), key=lambda one: (one["date"], one["id"]), reverse=True)


def shows() -> list[dict]:
    """Whole show cards, latest first."""
    return sorted(_cards("show"), key=lambda s: (s["starts"], s["id"]), reverse=True)


def blanks() -> list[str]:
    """IDs of blank labels that no coin carries yet."""
    used = Coin.select(Coin.id)
    return [key for (key,) in Blank.select(Blank.id).where(Blank.id.not_in(used)).order_by(Blank.id).tuples()]


def evidence(denom="", type="", limit=200) -> list[dict]:  # noqa: A002
    """Recorded sales, latest first."""
    query = Evidence.select().order_by(Evidence.date.desc(), Evidence.fact).limit(limit)
    if denom:
        query = query.where(Evidence.denom == denom)
    if type:
        query = query.where(Evidence.type == type)
    return [dict(row.__data__) for row in query]


def sales(show: str = "") -> list[dict]:
    """Sales that stand, oldest first, of one show or all."""
    query = Sale.select().where(Sale.live == True).order_by(Sale.date, Sale.fact)  # noqa: E712
    return [dict(row.__data__) for row in (query.where(Sale.show == show) if show else query)]


def purchases(show: str = "") -> list[dict]:
    """Purchases (and nothing that came in another way) that stand with their coins [{coin, total}], oldest first, of one show or all."""
    query = Purchase.select().where(Purchase.how == "purchase").order_by(Purchase.date, Purchase.fact)
    rows = [dict(row.__data__) for row in (query.where(Purchase.show == show) if show else query)]
    bought: dict[str, list] = {}
    for row in Bought.select().order_by(Bought.coin):
        bought.setdefault(str(row.purchase_id), []).append({"coin": str(row.coin_id), "total": row.total})
    return [row | {"coins": bought.get(row["fact"], [])} for row in rows]


def looks(open_only=True) -> list[dict]:
    """What needs a look, oldest first, each with the fact that could not be merged."""
    query = Look.select().order_by(Look.id)
    rows = list(query.where(Look.open == True) if open_only else query)  # noqa: E712
    facts = {line["fact"]: line for line in _lines(Fact.select().where(Fact.id.in_([r.fact for r in rows])))}
    return [dict(row.__data__) | {"line": facts.get(row.fact)} for row in rows]


def places() -> list[dict]:
    """Where coins are: [{place, coins}], by name."""
    query = Coin.select(Coin.place, fn.COUNT(Coin.id)).where(Coin.place != "").group_by(Coin.place)
    return [{"place": place, "coins": count} for place, count in query.order_by(Coin.place).tuples()]


def denominations() -> list[str]:
    """Keys of the denominations of which there is a coin."""
    return [key for (key,) in Coin.select(Coin.denom).where(Coin.denom != "").distinct().order_by(Coin.denom).tuples()]


def counts() -> dict:
    """Coins by state, and how many wants, shows, looks, recorded sales, blanks and facts there are."""
    by_state = dict(Coin.select(Coin.state, fn.COUNT(Coin.id)).group_by(Coin.state).tuples())
    return {
        "coins": sum(by_state.values()), "states": by_state,
        "theirs": Coin.select().where(Coin.theirs == True, Coin.left > 0).count(),  # noqa: E712
        "wants": open_wants().count(),
        "shows": Show.select().count(), "looks": Look.select().where(Look.open == True).count(),  # noqa: E712
        "evidence": Evidence.select().count(), "blanks": len(blanks()), "facts": Fact.select().count(),
        "imports": Import.select().count(), "settings": Setting.select().count(),
    }  # fmt: skip


def waiting_rows(offer: dict) -> list[dict]:
    """The rows [{coin, set}] of an entry that waits, because the label of one of its coins is on another."""
    return offer["body"][ROWS[offer.get("kind", "purchase")]]
