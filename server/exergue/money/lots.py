"""Units of cost: the pieces that one event brought into one record, and what leaves of them.

The rule for a part: the cost of a unit lies evenly on its pieces, and the odd cents on those that leave first. So n of N
pieces cost n * q + min(n, r), where q, r = divmod(cents, N): a largest remainder that is cumulative. Whoever splits again
what is left gets the same shares (the odd cents left are r - n over N - n pieces), so a lot is in effect split once, and
when the last piece leaves, the whole has left to the cent. A later cost lies on the pieces that are then there.

Which pieces leave: those named, or the first in (FIFO); Reg. 1.1012-1(c) has both for stock, coins go by the same
(common practice, no source). Single coins are always specific.
"""

from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple

from .events import BadEntry, Out
from .gains import GiftBasis


class Line(NamedTuple):
    """One line of cost, and the event it came from."""

    what: str
    cents: int
    fact: str


def share(cents: int, pieces: int, leaving: int) -> int:
    """What the next `leaving` of `pieces` alike pieces cost together, of `cents` for all."""
    each, odd = divmod(cents, pieces)
    return leaving * each + min(leaving, odd)


def some(cents: int, pieces: int, first: int, count: int) -> int:
    """What `count` of `pieces` alike pieces cost after `first` of them went before; `cents` is what all cost together."""
    return share(cents, pieces, first + count) - share(cents, pieces, first)


def asked(cents: int, pieces: int, count: int) -> int:
    """What is asked for `count` of `pieces`; `cents` is asked for all, and lies evenly on them. Rounded half up."""
    return (2 * cents * count + pieces) // (2 * pieces)


@dataclass(slots=True)
class Unit:
    """Pieces with one cost and one holding period."""

    coin: str
    fact: str  # the event that brought it
    how: str  # bought, traded, opening, inherited, gift, found, entered
    came: date
    since: date | None  # the day of acquisition that counts; None: not known
    order: int  # among those of its day
    pieces: int
    lines: tuple[Line, ...]
    unknown: bool = False  # what it cost to get is not known; lines may hold later costs
    value: int | None = None  # a gift: its value when given; None: not known

    @property
    def cents(self) -> int:
        """The known cost."""
        lines = self.lines
        return lines[0].cents if len(lines) == 1 else sum([line.cents for line in lines])

    @property
    def cost(self) -> int | None:
        return None if self.unknown else self.cents

    def basis(self) -> tuple[int | None, GiftBasis | None]:
        """What a gain is reckoned from: a cost, or the bases of a gift; the first line of a gift's cost is the donor's basis."""
        if self.how != "gift":
            return self.cost, None
        if self.unknown:
            return None, GiftBasis(None, self.value)
        donors = self.lines[0].cents
        return None, GiftBasis(donors, self.value, added=self.cents - donors)

    def add(self, lines: tuple[Line, ...]) -> None:
        self.lines += lines

    def split_off(self, leaving: int) -> "Unit":
        """A unit of the next `leaving` pieces, with their cost; it is the unit itself when all leave."""
        if leaving == self.pieces:
            return self
        taken, left = [], []
        for what, cents, fact in self.lines:
            part = share(cents, self.pieces, leaving)
            taken.append(Line(what, part, fact))
            left.append(Line(what, cents - part, fact))
        value = None if self.value is None else share(self.value, self.pieces, leaving)
        part, self.lines = replace(self, pieces=leaving, value=value, lines=tuple(taken)), tuple(left)
        self.value = None if value is None else self.value - value
        self.pieces -= leaving
        return part


def first_in(unit: Unit) -> tuple:
    return unit.came, unit.order


def pick(coin: str, units: list[Unit], line: Out, method: str) -> list[tuple[Unit, int]]:
    """Which units a part leaves from, and how many pieces of each; `units` are in the order they came. Changes nothing.

    `method` is fifo or specific; a line that names the event that brought its pieces is specific anyway. Raises BadEntry.
    """
    if line.of is not None:
        named = [unit for unit in units if unit.fact == line.of]
        if not named:
            raise BadEntry(f"No pieces of {coin} are here from the entry {line.of}.")
        units = named
    there = units[0].pieces if len(units) == 1 else sum(unit.pieces for unit in units)
    wanted = there if line.pieces is None else line.pieces
    if wanted < 1:
        raise BadEntry(f"Say how many pieces of {coin} leave, at least 1.")
    if wanted > there:
        raise BadEntry(f"{wanted} pieces of {coin} cannot leave, since {there} {'is' if there == 1 else 'are'} there.")
    if wanted < there and method == "specific" and len({unit.fact for unit in units}) > 1:
        raise BadEntry(f"Say from which purchase the {wanted} pieces of {coin} are: this book does not take the first in.")
    chosen = []
    for unit in units:
        leaving = min(unit.pieces, wanted)
        chosen.append((unit, leaving))
        wanted -= leaving
        if not wanted:
            break
    return chosen
