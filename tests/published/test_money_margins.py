"""Reconciliation, margin and markup against published examples."""

from fractions import Fraction

import pytest

from exergue.money.margin import margin, markup, percent
from exergue.shows.close import Bought, Moved, Sold, close, shrinkage


def test_shrinkage_of_book_stock():
    """A business how-to on shrinkage: opening 6,000, sold 2,000, bought 1,000, counted 4,850."""
    expected = 6_000 - 2_000 + 1_000
    assert expected - 4_850 == 150
    assert shrinkage(expected, 4_850, base=expected) == Fraction(3, 100)


def test_margin_and_markup_of_a_shop():
    """Tax Court memorandum of 1998 on a gun shop's stock count: cost 100, price 118."""
    assert percent(markup(118, 100)) == "18.00"
    assert percent(margin(118, 100)) == "15.25"


@pytest.mark.parametrize(("of_price", "of_cost"), [(15, "17.65"), (40, "66.67")])
def test_markup_that_belongs_to_a_margin(of_price, of_cost):
    """The same memorandum: markup = margin ÷ (1 − margin)."""
    assert percent(markup(100, 100 - of_price)) == of_cost
    assert percent(margin(100, 100 - of_price)) == f"{of_price}.00"


@pytest.mark.parametrize(
    ("price", "cost", "of_price", "of_cost"), [(100, 60, "40.00", "66.67"), (60, 75, "-25.00", "-20.00")]
)
def test_more_margins(price, cost, of_price, of_cost):
    """Worked by hand."""
    assert (percent(margin(price, cost)), percent(markup(price, cost))) == (of_price, of_cost)


def test_stock_by_pieces_with_trades():
    """Worked by hand: 240 + 85 + 12 − 91 − 9 = 237; counted 236."""
    done = close(
        "Stock",
        opening_pieces=240,
        opening_cost=0,
        bought=[Bought(85, 0), Bought(12, 0, trade=True)],
        sold=[Sold(1, 0)] * 91 + [Sold(1, 0, trade=True)] * 9,
        counted_pieces=236,
    )
    assert (done.expected_pieces, done.pieces_off) == (237, -1)
    assert percent(shrinkage(237, 236, base=237)) == "0.42"


def test_cash_box():
    """Worked by hand: 300.00 + 1,845.50 − 620.00 − 45.00 + 100.00 − 1,000.00 = 580.50; counted 578.25."""
    done = close(
        "Cash",
        opening_pieces=0,
        opening_cost=0,
        cash_float=300_00,
        bought=[Bought(3, 620_00, "cash"), Bought(1, 999_00, "check")],
        sold=[Sold(1_845_50, 1_000_00, payment="cash"), Sold(500_00, 300_00, payment="card")],
        moved=[
            Moved("Paid out", -45_00, expense=True),
            Moved("Paid in", 100_00),
            Moved("Taken to the bank", -1_000_00),
        ],
        counted_cash=578_25,
    )
    assert (done.expected_cash, done.cash_off) == (580_50, -2_25)


def test_cost_of_goods_and_gross_profit():
    """IRS Pub. 334 (2016), ch. 7: net receipts 385,060, cost of goods sold 288,140, gross profit 96,920 (25.17 %)."""
    assert 37_845 + (285_900 - 2_650) - 32_955 == 288_140
    done = close("Year", opening_pieces=1, opening_cost=288_140, sold=[Sold(385_060, 288_140)])
    assert done.gross_profit == 96_920
    assert percent(done.margin) == "25.17"


def test_gross_profit_test():
    """IRS Pub. 334, testing gross profit accuracy: 300,000 less 200,000 is 33 1/3 % of sales, 50 % on cost."""
    done = close("Year", opening_pieces=1, opening_cost=200_000, sold=[Sold(300_000, 200_000)])
    assert (done.margin, done.markup) == (Fraction(1, 3), Fraction(1, 2))
