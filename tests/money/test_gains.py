"""Gain on one disposal, and a year of them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.gains import BadGain, GiftBasis, gain, gift_tax_addition
from exergue.money.rules import TAX_CAUTION
from exergue.money.taxreport import VARIOUS, BadDisposal, Disposal, tax_year

MONEY = st.integers(0, 10**8)
SOLD = date(2025, 6, 1)


def sold(title="Cent", **more):
    facts = {"coin": "A", "acquired": date(2020, 1, 1), "disposed": SOLD, "proceeds": 500_00, "basis": 300_00}
    return Disposal(title=title, **{**facts, "held": "investment", "term": "long", **more})


def test_an_unknown_basis_gives_no_gain_and_says_so():
    found = gain(500_00, None)
    assert (found.basis_used, found.gain) == (None, None)
    assert "not taken as zero" in found.note


@pytest.mark.parametrize("gift", [GiftBasis(None, 80_00), GiftBasis(100_00, None)])
def test_a_gift_of_which_too_little_is_known_gives_no_gain(gift):
    assert gain(90_00, None, gift).gain is None


def test_the_value_at_the_gift_is_not_needed_for_a_gain():
    assert gain(150_00, None, GiftBasis(100_00, None)).gain == 50_00


def test_a_gift_and_a_basis_are_not_both_given():
    with pytest.raises(BadGain, match="not both"):
        gain(1, 1, GiftBasis(1, 1))


def test_what_was_spent_after_the_gift_counts_for_gain_and_loss():
    gift = GiftBasis(100_00, 80_00, added=20_00)
    assert gain(150_00, None, gift).gain == 30_00
    assert gain(90_00, None, gift).gain == -10_00
    assert gain(110_00, None, gift).gain == 0


@given(MONEY, MONEY, MONEY)
def test_a_gift_never_makes_a_loss_larger_than_both_bases_say(price, donor, value):
    found = gain(price, None, GiftBasis(donor, value))
    plain = sorted((price - donor, price - value))
    assert found.gain == price - found.basis_used
    assert plain[0] <= found.gain <= max(plain[1], 0)
    if found.gain > 0:
        assert found.gain == price - donor
    assert found.donor_basis_used == (found.gain > 0 or price == donor or (found.gain < 0 and donor <= value))


@given(MONEY, MONEY, MONEY, st.integers(1, 10**8))
def test_gift_tax_lifts_the_basis_neither_above_the_value_nor_by_more_than_the_tax(tax, donor, value, amount):
    addition = gift_tax_addition(tax, donor, value, amount)
    assert 0 <= addition <= tax
    assert donor + addition <= max(donor, value)


def test_before_1977_the_whole_gift_tax_counts():
    assert gift_tax_addition(50_00, 100_00, 400_00, given=date(1976, 12, 31)) == 50_00
    assert gift_tax_addition(50_00, 100_00, 400_00, given=date(1977, 1, 1)) == 37_50


def test_a_year_is_put_in_its_parts_and_adds_up():
    year = tax_year(
        [
            sold("Long gain"),
            sold("Short loss", term="short", basis=600_00),
            sold("Dime of one's own", held="personal", basis=700_00),
            sold("Lost papers", basis=None, acquired=VARIOUS),
            sold("From the case", held="stock"),
            sold("Last year", disposed=date(2024, 12, 31)),
        ],
        2025,
        carried=10_00,
    )
    assert [row.a for row in year.long] == ["Dime of one's own", "Long gain"]
    assert [row.a for row in year.short] == ["Short loss"]
    assert [row.a for row in year.unknown] == ["Lost papers"]
    assert [(row.a, row.f) for row in year.stock] == [("From the case", "")]
    sums = year.long_total
    assert (sums.d, sums.e, sums.g, sums.h) == (1_000_00, 1_000_00, 200_00, 200_00)
    assert year.short_total.h == -100_00
    assert year.worksheet.rate_gain == 200_00 - 100_00 - 10_00
    assert year.caution == TAX_CAUTION
    assert any("ordinary business" in note for note in year.notes)


def test_a_gift_at_a_loss_is_held_from_the_gift():
    gift = GiftBasis(1_000_00, 800_00)
    year = tax_year([sold(basis=None, gift=gift, term_at_gift="short"), sold("Up", basis=None, gift=gift, proceeds=2_000_00,
                                                                         term_at_gift="short")], 2025)  # fmt: skip
    assert [(row.a, row.h) for row in year.short] == [("Cent", -300_00)]
    assert [(row.a, row.h) for row in year.long] == [("Up", 1_000_00)]


@pytest.mark.parametrize("wrong", [{"held": "hoard"}, {"term": "middling"}])
def test_a_disposal_that_cannot_be_placed_is_refused(wrong):
    with pytest.raises(BadDisposal, match="Cent"):
        tax_year([sold(**wrong)], 2025)


@given(st.lists(st.builds(sold, proceeds=MONEY, basis=st.none() | MONEY, term=st.sampled_from(["short", "long"]),
                          held=st.sampled_from(["stock", "investment", "personal"])), max_size=20))  # fmt: skip
def test_every_disposal_stands_in_one_part_and_every_row_adds_up(disposals):
    year = tax_year(disposals, 2025)
    parts = (year.short, year.long, year.unknown, year.stock)
    assert sum(map(len, parts)) == len(disposals)
    for rows in (year.short, year.long):
        assert all(row.h == row.d - row.e + row.g for row in rows)
    assert all(row.e is None and row.h is None for row in year.unknown)
