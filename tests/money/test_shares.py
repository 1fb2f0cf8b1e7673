"""How a lump sum is shared, and foreign prices."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.entries import bought

from exergue.money import cents
from exergue.money.allocate import BadSplit
from exergue.money.books import Books
from exergue.money.events import BadEntry, Foreign, In
from exergue.money.shares import in_book, split_costs, total, weights_of

WEIGHT = st.one_of(st.integers(0, 10**9), st.fractions(0, 1000), st.decimals(0, 10**6, places=2))
WEIGHTS = st.lists(WEIGHT, min_size=1, max_size=40).filter(any)
COSTS = st.lists(
    st.fixed_dictionaries({"what": st.sampled_from(["price", "fee", "tax"]), "cents": st.integers(0, 10**9)}),
    max_size=6,
)


@given(COSTS, WEIGHTS)
def test_every_cost_line_adds_up_over_the_coins(costs, weights):
    coins = split_costs(costs, weights)
    assert len(coins) == len(weights)
    for i, line in enumerate(costs):
        assert sum(coin[i]["cents"] for coin in coins) == line["cents"]
        assert {coin[i]["what"] for coin in coins} == {line["what"]}
    assert sum(total(coin) for coin in coins) == total(costs)


def test_without_weights_a_lump_sum_is_shared_evenly_over_the_pieces():
    costs = [{"what": "price", "cents": 100_00}]
    assert [total(coin) for coin in split_costs(costs, [None, None, None])] == [33_34, 33_33, 33_33]
    assert [total(coin) for coin in split_costs(costs, [None, None], [1, 3])] == [25_00, 75_00]


def test_a_weight_for_some_coins_only_is_refused():
    with pytest.raises(BadSplit, match="every coin"):
        weights_of([1, None])
    with pytest.raises(BadEntry, match="every coin"):
        Books().take(bought("2026-01-01", In("A", weight=1), "B", price=10_00))


def test_a_foreign_price_is_rounded_once_and_the_sum_is_what_is_shared():
    books = Books()
    books.take(bought("2026-01-01", "A", "B", "C", foreign=Foreign("EUR", 100_01, "1.08325"), shipping=3_00))
    # 108.335832… is 108.34: each coin by itself would come to 36.11, and three of them to 108.33
    assert [books.cost_of(coin).total for coin in "ABC"] == [36_12 + 1_00, 36_11 + 1_00, 36_11 + 1_00]
    assert books.ledger.balance("cash:cash") == -111_34


@pytest.mark.parametrize(("cents", "currency", "rate", "book", "expected"), [
    (100, "GBP", "1.245", "USD", 125),  # 124.5: half up, not to even
    (100, "GBP", "1.235", "USD", 124),
    (12_345, "JPY", "0.0067", "USD", 82_71),  # a yen has no smaller unit: 82.7115 dollars
    (82_71, "USD", "149.2537", "JPY", 12_345),
])  # fmt: skip
def test_minor_units_and_half_cents_of_a_foreign_price(cents, currency, rate, book, expected):
    assert in_book(cents, currency, rate, book) == expected


@given(st.integers(0, 10**9), st.decimals("0.0001", "500", places=6))
def test_a_foreign_price_is_what_decimal_arithmetic_says(amount, rate):
    assert in_book(amount, "EUR", str(rate)) == int((amount * rate).quantize(Decimal(1), ROUND_HALF_UP))


@pytest.mark.parametrize("rate", ["", "0", "-1", "a", "NaN", "Infinity", "1,08"])
def test_what_is_no_rate_is_refused(rate):
    with pytest.raises(cents.BadAmount, match="rate of exchange"):
        in_book(100, "EUR", rate)
    with pytest.raises(BadEntry, match="rate of exchange"):
        Books().take(bought("2026-01-01", "A", foreign=Foreign("EUR", 100, rate)))


def test_a_price_that_is_not_the_foreign_one_is_refused():
    with pytest.raises(BadEntry, match=r"€100.00 at 1.10 is \$110.00, and the price is given as \$109.00"):
        Books().take(bought("2026-01-01", "A", foreign=Foreign("EUR", 100_00, "1.10"), price=109_00, fee=5_00))
    Books().take(bought("2026-01-01", "A", foreign=Foreign("EUR", 100_00, "1.10"), price=110_00, fee=5_00))
    Books().take(bought("2026-01-01", "A", foreign=Foreign("EUR", 100_00, "1.10"), price=105_00, fee=5_00))
