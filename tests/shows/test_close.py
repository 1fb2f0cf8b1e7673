"""The close of a show."""

import json

from hypothesis import given
from hypothesis import strategies as st

from exergue.shows.close import Bought, Moved, Returned, Sold, close

MONEY = st.integers(0, 10**7)
PAYMENT = st.sampled_from(["cash", "check", "card", "transfer", "other", None])
BOUGHT = st.lists(st.builds(Bought, st.integers(1, 20), MONEY, PAYMENT, st.booleans()), max_size=12)
SOLD = st.lists(st.builds(Sold, MONEY, st.none() | MONEY, MONEY, PAYMENT, st.booleans()), max_size=12)


def day(**more):
    """A small show: 10 pieces that cost 1,000.00 and a float of 200.00."""
    return close("Show", opening_pieces=10, opening_cost=1_000_00, cash_float=200_00, **more)


def labels(rows):
    return [row.label for row in rows]


def test_a_quiet_day_agrees_with_what_was_packed():
    done = day(counted_pieces=10, counted_cash=200_00)
    assert done.agrees
    assert (done.expected_pieces, done.expected_cash) == (10, 200_00)
    assert (done.margin, done.markup, done.net) == (None, None, 0)
    assert done.stock[-1].label == done.cash[-1].label == "Agrees"


def test_only_cash_moves_the_cash_box():
    done = day(sold=[Sold(50_00, 30_00, payment=how) for how in ("cash", "check", "card", "transfer", "other")])
    assert done.expected_cash == 250_00
    assert done.sales == 250_00


def test_a_coin_without_recorded_cost_is_told_and_left_out_of_profit():
    done = day(sold=[Sold(100_00, 60_00), Sold(80_00, None)])
    assert done.expected_pieces == 8
    assert done.gross_profit == 40_00
    assert done.sales == 180_00
    assert "without a recorded cost" in done.remarks[0]
    assert "of which without a recorded cost" in labels(done.result)


def test_an_expense_lowers_the_result_and_the_box_if_it_was_paid_in_cash():
    table = Moved("Table", -150_00, expense=True, payment="card")
    parking = Moved("Parking", -20_00, expense=True)
    done = day(sold=[Sold(400_00, 100_00, costs=10_00, payment="cash")], moved=[table, parking])
    assert done.net == 300_00 - 10_00 - 170_00
    assert done.expected_cash == 200_00 + 400_00 - 20_00
    assert "Table" not in labels(done.cash)


def test_what_is_short_or_over_is_marked():
    done = day(counted_pieces=9, counted_cash=205_00)
    assert not done.agrees
    assert (done.stock[-1].label, done.stock[-1].pieces, done.stock[-1].mark) == ("Short", -1, "off")
    assert (done.cash[-1].label, done.cash[-1].cents, done.cash[-1].mark) == ("Over", 5_00, "off")


def test_what_is_kept_of_a_sale_that_came_back_is_no_sale_and_part_of_the_result():
    done = day(sold=[Sold(100_00, 60_00, costs=2_00)], returned=[Returned(5_00, costs=3_00), Returned(0)])
    assert (done.sales, done.gross_profit, done.net) == (100_00, 40_00, 40_00 + 5_00 - 5_00)
    assert "Kept of sales that came back" in labels(done.result) and "Kept of sales that came back" not in labels(day().result)


def test_a_number_that_agrees_is_not_enough_where_the_coins_differ():
    done = day(counted_pieces=10, missing=2)
    assert not done.agrees and done.pieces_off == 0
    assert done.stock[-1].label.startswith("The number agrees, the coins do not: 2 are missing and 2 others are there")
    assert day(counted_pieces=9, missing=2).stock[-1].label == "Short"


BACK = st.lists(st.builds(Returned, MONEY, MONEY), max_size=5)


@given(BOUGHT, SOLD, BACK)
def test_tables_add_up_and_survive_json(bought, sold, returned):
    done = day(bought=bought, sold=sold, returned=returned)
    for rows in (done.stock, done.cash):
        end = next(i for i, row in enumerate(rows) if row.mark == "total")
        assert sum(row.cents for row in rows[:end]) == rows[end].cents
    end = next(i for i, row in enumerate(done.stock) if row.mark == "total")
    assert sum(row.pieces for row in done.stock[:end]) == done.expected_pieces
    gross = labels(done.result).index("Gross profit")
    assert sum(row.cents for row in done.result[:gross]) == done.gross_profit
    assert sum(row.cents for row in done.result[gross:-1]) == done.net
    assert json.loads(json.dumps(done.as_json()))["expected_cash"] == done.expected_cash
