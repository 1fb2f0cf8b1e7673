"""What the accounts read of the tables, taken out once for a whole book: a query an entry took most of the time."""

import json
from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from . import quick
from .verdicts import REFUSED


class Line(NamedTuple):
    """A fact as the accounts need it."""

    id: str
    seq: int
    kind: str
    when_ms: int
    code: str | None
    body: dict


class Sold(NamedTuple):
    coin: str
    pieces: int
    price: int
    costs: list


class Moved(NamedTuple):
    coin: str
    was: str
    pieces: int
    cents: int | None


class Whole:
    """Rows by the fact that made them. Use inside `connected()`."""

    def __init__(self):
        self.purchases = {fact for (fact,) in quick.rows("select fact from purchase")}
        self.deals = {fact for (fact,) in quick.rows("select fact from deal")}
        self.cost = dict(quick.rows("select coin, total from bought"))
        self.pieces, self.held = {}, {}
        for coin, pieces, held in quick.rows("select id, pieces, held from coin"):
            self.pieces[coin], self.held[coin] = pieces, held
        held = quick.rows("select coin, was from move where step = ? and live = ? order by seq desc", "held", True)
        self.held |= {coin: was for coin, was in held}  # the first of several counts: how it was held when it came
        self.added = defaultdict(list)
        for fact, coin, total in quick.rows("select fact, coin, total from added order by coin"):
            self.added[fact].append((coin, total))
        self.sold = {True: defaultdict(list), False: defaultdict(list)}
        for fact, live, coin, pieces, price, costs in quick.rows("select fact, live, coin, pieces, price, costs from sale order by coin"):
            self.sold[bool(live)][fact].append(Sold(coin, pieces, price, json.loads(costs)))
        self.moves = defaultdict(list)
        for fact, step, live, *rest in quick.rows("select fact, step, live, coin, was, pieces, cents from move order by coin"):
            self.moves[fact, step, bool(live)].append(Moved(*rest))


def entered() -> list[tuple[str, str, int]]:
    """(coin, fact, its number) of the coins that were put in the book alone, by no purchase or other entry of money."""
    return quick.rows("select c.id, f.id, f.seq from coin c join fact f on f.id = c.made_by where f.kind = ? order by f.seq", "coin.add")


def facts(kinds: tuple[str, ...]) -> Iterator[Line]:
    """Facts of these kinds that were not refused and not undone, in the order of the book."""
    marks = ", ".join("?" * len(kinds))
    sql = (
        f"select id, seq, kind, when_ms, code, body from fact where kind in ({marks}) and verdict <> ? "
        "and id not in (select fact from voided) order by seq"
    )
    for *head, body in quick.rows(sql, *kinds, REFUSED):
        yield Line(*head, json.loads(body))
