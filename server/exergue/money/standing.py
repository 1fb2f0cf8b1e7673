"""How a coin stands in the books: what is there of it, what left, and where it is."""

from dataclasses import dataclass, field, replace
from datetime import date
from typing import NamedTuple

from .lots import Line, Unit, share

MEMO_STATES = {"memo": "on memo", "consignment": "on consignment"}


@dataclass(slots=True)
class Elsewhere:
    """Somebody's coin that is with us, or ours that is with somebody."""

    coin: str
    party: str  # whose it is, or who has it
    net: int | None  # agreed for its owner, cents
    kind: str  # memo, consignment; of ours also grading, conservation, display, other
    fact: str
    date: date
    due: date | None = None
    pieces: int = 1
    away: str = ""  # somebody's that we have sent on: its state, such as at grading

    def some(self, pieces: int) -> "Elsewhere":
        """So many of its pieces, with their share of what is agreed. Changes nothing."""
        net = None if self.net is None else share(self.net, self.pieces, pieces)
        return replace(self, pieces=pieces, net=net)

    def without(self, part: "Elsewhere", sign: int = -1) -> "Elsewhere | None":
        """What is left when a part goes; None: nothing."""
        pieces = self.pieces + sign * part.pieces
        net = None if self.net is None else self.net + sign * (part.net or 0)
        return replace(self, pieces=pieces, net=net) if pieces else None


@dataclass(slots=True)
class Disposal:
    """Pieces with one basis and one holding period that left. Cents; None: not known."""

    fact: str
    coin: str
    pieces: int
    acquired: date | None  # the day from which the term counts
    disposed: date
    proceeds: int  # net of selling costs
    basis: int | None
    gain: int | None
    term: str | None  # short or long
    held: str
    why: str  # sold, traded, missing, lost, stolen, destroyed
    note: str
    part: Unit  # what left, to put back at its old basis and holding period
    undone: date | None = None  # put back by a return, or found again


@dataclass(slots=True)
class Record:
    """One coin record of ours, or one that was."""

    coin: str
    held: str
    lot: bool
    state: str = "in stock"
    units: list[Unit] = field(default_factory=list)  # in the order they came
    gone: tuple[Disposal, ...] = ()  # all that left
    out: Elsewhere | None = None  # where it is, if not in the case


def missing(record: Record) -> list[Disposal]:
    """What is lost and not found again."""
    return [each for each in record.gone if each.undone is None and each.why not in ("sold", "traded")]


class Standing(NamedTuple):
    """A coin that is ours."""

    coin: str
    pieces: int
    cost: int | None  # all-in; None: not known
    held: str
    state: str
    came: date  # the first of what is there


class CostOf(NamedTuple):
    """What a coin cost: what is there of it, or if nothing is, what left last."""

    lines: tuple[Line, ...]  # each with the event it came from
    total: int | None  # None: not known
    pieces: int
    acquired: date | None
    held: str
    state: str


def standing(record: Record) -> Standing:
    units = record.units
    if len(units) == 1:
        return Standing(record.coin, units[0].pieces, units[0].cost, record.held, record.state, units[0].came)
    costs = [unit.cost for unit in units]
    return Standing(record.coin, sum(unit.pieces for unit in units), None if None in costs else sum(costs), record.held,
                    record.state, units[0].came)  # fmt: skip


def cost_of(record: Record) -> CostOf:
    units = record.units
    if not units and record.gone:
        units = [each.part for each in record.gone if each.fact == record.gone[-1].fact and not each.undone]
    lines = tuple(line for unit in units for line in unit.lines)
    total = None if any(unit.unknown for unit in units) else sum(line.cents for line in lines)
    since = [unit.since for unit in units]
    first = None if not since or None in since else min(since)
    return CostOf(lines, total, sum(unit.pieces for unit in units), first, record.held, record.state)
