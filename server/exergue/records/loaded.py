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
    of: str | None


class Laden(NamedTuple):
    """A coin's share of a later cost, whole and line by line, and the day from which it counts."""

    coin: str
    cents: int
    costs: list
    day: str


class Whole:
    """Rows by the fact that made them. Use inside `connected()`."""

    def __init__(self):
        self.purchases = {fact: (day, at) for fact, day, at in quick.rows('select fact, day, "at" from purchase')}
        self.deals = {fact for (fact,) in quick.rows("select fact from deal")}
        self.bought = {(fact, coin): (total, costs) for fact, coin, total, costs in quick.rows("select purchase, coin, total, costs from bought")}
        self.pieces, self.held = {}, {}
        for coin, pieces, held in quick.rows("select id, pieces, held from coin"):
            self.pieces[coin], self.held[coin] = pieces, held
        held = quick.rows("select coin, was from move where step = ? and live = ? order by seq desc", "held", True)
        self.held |= {coin: was for coin, was in held}  # the first of several counts: how it was held when it came
        self.added = defaultdict(list)
        for fact, *rest in quick.rows("select fact, coin, total, costs, day from added order by coin"):
            self.added[fact].append(Laden(rest[0], rest[1], json.loads(rest[2]), rest[3]))
        self.sold = {True: defaultdict(list), False: defaultdict(list)}
        for fact, live, coin, pieces, price, costs in quick.rows("select fact, live, coin, pieces, price, costs from sale order by coin"):
            self.sold[bool(live)][fact].append(Sold(coin, pieces, price, json.loads(costs)))
        self.moves = defaultdict(list)
        self.days: dict[str, str] = {}
        for fact, step, live, day, *rest in quick.rows("select fact, step, live, day, coin, was, pieces, cents, of from move order by coin"):
            self.moves[fact, step, bool(live)].append(Moved(*rest))
            self.days[fact] = day
        self.more = {(fact, row.coin): row.pieces for (fact, step, live), rows in self.moves.items() if step == "came" and live for row in rows}
        self.ours = {(fact, row.coin): row.pieces for (fact, step, live), rows in self.moves.items() if step == "ours" and live for row in rows}
        for (_, coin), pieces in self.more.items():
            self.pieces[coin] -= pieces

    def day(self, fact: str) -> str | None:
        """The day from which an entry counts that moved a coin, or is a later cost of one."""
        laden = self.added.get(fact)
        return laden[0].day if laden else self.days.get(fact)


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
