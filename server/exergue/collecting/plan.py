"""A plan for a budget: what to buy, in which grade and of which date, so that the money does most for set and want list.

What is greatest, in this order:
1. The sum of points. A slot or want that is filled gives 100 points, and up to 50 more for its grade: none at the lowest
   grade of its window, 50 at the highest, and in between by steps of the ladder. A better coin for a slot that is filled
   gives only the points that its grade gains. Points count four times for a want of high priority, twice for a usual one,
   once for a low one.
2. Of plans with equal points the one that costs least.

Nothing is rounded and nothing is tried by luck: no choice of at most one option for each want within the budget has more
points (`knapsack`). An option without a price, from recorded sales or else the want's own ceiling, is in no plan.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..coins.ladder import TOP
from .filling import window
from .knapsack import Table
from .slots import Slot, number

FILLED, GRADE = 100, 50
WEIGHTS = {"high": 4, "usual": 2, "low": 1}
IN_WORDS = (
    "A filled slot or want counts 100 points, and up to 50 more for its grade within the window; an upgrade counts only what "
    "the grade gains. High priority counts four times, usual twice, low once. The plan has the most points that the money "
    "buys, and of equal plans the cheapest."
)


@dataclass(frozen=True)
class Option:
    """One way to serve a want. `cents`: what it takes; `basis`: estimate, resting on so many `sales`, the last on day `last`, or
    ceiling; `issue`: date and mint, "" for a usual date of the type."""

    grade: str
    cents: int
    basis: str = "estimate"
    type: str = ""
    issue: str = ""
    sales: int = 0
    last: str = ""


@dataclass(frozen=True)
class Sought:
    """A want, or an open slot. `slot`: what is accepted; `has`: grade of the coin that is to be bettered, "" where the slot
    is open; `options`: with their prices; `ceiling`: the most to pay, None for no limit; `key`: names it in the answer."""

    key: str
    title: str
    slot: Slot
    priority: str = "usual"
    has: str = ""
    ceiling: int | None = None
    options: tuple[Option, ...] = field(default=())

    def points(self, grade: str) -> int:
        """What a coin of this grade adds; 0 or less: nothing is gained by it."""
        gained = _share(self.slot, grade) - (_share(self.slot, self.has) if self.has else -FILLED)
        return WEIGHTS.get(self.priority, WEIGHTS["usual"]) * gained


@dataclass(frozen=True)
class Pick:
    sought: Sought
    option: Option
    points: int


@dataclass(frozen=True)
class Plan:
    """`picks`: what to buy, in the order of the wants; `cents`: together; `points`; `left`: wants for which there is an
    option, that this money leaves; `dear`: all their prices are above their ceilings; `unpriced`: no evidence and no
    ceiling, so nothing can be said."""

    budget: int
    picks: tuple[Pick, ...]
    cents: int
    points: int
    left: tuple[Sought, ...]
    dear: tuple[Sought, ...]
    unpriced: tuple[Sought, ...]


class Planner:
    """Looks at all wants once and answers for any budget."""

    def __init__(self, wants: Sequence[Sought]):
        self.dear = tuple(w for w in wants if w.options and not _payable(w))
        self.unpriced = tuple(w for w in wants if not w.options)
        self._offers = [(w, offers) for w in wants if (offers := _useful(w))]
        self._table = Table([[(option.cents, points) for option, points in offers] for _, offers in self._offers])

    def plan(self, budget: int) -> Plan:
        """The best plan for a budget in cents."""
        chosen = self._table.choose(max(budget, 0))
        picks, left = [], []
        for (want, offers), at in zip(self._offers, chosen, strict=True):
            if at is None:
                left.append(want)
            else:
                picks.append(Pick(want, *offers[at]))
        cents, points = sum(p.option.cents for p in picks), sum(p.points for p in picks)
        return Plan(budget, tuple(picks), cents, points, tuple(left), self.dear, self.unpriced)

    def steps(self) -> list[tuple[int, int]]:
        """(budget in cents, points) wherever a little more money buys more, from (0, 0) to the budget that buys all."""
        return self._table.steps()

    def over_shows(self, budgets: Sequence[int]) -> list[Plan]:
        """A plan for each show in turn; what is not spent is carried on to the next.

        First, all shows together buy the best plan for all the money. Then each show, in order, has as many of its points
        as its money and what was left over can pay for; the last buys the rest.
        """
        waiting = list(self.plan(sum(budgets)).picks)
        purse, plans = 0, []
        for show, budget in enumerate(budgets):
            purse += budget
            if show == len(budgets) - 1:
                now = waiting
            else:
                taken = Table([[(p.option.cents, p.points)] for p in waiting]).choose(purse)
                now = [p for p, at in zip(waiting, taken, strict=True) if at is not None]
            waiting = [p for p in waiting if p not in now]
            spent = sum(p.option.cents for p in now)
            plans.append(Plan(purse, tuple(now), spent, sum(p.points for p in now), (), self.dear, self.unpriced))
            purse -= spent
        return plans


@dataclass(frozen=True)
class Change:
    """What differs between two plans for one want: the option before and after, None where it is not bought."""

    sought: Sought
    before: Option | None
    after: Option | None


def changes(before: Plan, after: Plan) -> list[Change]:
    """What more money changes, want by want."""
    had, has = ({p.sought.key: p for p in plan.picks} for plan in (before, after))
    found = []
    for key in dict.fromkeys([*had, *has]):
        old, new = had.get(key), has.get(key)
        if (old and old.option) != (new and new.option):
            found.append(Change((new or old).sought, old and old.option, new and new.option))
    return found


def _share(slot: Slot, grade: str) -> int:
    """Points of a grade in its window, 0 to 50: by steps of the ladder."""
    steps = window(slot)
    if len(steps) < 2 or not grade:
        return 0
    at = number(grade, TOP)
    below = sum(step < at for step in steps)
    return GRADE * min(below, len(steps) - 1) // (len(steps) - 1)


def _payable(want: Sought) -> list[Option]:
    return [o for o in want.options if want.ceiling is None or o.cents <= want.ceiling]


def _useful(want: Sought) -> list[tuple[Option, int]]:
    """(option, points) of the options that could stand in a plan: those that gain something, and of equal gain the cheapest,
    unless more is gained for as little."""
    rated = [(option, want.points(option.grade)) for option in _payable(want)]
    rated.sort(key=lambda each: (each[0].cents, -each[1], each[0].type, each[0].issue, each[0].grade))
    found: list[tuple[Option, int]] = []
    for option, points in rated:
        if points > (found[-1][1] if found else 0):
            found.append((option, points))
    return found
