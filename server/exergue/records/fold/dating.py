"""The day from which an entry counts. One rule for cards and accounts: what was entered later about a coin happened later.

An entry counts from its own date, but not from a day before what was entered earlier about its coins. A coin's first
coming counts at the latest from the day of what was entered first about it, however late it is entered itself. Where the
date given says otherwise, dates contradict each other: the entry is taken, told, and kept under *Needs a look*.
"""

from .. import quick
from ..verdicts import Refused
from .entry import Entry, Outcome, merged, raise_look

_LAST = (
    "select max(day) from (select day from move where coin = ? union all "
    "select p.day from bought b join purchase p on p.fact = b.purchase where b.coin = ?) as days"
)
_CAME = (
    "select max(day) from (select day from move where coin = ? and step = 'theirs' union all "
    "select p.day from bought b join purchase p on p.fact = b.purchase where b.coin = ?) as days"
)
_FIRST = "select day, seq from move where coin = ? order by day, seq limit 1"


def after(entry: Entry, own: str, keys, came_only: bool = False) -> str:
    """The day from which an entry about these coins counts. `came_only`: only their coming must be before it."""
    entry.day = own
    for key in keys:
        found = quick.row(_CAME if came_only else _LAST, key, key)
        if found[0] and found[0] > entry.day:
            entry.day = found[0]
    return entry.day


def coming(entry: Entry, own: str, late, others) -> tuple[str, int]:
    """(day, place among those of the day) of coins that come in. `late`: of which something was entered before that.

    `others` had come before, and get more by this. Refused where the one cannot be before, and the other after.
    """
    day = after(entry, own, others)
    first = min((found for key in late if (found := quick.row(_FIRST, key))), default=None)
    if first is None or day < first[0]:
        return day, 2 * entry.seq
    if others and day > own:
        raise Refused("dates_apart", "Of these coins, one had gone before another came; enter them as two purchases.")
    entry.day = first[0]
    return entry.day, 2 * first[1] - 1


def told(entry: Entry, own: str, keys, outcome: Outcome | None = None) -> Outcome:
    """What came of an entry, with a word on its date where that contradicts what was entered before."""
    if entry.day == own:
        return outcome or Outcome()
    if entry.day > own:
        why = f"It is dated {own}, before what was entered earlier about this coin; it counts from {entry.day}."
    else:
        why = f"It is dated {own}, after what was entered earlier about this coin; it counts from {entry.day}."
    keys = sorted(keys)
    raise_look(entry, "dates", ("coin", keys[0]), {"date": own, "day": entry.day, "why": why, "coins": keys}, "dates")
    return outcome if outcome and outcome.verdict != "applied" else merged(why)


