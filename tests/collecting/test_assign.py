"""The assignment of coins to slots, against every possible assignment and against two general solvers."""

from itertools import permutations

import networkx
import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from exergue.collecting import assign

SLOTS, COINS = "ABC", "pqrst"


def value(worth, coins):
    """What the three aims make of the coins that are placed, the greater the better."""
    dearest = max((cost for _, cost in worth.values() if cost is not None), default=0) + 1
    return len(coins), sum(worth[coin][0] for coin in coins), -sum(dearest if worth[coin][1] is None else worth[coin][1] for coin in coins)


def by_trial(accepted, worth):
    """The value of the best of all assignments, tried one by one."""
    tried = set(permutations([*accepted, *[None] * len(SLOTS)], len(SLOTS)))
    return max(value(worth, [coin for slot, coin in zip(SLOTS, order, strict=True) if coin and slot in accepted[coin]]) for order in tried)


def holds(accepted, found):
    return all(slot in accepted[coin] for slot, coin in found.items()) and len(set(found.values())) == len(found)


def sparse(random, slots, coins, share):
    """{coin: slots}, {coin: (fit, cost)}: some of the pairs are accepted."""
    accepted = {f"c{j:02}": [f"s{i:02}" for i in range(slots) if random.random() < share] for j in range(coins)}
    return accepted, {coin: (int(random.integers(0, 9)), int(random.integers(0, 10**6))) for coin in accepted}


accepts = st.fixed_dictionaries({coin: st.lists(st.sampled_from(SLOTS), unique=True) for coin in COINS[:4]})
worths = st.fixed_dictionaries({coin: st.tuples(st.integers(0, 4), st.one_of(st.none(), st.integers(0, 3))) for coin in COINS[:4]})


@given(accepts, worths)
def test_no_other_assignment_is_better(accepted, worth):
    found = assign.best(accepted, worth)
    assert holds(accepted, found)
    assert value(worth, found.values()) == by_trial(accepted, worth)


@given(st.integers(0, 2**32), st.integers(1, 25), st.integers(1, 40), st.sampled_from([0.05, 0.2, 0.6, 1.0]))
def test_sums_agree_with_two_general_solvers(start, slots, coins, share):
    """scipy's linear_sum_assignment and networkx's matching, told the three aims as one exact sum of whole numbers."""
    accepted, worth = sparse(np.random.default_rng(start), slots, coins, share)
    found = assign.best(accepted, worth)
    assert holds(accepted, found)
    cost = 1 + min(slots, coins) * 10**6
    gain = {coin: cost * 10 * min(slots, coins) + fit * cost - paid for coin, (fit, paid) in worth.items()}
    total = sum(gain[coin] for coin in found.values())
    table = np.array([[gain[coin] if f"s{i:02}" in accepted[coin] else 0 for coin in accepted] for i in range(slots)], dtype=float)
    rows, columns = linear_sum_assignment(table, maximize=True)
    assert table.max() * slots < 2**53 and total == table[rows, columns].sum()  # its floats are whole numbers still
    graph = networkx.Graph()
    graph.add_weighted_edges_from((slot, coin, gain[coin]) for coin, of in accepted.items() for slot in of)
    assert total == sum(graph.edges[pair]["weight"] for pair in networkx.max_weight_matching(graph))


@given(st.integers(0, 2**32))
def test_of_sparse_tables_as_many_slots_are_filled_as_can_be(start):
    accepted, worth = sparse(np.random.default_rng(start), 60, 80, 0.03)
    graph = networkx.Graph([(slot, coin) for coin, of in accepted.items() for slot in of])
    most = networkx.bipartite.maximum_matching(graph, top_nodes={slot for of in accepted.values() for slot in of})
    assert len(assign.best(accepted, worth)) == len(most) // 2


def test_a_grade_is_worth_any_cost_and_a_slot_any_grade():
    trillion = 10**12
    assert assign.best({"p": "A", "q": "A"}, {"p": (5, trillion), "q": (4, 0)}) == {"A": "p"}
    assert assign.best({"p": "AB", "q": "A"}, {"p": (100, 0), "q": (0, trillion)}) == {"A": "q", "B": "p"}
    assert assign.best({"p": "A", "q": "A"}, {"p": (5, trillion), "q": (5, trillion - 1)}) == {"A": "q"}


def test_an_unknown_cost_comes_after_every_known_one():
    assert assign.best({"p": "A", "q": "A"}, {"p": (5, None), "q": (5, 999)}) == {"A": "q"}
