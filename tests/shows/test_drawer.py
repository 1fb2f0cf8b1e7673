"""The cash drawer."""

from hypothesis import given
from hypothesis import strategies as st

from exergue.money.cents import CURRENCIES
from exergue.shows.drawer import Compared, counted, denominations


def test_every_currency_of_a_book_has_its_denominations_in_order():
    for code in CURRENCIES:
        found = denominations(code)
        assert {one.kind for one in found} == {"coin", "note"}, code
        for kind in ("coin", "note"):
            cents = [one.cents for one in found if one.kind == kind]
            assert cents == sorted(set(cents)) and cents[0] > 0
        assert len(found) <= 20  # as many as one entry holds


def test_a_currency_without_data_is_counted_freely():
    assert denominations("XAU") == []


@given(st.lists(st.fixed_dictionaries({"cents": st.integers(1, 10_000), "number": st.integers(0, 500)})), st.integers(-10**6, 10**6))
def test_a_drawer_is_over_short_or_agrees(pieces, expected):
    one = Compared(expected, counted(pieces))
    assert one.off == one.counted - one.expected
    assert one.says == {1: "over", -1: "short", 0: "agrees"}[(one.off > 0) - (one.off < 0)]
