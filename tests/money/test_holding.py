"""How long a coin was held."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.holding import BadDates, days, tacked, term

DATES = st.dates(date(1900, 1, 1), date(2090, 12, 31))


def test_the_day_of_acquisition_does_not_count():
    assert days(date(2024, 3, 1), date(2024, 3, 1)) == 0
    assert days(date(2024, 2, 28), date(2024, 3, 1)) == 2


def test_a_leap_day_fills_its_year_on_the_last_of_february():
    assert term(date(2024, 2, 29), date(2025, 2, 28)) == "short"
    assert term(date(2024, 2, 29), date(2025, 3, 1)) == "long"


def test_it_cannot_leave_before_it_came():
    with pytest.raises(BadDates, match="cannot have left on 2024-01-01"):
        term(date(2024, 1, 2), date(2024, 1, 1))


@given(DATES, st.integers(0, 800))
def test_a_year_is_never_shorter_than_365_days_nor_longer_than_366(acquired, after):
    held = term(acquired, acquired + timedelta(after))
    if after <= 365:
        assert held == "short"
    if after > 366:
        assert held == "long"


@given(DATES, st.integers(0, 799))
def test_what_is_long_stays_long(acquired, after):
    if term(acquired, acquired + timedelta(after)) == "long":
        assert term(acquired, acquired + timedelta(after + 1)) == "long"


def test_the_donors_time_counts_with_the_donors_basis_alone():
    since, gift = date(2010, 5, 1), date(2024, 5, 1)
    assert tacked(since, gift, True) == since
    assert tacked(since, gift, False) == gift
    assert tacked(None, gift, True) == gift
    with pytest.raises(BadDates, match="after the gift"):
        tacked(date(2025, 1, 1), gift, True)
