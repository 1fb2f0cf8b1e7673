"""Choosing with a budget, exactly: from each group at most one option, within the money, for the greatest value.

The multiple-choice knapsack by dynamic programming over *value* (Kellerer, Pferschy, Pisinger, Knapsack Problems, 2004,
ch. 11): for every value that can be reached, the least cents that reach it. One pass so answers every budget at once, and
among the choices of greatest value it gives a cheapest. Whole numbers throughout; the work grows with options times the
sum of the groups' greatest values, whatever the amounts of money.
"""

from collections.abc import Sequence
from functools import reduce
from math import gcd

Group = Sequence[tuple[int, int]]  # options of one group: (cents, value), both whole, cents 0 or more, value more than 0
_NEVER = 2**62


class Table:
    """The answer for every budget. Made once from the groups; `steps` and `choose` read it."""

    def __init__(self, groups: Sequence[Group]):
        import numpy as np

        self._unit = reduce(gcd, (value for group in groups for _, value in group), 0) or 1
        self._groups = [[(cents, value // self._unit) for cents, value in group] for group in groups]
        self._top = sum(max((value for _, value in group), default=0) for group in self._groups)
        least = np.full(self._top + 1, _NEVER, dtype=np.int64)
        least[0] = 0
        self._taken = []
        reached = 0
        for group in self._groups:
            new, taken = least.copy(), np.full(self._top + 1, -1, dtype=np.int16)
            for at, (cents, value) in enumerate(group):
                past = least[: reached + 1] + cents
                there = slice(value, value + reached + 1)
                np.copyto(taken[there], at, where=past < new[there])
                np.minimum(new[there], past, out=new[there])
            least = new
            reached += max((value for _, value in group), default=0)
            self._taken.append(taken)
        self._best = np.minimum.accumulate(least[::-1])[::-1]  # the least cents for that value or more
        self._steps = np.flatnonzero(least == self._best)

    def value(self, budget: int) -> int:
        """The greatest value that a budget of so many cents buys."""
        return self._reach(budget) * self._unit

    def _reach(self, budget: int) -> int:
        import numpy as np

        return int(np.searchsorted(self._best, budget, side="right")) - 1

    def choose(self, budget: int) -> list[int | None]:
        """The option of each group, None where nothing is taken: greatest value, then least cents."""
        left, chosen = self._reach(budget), []
        for group, taken in zip(reversed(self._groups), reversed(self._taken), strict=True):
            at = int(taken[left])
            chosen.append(None if at < 0 else at)
            left -= group[at][1] if at >= 0 else 0
        return chosen[::-1]

    def steps(self) -> list[tuple[int, int]]:
        """(cents, value) of each budget at which more can be had than with a cent less, from (0, 0) up."""
        return list({int(self._best[at]): at * self._unit for at in self._steps.tolist()}.items())
