"""Gains, holding periods, gifts and losses against laws, regulations and publications."""

from datetime import date
from fractions import Fraction

import pytest

from exergue.money import rules
from exergue.money.casualty import loss
from exergue.money.gains import GiftBasis, gain, gift_tax_addition
from exergue.money.holding import term
from exergue.money.taxreport import INHERITED, Disposal, most_tax, rate_gain, tax_year


def test_apportioned_cost_part_sold_later():
    """Treas. Reg. 1.61-6(a), Example 2: a share of 15,000 less 2,000 of depreciation, sold for 20,000."""
    assert gain(20_000_00, 15_000_00 - 2_000_00).gain == 7_000_00


def test_two_parts_of_a_lot():
    """Medlin v. Commissioner, T.C. Memo. (2003), p. 29: $1,903 a part, sold for 22,000 and 23,000."""
    assert [gain(price, 1_903_00).gain for price in (22_000_00, 23_000_00)] == [20_097_00, 21_097_00]


def test_cost_added_later():
    """Treas. Reg. 1.1016-2(b), Example: bought at 10,000, capital cost of 6,000, sold at 20,000."""
    found = gain(20_000_00, 10_000_00 + 6_000_00)
    assert (found.basis_used, found.gain) == (16_000_00, 4_000_00)


def test_sale_with_costs_of_selling():
    """Worked by hand after IRC 1001: 1,900 less 10 % and 15 of shipping, basis 1,354."""
    assert gain(1_900_00 - 190_00 - 15_00, 1_354_00).gain == 341_00


def test_trade_with_cash_received():
    """A web how-to on taxable trades, after IRC 1001(b): 50,000 cash and 20,000 of property, basis 20,000."""
    assert gain(50_000_00 + 20_000_00, 100_000_00 - 80_000_00).gain == 50_000_00


@pytest.mark.parametrize(("price", "expected"), [(12_000_00, 2_000_00), (7_000_00, -1_000_00), (9_000_00, 0)])
def test_gift_worth_less_than_the_donors_basis(price, expected):
    """IRS Pub. 551, "Property Received as a Gift" (from a restatement); the third after Treas. Reg. 1.1015-1."""
    assert gain(price, None, GiftBasis(10_000_00, 8_000_00)).gain == expected


@pytest.mark.parametrize(
    ("paid", "transferor", "value", "basis"),
    [(30_000, 30_000, 60_000, 30_000), (60_000, 30_000, 90_000, 60_000), (30_000, 60_000, 90_000, 60_000)],
)
def test_part_gift_part_sale(paid, transferor, value, basis):
    """Treas. Reg. 1.1015-4(b), Examples 1, 2 and 3."""
    found = gain(100_000, None, GiftBasis(transferor, value, paid=paid))
    assert (found.basis_used, found.gain) == (basis, 100_000 - basis)


def test_a_part_sale_has_no_loss_basis_above_the_value():
    """Treas. Reg. 1.1015-4(a) and its Example 4 (from memory): paid 30,000, basis 90,000, value 60,000."""
    found = gain(50_000, None, GiftBasis(90_000, 60_000, paid=30_000))
    assert (found.basis_used, found.gain) == (60_000, -10_000)


def test_gift_tax_addition():
    """IRC 1015(d)(6): 80,000 × 100,000 ÷ 400,000. (A solution found online prints another basis, against its own step.)"""
    addition = gift_tax_addition(80_000_00, 300_000_00, 400_000_00, 400_000_00)
    assert addition == 20_000_00
    assert gain(500_000_00, None, GiftBasis(300_000_00, 400_000_00, addition)).basis_used == 320_000_00


def test_gift_tax_addition_with_the_annual_exclusion():
    """IRS Pub. 551 (from memory): its worksheet rounds the ratio to .857 first and prints 6,273; exactly 6,274.29."""
    addition = gift_tax_addition(7_320_00, 20_000_00, 50_000_00, 50_000_00 - 15_000_00)
    assert addition == 6_274_29
    assert abs(addition - 6_273_00) <= 2_00


@pytest.mark.parametrize(
    ("bought", "sold", "expected"),
    [
        ("2023-06-15", "2024-06-15", "short"),  # IRS Pub. 544 (2024), "Holding period"
        ("2023-06-15", "2024-06-17", "long"),  # the same
        ("2023-06-15", "2024-06-16", "long"),  # by the same rule
        ("2005-01-01", "2006-01-01", "short"),  # a published column of 2005
        ("2005-01-01", "2006-01-02", "long"),
        ("2023-02-28", "2024-02-29", "short"),  # month-end rule, a tax guide of 2013, § 5.9
        ("2023-02-28", "2024-03-01", "long"),
    ],
)
def test_holding_period(bought, sold, expected):
    assert term(date.fromisoformat(bought), date.fromisoformat(sold)) == expected


def test_inherited_coin():
    """Worked by hand after IRC 1014 and 1223(9): the decedent's 200 does not count, 1,500 at death does; always long."""
    sold = Disposal("Cent", "A", INHERITED, date(2025, 5, 1), 1_650_00, 1_500_00, "investment", "short")
    (row,) = tax_year([sold], 2025).long
    assert (row.b, row.e, row.h) == ("inherited", 1_500_00, 150_00)


@pytest.mark.parametrize(("marginal", "tax"), [(22, 2_200), (24, 2_400), (35, 2_800)])
def test_the_28_per_cent_cap(marginal, tax):
    """IRC 1(h)(4), (5) (from memory), worked by hand."""
    assert most_tax(10_000, marginal) == tax
    assert rules.value("rate_cap") == 28


@pytest.mark.parametrize(
    ("figures", "expected"),
    [((10_000, 1_500, 2_000, 500), 6_000), ((3_000, 0, 5_000, 0), 0), ((8_200, 2_700, 0, 1_100), 4_400)],
)
def test_28_per_cent_rate_gain(figures, expected):
    """IRC 1(h)(4): the formula was read, the figures are worked by hand; never below zero."""
    assert rate_gain(*figures).rate_gain == expected


def test_columns_of_the_form():
    """Form 8949 (from memory): h = d − e + g; a loss of personal use has code L and is given back in g."""
    days = date(2023, 1, 1), date(2025, 1, 1)
    own = Disposal("Cent", "A", *days, 900_00, 1_200_00, "personal", "long")
    kept = Disposal("Dime", "B", *days, 900_00, 1_200_00, "investment", "long")
    first, second = tax_year([own, kept], 2025).long
    assert (first.d, first.e, first.f, first.g, first.h) == (900_00, 1_200_00, "CL", 300_00, 0)
    assert (second.f, second.g, second.h) == ("C", 0, -300_00)


def test_casualty():
    """Treas. Reg. 1.165-7(b)(3), Example 1 (from memory): basis 3,600, value 2,000 then 1,500, insurance 300."""
    assert loss("personal", "damaged", 3_600_00, 2_000_00, 1_500_00, 300_00).loss == 200_00


def test_an_investment_wholly_lost_counts_at_its_basis():
    """IRS Pub. 547, "Figuring a Loss": the drop in value is not asked. Worked by hand."""
    assert loss("investment", "stolen", 3_600_00, before=2_000_00, reimbursed=600_00).loss == 3_000_00


def test_ratio_of_the_worksheet():
    """The printed worksheet's .857 is 30 ÷ 35 to three places."""
    assert round(Fraction(30_000, 35_000), 3) == Fraction(857, 1000)
