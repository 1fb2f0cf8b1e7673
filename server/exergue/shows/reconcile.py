"""A round of counting against what is expected: expected + unexpected − missing = seen. Pure.

A round is the union of what several phones scanned; the same coin scanned twice is one coin. Times are the phones' own
clocks and tell the story only: nothing of the arithmetic hangs on them.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from . import stories
from .expected import Coin, tally


@dataclass(frozen=True)
class Scan:
    """One label scanned (`how`: scan or hand), when, by which phone, at which place or box."""

    coin: str
    when: int
    by: str
    place: str = ""
    how: str = "scan"


@dataclass(frozen=True)
class Asked:
    """What reconciling is asked for. `clock` says a moment as people read it; `day` (YYYY-MM-DD) goes into the actions."""

    round: str
    show: str  # "" for the whole stock
    day: str
    clock: Callable[[int], str] = str
    blanks: frozenset[str] = frozenset()  # printed labels that no coin has
    settled: Mapping[str, str] = field(default_factory=dict)  # key → the words in which it was explained


@dataclass(frozen=True)
class Reconciled:
    """Counts of coins, and a difference for each that does not agree (also those of place, which change no count)."""

    rows: list[tuple[str, int]]
    expected: int
    seen: int
    missing: int
    unexpected: int
    differences: list[stories.Difference]

    @property
    def open(self) -> list[stories.Difference]:
        """What neither explains itself nor was explained by anybody."""
        return [one for one in self.differences if one.open]


def union(scans: Iterable[Scan]) -> dict[str, list[Scan]]:
    """The scans of each label, oldest first."""
    found = defaultdict(list)
    for scan in scans:
        found[scan.coin].append(scan)
    return {coin: sorted(several, key=lambda scan: (scan.when, scan.by, scan.place)) for coin, several in sorted(found.items())}


def reconcile(coins: Mapping[str, Coin], scans: Sequence[Scan], asked: Asked) -> Reconciled:
    """Compare. `coins` holds every coin that should be or might have been there, and every scanned one that the book knows."""
    found = union(scans)
    due = {key for key, coin in coins.items() if coin.due}
    missing, unexpected = sorted(due - found.keys()), sorted(found.keys() - due)
    last = max((scan.when for scan in scans), default=0)
    told = [stories.missing(coins[key], last, asked) for key in missing]
    told += [stories.unexpected(key, coins.get(key), found[key], asked) for key in unexpected]
    told += filter(None, (stories.elsewhere(coins[key], found[key], asked) for key in sorted(due & found.keys())))
    return Reconciled(
        rows=tally(coins.values()), expected=len(due), seen=len(found), missing=len(missing), unexpected=len(unexpected),
        differences=[stories.settled(one, asked) for one in told],
    )  # fmt: skip
