"""Sales tax, cash reports and a dealer's year against laws, regulations and publications."""

from datetime import date, datetime

import pytest

from exergue.money.cashreport import Receipt, flags
from exergue.money.dealer import Year
from exergue.money.margin import percent
from exergue.money.salestax import tax, tax_on_lines, tax_within


def test_cost_of_sales_and_gross_profit():
    """IRS Pub. 334 (2016), ch. 7."""
    year = Year(37_845, 285_900, 2_650, 32_955, 400_000, 14_940)
    assert (year.net_purchases, year.available, year.cost_of_sales) == (283_250, 321_095, 288_140)
    assert (year.net_receipts, year.gross_profit, percent(year.margin)) == (385_060, 96_920, "25.17")


def test_testing_gross_profit():
    """IRS Pub. 334: 300,000 less 200,000 is 33 1/3 % of sales, 50 % on cost."""
    year = Year(0, 200_000, 0, 0, 300_000)
    assert (year.gross_profit, percent(year.margin), percent(year.markup)) == (100_000, "33.33", "50.00")


def test_unchanged_stock():
    """Seawright v. Commissioner (T.C. 2001), p. 19."""
    assert Year(1_500, 18_742, 0, 1_500, 0).cost_of_sales == 18_742


@pytest.mark.parametrize(
    ("amount", "rate", "expected"),
    [(12_34, "7.25", 89), (19_99, "8.25", 1_65), (100_00, "6.625", 6_63), (3_50, "7", 25), (1_200_00, "7", 84_00)],
)
def test_tax_is_rounded_half_up_at_the_third_decimal(amount, rate, expected):
    """Streamlined Sales and Use Tax Agreement, § 324 (from memory); figures worked by hand."""
    assert tax(amount, rate) == expected


def test_by_item_or_by_invoice():
    """The same agreement (from memory): the seller may choose, and keeps to it. Worked by hand."""
    assert tax_on_lines([4_99] * 3, "8.25", "item") == 1_23
    assert tax_on_lines([4_99] * 3, "8.25", "invoice") == 1_24


def test_price_with_the_tax_in_it():
    """Worked by hand."""
    assert tax_within(108_25, "8.25") == (100_00, 8_25)


def cash(payer, at, cents, how="cash", deal="1", **more):
    return Receipt(payer, deal, at, how, cents, **more)


def test_a_small_cashiers_check_counts_in_a_retail_sale_of_a_collectible():
    """Treas. Reg. 1.6050I-1(c)(1)(vii), Example 1 (from memory): 6,200 in currency and a check of 7,000."""
    day = date(2025, 3, 3)
    (flag,) = flags([cash("B", day, 6_200_00), cash("B", day, 7_000_00, "cashier's check")])
    assert (flag.cents, flag.certain) == (13_200_00, True)


def test_it_does_not_count_for_another_thing():
    """A tax journal's article of 2022, Example 6: a used tow truck for 9,500 in currency and a check of 7,500."""
    day = date(2022, 3, 3)
    paid = [cash("B", day, 9_500_00), cash("B", day, 7_500_00, "cashier's check")]
    assert flags([Receipt(**{**vars(one), "collectible": False}) for one in paid]) == []


def test_two_purchases_within_24_hours():
    """The same article, Example 1: on different days, within 24 hours, together 10,500."""
    first, second = datetime(2022, 5, 2, 15), datetime(2022, 5, 3, 10)
    (flag,) = flags([cash("B", first, 5_500_00, deal="1"), cash("B", second, 5_000_00, deal="2")])
    assert (flag.cents, flag.certain) == (10_500_00, True)


def test_later_payments_are_added_up_anew_after_a_report():
    """Treas. Reg. 1.6050I-1(b)(4) (from memory)."""
    days = (1, 10, 11_000_00), (2, 15, 4_000_00), (3, 20, 6_000_00), (5, 15, 12_000_00)
    found = flags(cash("B", date(2025, month, day), cents) for month, day, cents in days)
    assert [(flag.cents, flag.due) for flag in found] == [
        (11_000_00, date(2025, 1, 25)),
        (22_000_00, date(2025, 5, 30)),
    ]


def test_the_limit_itself_is_not_over_it():
    """IRC 6050I(a): "more than"."""
    assert flags([cash("B", date(2025, 1, 10), 10_000_00)]) == []
    assert len(flags([cash("B", date(2025, 1, 10), 10_000_01)])) == 1
