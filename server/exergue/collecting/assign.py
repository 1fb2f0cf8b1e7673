"""Which coin goes into which slot, exactly.

What a coin is worth to a set does not depend on the slot it fills, so the sets of coins that can be placed at once are a
transversal matroid (Edmonds and Fulkerson 1965), and the greedy choice is the best one: the coins from the best on, each
taken if room can be made for it by moving those already placed (augmenting paths, Berge 1957).
"""

from collections import deque
from collections.abc import Iterable, Mapping


def best(accepted: Mapping[str, Iterable[str]], worth: Mapping[str, tuple[int, int | None]]) -> dict[str, str]:
    """{slot: coin}, each coin once: most slots filled, then the greatest sum of fits, then the least sum of costs.

    accepted: {coin: the slots that accept it}; worth: {coin: (fit, cost in cents or None)}. A cost that nobody knows comes
    after every known one. The same words give the same answer.
    """
    found: dict[str, str] = {}
    shut: set[str] = set()  # slots from which no path leads to an open one, now or later
    for coin in sorted(accepted, key=lambda coin: (-worth[coin][0], worth[coin][1] is None, worth[coin][1] or 0, coin)):
        _place(coin, accepted, found, shut)
    return found


def _place(coin: str, accepted: Mapping[str, Iterable[str]], found: dict[str, str], shut: set[str]) -> None:
    """Put `coin` in, moving others along the shortest path to an open slot; if there is none, what was looked at is shut."""
    came: dict[str, tuple[str, str | None]] = {}  # slot → (the coin that would go in, the slot it leaves)
    waiting: deque[tuple[str, str | None]] = deque([(coin, None)])
    while waiting:
        moved, leaves = waiting.popleft()
        for slot in accepted[moved]:
            if slot in came or slot in shut:
                continue
            came[slot] = moved, leaves
            if slot in found:
                waiting.append((found[slot], slot))
                continue
            to: str | None = slot
            while to is not None:
                found[to], to = came[to]
            return
    shut.update(came)
