"""Assignments and knapsacks whose optimum is printed elsewhere."""

import pytest

from exergue.collecting import assign
from exergue.collecting.knapsack import Table


def test_unit_time_tasks_with_deadlines():
    """Cormen and others, Introduction to Algorithms, ch. 16.5, figure 16.7, from memory: seven tasks of one unit of time, each with a
    deadline and a penalty if it is late. Tasks 5 and 6 are late, for 50 in all. A time is a slot, a task a coin.
    """
    deadlines, penalties = (4, 2, 4, 3, 1, 4, 6), (70, 60, 50, 40, 30, 20, 10)
    accepted = {f"a{n}": [str(time) for time in range(1, deadline + 1)] for n, deadline in enumerate(deadlines, 1)}
    found = assign.best(accepted, {f"a{n}": (penalty, 0) for n, penalty in enumerate(penalties, 1)})
    assert set(found.values()) == {"a1", "a2", "a3", "a4", "a7"} and sum(penalties) - sum(
        penalties[int(task[1:]) - 1] for task in found.values()) == 50  # fmt: skip
    assert all(int(time) <= deadlines[int(task[1:]) - 1] for time, task in found.items())


def test_a_system_of_distinct_representatives():
    """Hall's theorem (Philip Hall, 1935): of sets that break his condition one at least goes without. Three sets share two elements."""
    accepted = {"x": ["1", "2", "3"], "y": ["1", "2", "3"], "z": ["4"]}
    assert len(assign.best(accepted, dict.fromkeys(accepted, (0, 0)))) == 3
    assert len(assign.best({**accepted, "z": []}, dict.fromkeys(accepted, (0, 0)))) == 2


# Florida State University, data set KNAPSACK_01, P01, P02, P04, P06, from memory; after Kreher and Stinson, Combinatorial
# Algorithms (1999), and Martello and Toth, Knapsack Problems (1990).
# The last but one: scipy tutorial for `milp`. The last: Cormen and others, Introduction to Algorithms, ch. 16, 0-1 knapsack.
@pytest.mark.parametrize(("capacity", "weights", "profits", "optimum"), [
    (165, (23, 31, 29, 44, 53, 38, 63, 85, 89, 82), (92, 57, 49, 68, 60, 43, 67, 84, 87, 72), 309),
    (26, (12, 7, 11, 8, 9), (24, 13, 23, 15, 16), 51),
    (50, (31, 10, 20, 19, 4, 3, 6), (70, 20, 39, 37, 7, 5, 10), 107),
    (170, (41, 50, 49, 59, 55, 57, 60), (442, 525, 511, 593, 546, 564, 617), 1735),
    (100, (21, 11, 15, 9, 34, 25, 41, 52), (22, 12, 16, 10, 35, 26, 42, 53), 105),
    (50, (10, 20, 30), (60, 100, 120), 220),
])  # fmt: skip
def test_knapsacks_of_the_textbooks(capacity, weights, profits, optimum):
    groups = [[pair] for pair in zip(weights, profits, strict=True)]
    table = Table(groups)
    chosen = [at is not None for at in table.choose(capacity)]
    assert table.value(capacity) == optimum == sum(p for p, taken in zip(profits, chosen, strict=True) if taken)
    assert sum(w for w, taken in zip(weights, chosen, strict=True) if taken) <= capacity


def test_a_multiple_choice_knapsack():
    """Multiple-choice knapsack after Sinha and Zoltners, Operations Research 27 (1979), in their form with one item a class;
    the figures are our own and the optimum was found by trying all 27 choices by hand: 3 + 7 + 8 at 4 + 5 + 6 = 15."""
    classes = [[(2, 1), (4, 3), (7, 4)], [(3, 2), (5, 7), (8, 8)], [(4, 4), (6, 8), (9, 9)]]
    table = Table(classes)
    assert table.value(15) == 18 and table.choose(15) == [1, 1, 1]
    assert table.value(11) == 15 and table.choose(11) == [None, 1, 1]
