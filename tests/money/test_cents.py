"""Amounts as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money import cents


@pytest.mark.parametrize(
    ("typed", "amount"),
    [
        ("1200", 120000), ("$1,234.50", 123450), ("$ 1,250.00", 125000), ("1 234,50", 123450),
        ("1\u00a0234.50", 123450), ("1'234.50", 123450), ("1.234,50", 123450), ("1.000.000", 100000000),
        ("12,5", 1250), (".5", 50), ("5.", 500), ("12.3400", 1234), ("US$ 7", 700), ("7.25 usd", 725),
        ("(5.00)", -500), ("-$5", -500), ("$-5", -500), ("$5-", -500), ("\u22125", -500), ("+3", 300),
    ],
)  # fmt: skip
def test_reads_what_people_type(typed, amount):
    assert cents.parse(typed) == amount


@pytest.mark.parametrize("typed", ["", "   ", "\u00a0"])
def test_blank_is_no_amount_and_not_zero(typed):
    assert cents.parse(typed) is None


@pytest.mark.parametrize(
    "typed",
    ["abc", "$", "-", "()", "1,23,4", "1,2345.00", "1.2.3", "1e5", "12.345,6.7", "\u0663", "1 2", "--5x"],
)
def test_refuses_what_is_no_amount_and_quotes_it(typed):
    with pytest.raises(cents.BadAmount) as told:
        cents.parse(typed)
    assert typed in str(told.value)


def test_a_point_before_three_digits_could_be_read_two_ways():
    with pytest.raises(cents.BadAmount, match="two ways"):
        cents.parse("1.234")
    assert cents.parse("1,234") == 123400
    assert cents.parse("1.234", "JPY") == 1234


def test_another_currency_is_refused():
    with pytest.raises(cents.BadAmount, match="kept in USD"):
        cents.parse("£5")
    assert cents.parse("£5", "GBP") == 500


def test_minor_units_follow_the_currency():
    assert cents.parse("1,234", "JPY") == 1234
    with pytest.raises(cents.BadAmount, match="JPY has none"):
        cents.parse("12.50", "JPY")
    assert cents.show(1234, "JPY") == "¥1,234"
    assert cents.plain(1234, "JPY") == "1234"


def test_shows_amounts_for_people_and_for_files():
    assert cents.show(123450) == "$1,234.50"
    assert cents.show(-500) == "\u2212$5.00"
    assert cents.show(None) == ""
    assert cents.plain(-123405) == "-1234.05"


def test_an_unknown_currency_is_told():
    with pytest.raises(cents.BadAmount, match="XXZ"):
        cents.parse("1", "XXZ")


@given(st.integers(-(10**12), 10**12), st.sampled_from(sorted(cents.CURRENCIES)))
def test_what_is_shown_can_be_typed_back(amount, code):
    assert cents.parse(cents.show(amount, code), code) == amount
    assert cents.parse(cents.plain(amount, code), code) == amount


@given(st.text(max_size=12))
def test_any_text_is_an_amount_or_a_clear_refusal(text):
    try:
        amount = cents.parse(text)
    except cents.BadAmount as told:
        assert str(told).endswith(".")
    else:
        assert amount is None or abs(amount) <= cents.LARGEST
