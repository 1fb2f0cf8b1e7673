"""The journal's facts of money, in book order, with nothing left to look up: what the accounts are made from.

Undone and refused entries are left out, and so is what waits for a decision: a sale that clashes, an entry
whose label is on another coin. The lines of an entry that clash stand apart, under `contested`.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass

from ..money import shares
from . import loaded
from .fold.decide import relabelled
from .loaded import Line, Whole
from .tables import Fact, Look


@dataclass(frozen=True)
class Event:
    """One entry that stands. `when` is its device's clock in milliseconds since 1970; it counts from `day`, and stands at
    `at` among what counts from that day (fold/dating.py). `body` is as kinds.toml says, and:

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
    day: str
    at: int


def events(book) -> Iterator[Event]:
    """Every entry about money or whereabouts that stands, in the order of the book. Use inside `connected()`."""
    whole, held = Whole(), book.setting("held")
    for fact in loaded.facts(tuple(FILL)):
        body = FILL[fact.kind](fact, held, whole)
        if body is not None:
            day, at = whole.purchases.get(fact.id) or (whole.day(fact.id) or body["date"], 2 * fact.seq)
            yield Event(fact.id, fact.seq, fact.kind, fact.when_ms, TEXTS[fact.kind] | body, day, at)


def _paid(body: dict, total: int) -> list[dict]:
    """The payments of an entry, made of its one way where that is told."""
    if body.get("payments"):
        return body["payments"]
    return [{"how": body["payment"], "cents": total}] if body.get("payment") else []


def _recorded(fact: Line) -> dict:
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


def _coming(fact: Line, rows: list[dict], usual: str, whole: Whole) -> list[dict]:
    """Rows of coins that come in, each with pieces, cents and the way it was held at first; or `more` pieces of a lot."""
    made = []
    for row in rows:
        coin, more = row["coin"], whole.more.get((fact.id, row["coin"]))
        total, costs = whole.bought[fact.id, coin]
        pieces = whole.ours.get((fact.id, coin)) or whole.pieces[coin]
        said = {"pieces": more, "more": True} if more else {"pieces": pieces, "held": whole.held[coin] or usual}
        made.append(row | {"cents": total, "costs": json.loads(costs)} | said)
    return made


def _purchase(fact: Line, held: str, whole: Whole) -> dict | None:
    if fact.id not in whole.purchases:
        return None
    body = _recorded(fact)
    return body | {"bought": _coming(fact, body["bought"], held, whole), "payments": _paid(body, shares.total(body["costs"]))}


def _acquired(fact: Line, held: str, whole: Whole) -> dict | None:
    if fact.id not in whole.purchases:
        return None
    body = _recorded(fact)
    return body | {"coins": _coming(fact, body["coins"], held, whole)}


def _cost(fact: Line, held: str, whole: Whole) -> dict | None:
    rows = [row._asdict() for row in whole.added[fact.id]]
    return fact.body | {"coins": rows} if rows else None


def _lines(fact: Line, whole: Whole, live: bool) -> list[dict]:
    of = {row.coin: row.of for row in whole.moves[fact.id, "out", live]}
    return [row._asdict() | {"of": of.get(row.coin)} for row in whole.sold[live][fact.id]]


def _sale(fact: Line, held: str, whole: Whole) -> dict | None:
    lines = _lines(fact, whole, True)
    return fact.body | {"pieces": lines[0]["pieces"], "payments": _paid(fact.body, fact.body["price"])} if lines else None


def _ticket(fact: Line, held: str, whole: Whole) -> dict | None:
    lines = _lines(fact, whole, True)
    return fact.body | {"sold": lines, "contested": _lines(fact, whole, False)} if lines else None


def _return(fact: Line, held: str, whole: Whole) -> dict | None:
    rows = [{"coin": row.coin, "pieces": row.pieces, "cents": row.cents} for row in whole.moves[fact.id, "return", True]]
    return fact.body | {"coins": rows} if rows else None


def _trade(fact: Line, held: str, whole: Whole) -> dict | None:
    if fact.id not in whole.deals:
        return None
    body = _recorded(fact)
    borne = _borne(body)
    out, contested = (
        [{"coin": row.coin, "pieces": row.pieces, "value": row.cents, "of": row.of, "costs": borne[row.coin]}
         for row in whole.moves[fact.id, "out", live]]
        for live in (True, False)
    )  # fmt: skip
    return body | {"out": out, "in": _coming(fact, body["in"], held, whole), "contested": contested}


def _borne(body: dict) -> dict[str, list]:
    """What each coin that goes out by a trade bears of its costs, as the fold divides them."""
    values = [row["value"] for row in body["out"]]
    parts = shares.split_costs(body.get("costs") or [], values if any(values) else [1] * len(values))
    return {row["coin"]: part for row, part in zip(body["out"], parts, strict=True)}


def _memo(fact: Line, held: str, whole: Whole) -> dict | None:
    rows = whole.moves[fact.id, "off", True]
    rows = rows + [row._replace(pieces=whole.pieces[row.coin]) for row in whole.moves[fact.id, "theirs", True]]
    return fact.body | {"coins": [{"coin": row.coin, "pieces": row.pieces, "net": row.cents} for row in rows]} if rows else None


def _moved(step: str):
    def fill(fact: Line, held: str, whole: Whole) -> dict | None:
        rows = whole.moves[fact.id, step, True]
        was = {"was": {row.coin: row.was or (held if step == "held" else "") for row in rows}} if step in ("back", "held") else {}
        return fact.body | {"coins": [row.coin for row in rows]} | was if rows else None

    return fill


def _lost(fact: Line, held: str, whole: Whole) -> dict | None:
    rows = whole.moves[fact.id, "lost", True]
    return fact.body | {"pieces": rows[0].pieces, "reimbursed": rows[0].cents or 0, "of": rows[0].of} if rows else None


def _money(fact: Line, held: str, whole: Whole) -> dict | None:
    return fact.body if fact.id in whole.deals else None


FILL = {
    "purchase": _purchase, "acquired": _acquired, "cost": _cost, "sale": _sale, "ticket": _ticket, "return": _return,
    "trade": _trade, "memo": _memo, "away": _moved("off"), "back": _moved("back"), "lost": _lost,
    "withdrawn": _moved("held"), "money": _money,
}  # fmt: skip
_DEAL = {"note": "", "show": None, "payments": []}
TEXTS = {  # what an entry says by saying nothing
    "purchase": _DEAL | {"from": "", "split": "even", "foreign": None, "receipt": None, "payment": None},
    "acquired": {"from": "", "note": "", "payments": []},
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
    "money": {"to_how": None, "to": "", "about": "", "show": None, "place": "", "note": ""},
}
