"""Splits add up, always."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.allocate import BadSplit, split

TOTALS = st.integers(-(10**12), 10**12)
WEIGHT = st.one_of(
    st.integers(0, 10**9),
    st.fractions(0, 1000),
    st.decimals(0, 10**6, places=2),
    st.floats(0, 1e9, allow_subnormal=False),
)
WEIGHTS = st.lists(WEIGHT, min_size=1, max_size=40).filter(any)


@given(TOTALS, WEIGHTS)
def test_shares_add_up_to_the_cent_and_are_within_one_cent_of_exact(amount, weights):
    shares = split(amount, weights)
    assert sum(shares) == amount
    exact = [Fraction(w) for w in weights]
    for share, weight in zip(shares, exact, strict=True):
        assert abs(share - amount * weight / sum(exact)) < 1


@given(TOTALS, WEIGHTS)
def test_a_heavier_coin_never_carries_less(amount, weights):
    shares = split(abs(amount), weights)
    order = sorted(range(len(weights)), key=lambda i: (Fraction(weights[i]), -i))
    assert [shares[i] for i in order] == sorted(shares)


def test_no_weight_no_share():
    assert split(101, [0, 1, 0, 1]) == [0, 51, 0, 50]


@pytest.mark.parametrize("weights", [[], [0], [0, 0], [1, -1], [1, float("nan")], [float("inf")], ["a"], [None]])
def test_weights_that_cannot_carry_a_total_are_refused(weights):
    with pytest.raises(BadSplit):
        split(100, weights)


def test_weights_are_taken_at_their_exact_value():
    assert split(100, [Decimal("0.1"), Decimal("0.2")]) == [33, 67]
