"""A dealer's year, and the question across the table."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money import rules
from exergue.money.bargain import Selling, bargain, break_even, discount
from exergue.money.dealer import BadYear, Year
from exergue.money.margin import percent

MONEY = st.integers(0, 10**8)
TODAY = date(2026, 11, 28)


def test_the_pieces_of_a_year_agree_or_say_by_how_much_not():
    assert Year(100_00, 50_00, 0, 80_00, 90_00, sold=70_00).off == 0
    assert Year(100_00, 50_00, 0, 80_00, 90_00, sold=60_00, lost=5_00).off == 5_00
    assert Year(100_00, 50_00, 0, 80_00, 90_00).off is None


def test_a_figure_below_zero_is_refused():
    with pytest.raises(BadYear, match="opening"):
        Year(-1, 0, 0, 0, 0)


def test_the_dealers_question():
    found = bargain(100_00, 110_00, 150_00, date(2026, 11, 1), TODAY, Selling("10", 2_00))
    assert (found.days, found.profit) == (27, 150_00 - 15_00 - 2_00 - 100_00)
    assert (percent(found.margin), percent(found.markup)) == ("22.00", "33.00")
    assert found.break_even == 113_33
    assert (found.to_break_even, found.to_floor) == ("24.4", "26.6")
    shown = {what: (how, figure) for what, how, figure in found.lines}
    assert shown["Held"] == ("2026-11-01 to 2026-11-28", "27 days")
    assert shown["Profit at the ask"] == ("$150.00 − $100.00 − $17.00 to sell it", "$33.00")
    assert shown["Break-even price"] == ("($100.00 + $2.00) ÷ (1 − 10 %), rounded up", "$113.33")
    assert shown["Down to break even"] == ("($150.00 − $113.33) ÷ $150.00, rounded down", "24.4 %")


def test_what_is_not_known_is_left_out():
    found = bargain(None, None, 150_00, None, TODAY)
    assert (found.days, found.profit, found.break_even, found.to_floor, found.lines) == (None,) * 4 + ((),)


@given(MONEY, st.integers(0, 99).map(str), st.integers(0, 10**5))
def test_the_break_even_price_is_the_least_that_loses_nothing(cost, part, fixed):
    selling = Selling(part, fixed)
    price = break_even(cost, selling)
    assert price - selling.of(price) >= cost
    assert price == 0 or (price - 1) - selling.of(price - 1) < cost


def test_costs_that_eat_every_price_have_no_break_even():
    assert break_even(100, Selling("100")) is None


@given(st.integers(1, 10**8), MONEY)
def test_the_discount_shown_never_goes_below_the_price(ask, price):
    tenths = round(float(discount(ask, price)) * 10)
    assert 1000 * (ask - price) >= tenths * ask
    assert 1000 * (ask - price) < (tenths + 1) * ask


def test_every_rule_has_its_source_and_its_year():
    for rule in rules.all().values():
        assert rule.sentence.endswith(".") and "{" not in rule.sentence and rule.source
        assert 2020 <= rule.year <= 2026
        assert rule.seen in ("read", "memory")
    assert rules.cited("cash_limit")[0].startswith("More cash than $10,000 from one payer")
    assert rules.cited("long_term_years")[0].startswith("Held for more than 1 year: long term.")
