"""The assignment of coins to slots, against every possible assignment and against two general solvers."""

from itertools import permutations

import networkx
import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from exergue.collecting import assign

SLOTS, COINS = "ABCD", "pqrst"


def worth(offers, found):
    """What the three aims make of an assignment, the greater the better."""
    dearest = max((cost for _, cost in offers.values() if cost is not None), default=0) + 1
    fits = [offers[pair] for pair in found.items()]
    return len(fits), sum(fit for fit, _ in fits), -sum(dearest if cost is None else cost for _, cost in fits)


def by_trial(offers):
    """The best of all assignments, tried one by one."""
    slots = sorted({slot for slot, _ in offers})
    coins = sorted({coin for _, coin in offers}) + [None] * len(slots)
    tried = (dict(zip(slots, order, strict=True)) for order in set(permutations(coins, len(slots))))
    return max(worth(offers, {s: c for s, c in one.items() if (s, c) in offers}) for one in tried)


offered = st.dictionaries(
    st.tuples(st.sampled_from(SLOTS[:3]), st.sampled_from(COINS[:4])),
    st.tuples(st.integers(0, 4), st.one_of(st.none(), st.integers(0, 3))), max_size=12,
)  # fmt: skip


@given(offered)
def test_no_other_assignment_is_better(offers):
    found = assign.best(offers)
    assert all(pair in offers for pair in found.items()) and len(set(found.values())) == len(found)
    assert worth(offers, found) == (by_trial(offers) if offers else (0, 0, 0))


@given(st.integers(0, 2**32), st.integers(1, 25), st.integers(1, 40))
def test_sums_agree_with_two_general_solvers(start, slots, coins):
    """scipy's linear_sum_assignment and networkx's matching solve the same tables with fits alone."""
    random = np.random.default_rng(start)
    table = random.integers(1, 300, (slots, coins))
    offers = {(f"s{i}", f"c{j}"): (int(table[i, j]), 0) for i in range(slots) for j in range(coins)}
    found = assign.best(offers)
    rows, columns = linear_sum_assignment(table, maximize=True)
    assert sum(offers[pair][0] for pair in found.items()) == table[rows, columns].sum()
    graph = networkx.Graph()
    graph.add_weighted_edges_from((s, c, fit) for (s, c), (fit, _) in offers.items())
    matched = networkx.max_weight_matching(graph, maxcardinality=True)
    assert sum(graph.edges[pair]["weight"] for pair in matched) == table[rows, columns].sum()


@given(st.integers(0, 2**32))
def test_of_sparse_tables_as_many_slots_are_filled_as_can_be(start):
    random = np.random.default_rng(start)
    offers = {(f"s{i:02}", f"c{j:02}"): (int(random.integers(0, 9)), int(random.integers(0, 10**12)))
              for i in range(20) for j in range(30) if random.random() < 0.08}  # fmt: skip
    graph = networkx.Graph(list(offers))
    most = networkx.bipartite.maximum_matching(graph, top_nodes={slot for slot, _ in offers})
    assert len(assign.best(offers)) == len(most) // 2


def test_a_grade_is_worth_any_cost_and_a_slot_any_grade():
    trillion = 10**12
    assert assign.best({("A", "p"): (5, trillion), ("A", "q"): (4, 0)}) == {"A": "p"}
    assert assign.best({("A", "p"): (100, 0), ("A", "q"): (0, trillion), ("B", "p"): (0, 0)}) == {"A": "q", "B": "p"}
    assert assign.best({("A", "p"): (5, trillion), ("A", "q"): (5, trillion - 1)}) == {"A": "q"}


def test_an_unknown_cost_comes_after_every_known_one():
    assert assign.best({("A", "p"): (5, None), ("A", "q"): (5, 999)}) == {"A": "q"}
