"""Coins that came otherwise than by purchase or trade: what they count as having cost, and since when.

Inherited: value at death, always long term (IRC 1014, 1223(9): from memory). Gift: IRC 1015, 1223(2), Reg. 1.1015-1 and
1.1015-4. Found: face value. Opening: as far as known; an unknown cost is never taken for nothing.
Not tax advice: local rules and a licensed preparer decide.
"""

from .events import Acquired, BadEntry, In
from .gains import GiftBasis
from .lots import Line, Unit

WAYS = ("opening", "inherited", "gift", "found", "entered")


def unit_of(event: Acquired, line: In) -> Unit:
    """The unit of cost that a line of the event brings. Raises BadEntry."""
    if event.how not in WAYS:
        raise BadEntry(f"“{event.how}” is no way to acquire a coin; give one of {', '.join(WAYS[:-1])}.")
    if line.since is not None and line.since > event.date:
        raise BadEntry(f"{line.coin} cannot have been acquired on {line.since}, after {event.date}; correct one of the dates.")
    cents, value, since = line.value, None, event.date
    if event.how == "gift":
        cents, value = GiftBasis(line.basis, line.value, line.gift_tax, line.paid).for_gain, line.value
        # The donor's time counts with the donor's basis. A day that is not known does not become the day of the gift.
        since = line.since if cents is None or line.basis >= line.paid else event.date
    elif event.how in ("opening", "entered"):
        since = line.since
    lines = () if cents is None else (Line("price", cents, event.id),)
    return Unit(line.coin, event.id, event.how, event.date, since, event.order, line.pieces, lines, cents is None, value)
