"""The journal's facts of money, in book order, with nothing left to look up: what the accounts are made from.

Undone and refused entries are left out, and so is what waits for a decision: a sale that clashes, an entry
whose label is on another coin. The lines of an entry that clash stand apart, under `contested`.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from ..money import shares
from . import quick
from .fold.decide import relabelled
from .tables import Bought, Coin, Fact, Look, Move, Sale, Voided
from .verdicts import REFUSED


@dataclass(frozen=True)
class Event:
    """One entry that stands. `when` is its device's clock in milliseconds since 1970, `body` as kinds.toml says, and:

    every row of coins has `pieces`; a coin that comes in has `cents` (what it counts as having cost, None: unknown)
    and `held`; a later cost's rows have `cents`; a ticket's rows have `price` and `costs`; a return's `coins` are rows
    {coin, pieces, cents}; `back` and `withdrawn` have `was`, {coin: state or way held before}. `payments` is [] where
    nobody told how it was paid.
    """

    id: str
    seq: int
    kind: str
    when: int
    body: dict


def events(book) -> Iterator[Event]:
    """Every entry about money or whereabouts that stands, in the order of the book. Use inside `connected()`."""
    held = book.setting("held")
    undone = Fact.id.not_in(Voided.select(Voided.fact))
    for fact in Fact.select().where(Fact.kind.in_(list(FILL)), Fact.verdict != REFUSED, undone).order_by(Fact.seq):
        body = FILL[fact.kind](fact, held)
        if body is not None:
            yield Event(fact.id, fact.seq, fact.kind, fact.when_ms, TEXTS[fact.kind] | body)


def _there(table: str, fact: Fact) -> bool:
    return quick.there(f"select 1 from {table} where fact = ?", fact.id)


def _paid(body: dict, total: int) -> list[dict]:
    """The payments of an entry, made of its one way where that is told."""
    if body.get("payments"):
        return body["payments"]
    return [{"how": body["payment"], "cents": total}] if body.get("payment") else []


def _moves(fact: Fact, step: str, live: bool = True) -> list[Move]:
    query = Move.select().where(Move.fact == fact.id, Move.step == step, Move.live == live)
    return list(query.order_by(Move.coin))


def _recorded(fact: Fact) -> dict:
    """The body as it went in: under another label, where a decision gave one."""
    if fact.code != "label_used_twice":
        return fact.body
    body = fact.body
    decided = Look.select().where(Look.kind == "label_used_twice", Look.choice == "new_id")
    looks = [look for look in decided if look.offer.get("purchase") == fact.id]
    for look in sorted(looks, key=lambda look: Fact.get(Fact.id == look.decided_by).seq):
        old = look.subject.split("/", 1)[1]
        body = relabelled(look.offer, old, Fact.get(Fact.id == look.decided_by).body.get("coin") or old)
    return body


def _coming(rows: list[dict], usual: str) -> list[dict]:
    """Rows of coins that come in, each with pieces, cents and the way it was held at first."""
    out = []
    for row in rows:
        coin = Coin.get_by_id(row["coin"])
        share = Bought.get_or_none(Bought.coin == coin.id)
        first = Move.select().where(Move.coin == coin.id, Move.step == "held", Move.live == True).order_by(Move.seq).first()  # noqa: E712
        way = (first.was if first else coin.held) or usual
        out.append(row | {"pieces": coin.pieces, "cents": share.total if share else None, "held": way})
    return out


def _purchase(fact: Fact, held: str) -> dict | None:
    if not _there("purchase", fact):
        return None
    body = _recorded(fact)
    return body | {"bought": _coming(body["bought"], held), "payments": _paid(body, shares.total(body["costs"]))}


def _acquired(fact: Fact, held: str) -> dict | None:
    if not _there("purchase", fact):
        return None
    body = _recorded(fact)
    return body | {"coins": _coming(body["coins"], held)}


def _cost(fact: Fact, held: str) -> dict | None:
    rows = quick.rows("select coin, total from added where fact = ? order by coin", fact.id)
    return fact.body | {"coins": [{"coin": coin, "cents": total} for coin, total in rows]} if rows else None


def _lines(fact: Fact, live: bool) -> list[dict]:
    rows = Sale.select().where(Sale.fact == fact.id, Sale.live == live).order_by(Sale.coin)
    return [{"coin": row.coin_id, "pieces": row.pieces, "price": row.price, "costs": row.costs} for row in rows]


def _sale(fact: Fact, held: str) -> dict | None:
    lines = _lines(fact, True)
    return fact.body | {"pieces": lines[0]["pieces"], "payments": _paid(fact.body, fact.body["price"])} if lines else None


def _ticket(fact: Fact, held: str) -> dict | None:
    lines = _lines(fact, True)
    return fact.body | {"sold": lines, "contested": _lines(fact, False)} if lines else None


def _return(fact: Fact, held: str) -> dict | None:
    rows = [{"coin": row.coin_id, "pieces": row.pieces, "cents": row.cents} for row in _moves(fact, "return")]
    return fact.body | {"coins": rows} if rows else None


def _trade(fact: Fact, held: str) -> dict | None:
    if not _there("deal", fact):
        return None
    body = _recorded(fact)
    out, contested = (
        [{"coin": row.coin_id, "pieces": row.pieces, "value": row.cents} for row in _moves(fact, "out", live)]
        for live in (True, False)
    )
    return body | {"out": out, "in": _coming(body["in"], held), "contested": contested}


def _memo(fact: Fact, held: str) -> dict | None:
    rows = _moves(fact, "off") + _moves(fact, "theirs")
    return fact.body | {"coins": [{"coin": row.coin_id, "pieces": row.pieces, "net": row.cents} for row in rows]} if rows else None


def _moved(step: str):
    def fill(fact: Fact, held: str) -> dict | None:
        rows = _moves(fact, step)
        was = {"was": {row.coin_id: row.was or (held if step == "held" else "") for row in rows}} if step in ("back", "held") else {}
        return fact.body | {"coins": [row.coin_id for row in rows]} | was if rows else None

    return fill


def _lost(fact: Fact, held: str) -> dict | None:
    rows = _moves(fact, "lost")
    return fact.body | {"pieces": rows[0].pieces, "reimbursed": rows[0].cents or 0} if rows else None


def _money(fact: Fact, held: str) -> dict | None:
    return fact.body if _there("deal", fact) else None


FILL = {
    "purchase": _purchase, "acquired": _acquired, "cost": _cost, "sale": _sale, "ticket": _ticket, "return": _return,
    "trade": _trade, "memo": _memo, "away": _moved("off"), "back": _moved("back"), "lost": _lost,
    "withdrawn": _moved("held"), "money": _money,
}  # fmt: skip
_DEAL = {"note": "", "show": None, "payments": []}
TEXTS = {  # what an entry says by saying nothing
    "purchase": _DEAL | {"from": "", "split": "even", "foreign": None, "receipt": None, "payment": None},
    "acquired": {"from": "", "note": ""},
    "cost": {"from": "", "note": "", "payments": []},
    "sale": _DEAL | {"to": "", "costs": [], "payment": None},
    "ticket": _DEAL | {"to": "", "costs": [], "discount": 0, "tax": None, "exempt": None},
    "return": {"note": "", "payments": [], "costs": [], "tax": 0},
    "trade": _DEAL | {"with": "", "costs": []},
    "memo": {"with": "", "due": None, "note": ""},
    "away": {"with": "", "note": ""},
    "back": {"note": ""},
    "lost": {"note": ""},
    "withdrawn": {"note": ""},
    "money": {"to_how": None, "about": "", "show": None, "place": "", "note": ""},
}
