"""Coins that came otherwise than by purchase or trade: what they count as having cost, and since when.

Inherited: value at death, always long term (IRC 1014, 1223(9): from memory). Gift: IRC 1015, 1223(2), Reg. 1.1015-1 and
1.1015-4. Found: face value. Opening: as far as known; an unknown cost is never taken for nothing.
Not tax advice: local rules and a licensed preparer decide.
"""

from typing import NamedTuple

from .events import Acquired, BadEntry, In
from .lots import Line, Unit

WAYS = ("opening", "inherited", "gift", "found", "entered")


class Given(NamedTuple):
    """The bases of a gift, cents; None: not known."""

    gain: int | None
    loss: int | None
    tacked: bool  # the donor's basis counts, and so does the donor's time


def given(basis: int | None, value: int | None, gift_tax: int = 0, paid: int = 0) -> Given:
    """Bases of a gift, or of a part gift: the greater of price paid and donor's basis, for a loss not above the value.

    `gift_tax` is the addition for gift tax, already worked out (IRC 1015(d)).
    """
    if basis is None:
        return Given(None, None, True)
    gain = max(basis, paid) + gift_tax
    return Given(gain, None if value is None else min(gain, value), basis >= paid)


def unit_of(event: Acquired, line: In) -> Unit:
    """The unit of cost that a line of the event brings. Raises BadEntry."""
    if event.how not in WAYS:
        raise BadEntry(f"“{event.how}” is no way to acquire a coin; give one of {', '.join(WAYS[:-1])}.")
    cents, low, since = line.value, None, event.date
    if event.how == "gift":
        bases = given(line.basis, line.value, line.gift_tax, line.paid)
        cents, low = bases.gain, bases.loss
        # A day that is not known must not count as the day of the gift: the time with the donor is added.
        since = line.since if bases.tacked else event.date
    elif event.how in ("opening", "entered"):
        since = line.since
    elif cents is None:
        raise BadEntry(f"Say what {line.coin} was worth: its value at death if inherited, its face if found.")
    lines = () if cents is None else (Line("price", cents, event.id),)
    return Unit(line.coin, event.id, event.how, event.date, since, event.order, line.pieces, lines, cents is None, low)
