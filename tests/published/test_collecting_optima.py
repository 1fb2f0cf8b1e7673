"""Assignments and knapsacks whose optimum is printed elsewhere."""

import pytest

from exergue.collecting import assign
from exergue.collecting.knapsack import Table


def solved(gains):
    """(sum, {row: column}) of the greatest sum of gains; every pair is offered."""
    offers = {(str(i), str(j)): (gain, 0) for i, row in enumerate(gains) for j, gain in enumerate(row)}
    found = assign.best(offers)
    return sum(offers[pair][0] for pair in found.items()), {int(row): int(column) for row, column in found.items()}


def test_least_cost_of_the_scipy_documentation():
    """scipy, documentation of `linear_sum_assignment`, example: cost [[4,1,3],[2,0,5],[3,2,2]], columns 1, 0, 2, total 5."""
    cost = [[4, 1, 3], [2, 0, 5], [3, 2, 2]]
    total, placed = solved([[10 - each for each in row] for row in cost])
    assert placed == {0: 1, 1: 0, 2: 2} and 3 * 10 - total == 5


def test_least_cost_as_costs_of_coins_of_equal_grade():
    """The same table as money tied up."""
    cost = [[4, 1, 3], [2, 0, 5], [3, 2, 2]]
    found = assign.best({(str(i), str(j)): (0, each) for i, row in enumerate(cost) for j, each in enumerate(row)})
    assert found == {"0": "1", "1": "0", "2": "2"}


def test_five_workers_and_four_tasks():
    """Assignment example in the guide of a general optimisation suite (five workers, four tasks), minimum 265; from memory."""
    cost = [[90, 80, 75, 70], [35, 85, 55, 65], [125, 95, 90, 95], [45, 110, 95, 115], [50, 100, 90, 100]]
    offers = {(f"t{task}", f"w{worker}"): (0, cost[worker][task]) for worker in range(5) for task in range(4)}
    found = assign.best(offers)
    assert len(found) == 4 and sum(offers[pair][1] for pair in found.items()) == 265


def test_the_greedy_choice_is_wrong():
    """Computed by hand: taking the greatest first gives 10 + 1, the optimum is 9 + 9."""
    assert solved([[10, 9], [9, 1]]) == (18, {0: 1, 1: 0})


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
