"""What a part of a lot costs, and which pieces it is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.entries import bought, day, returned, sold

from exergue.money.allocate import split
from exergue.money.books import Books
from exergue.money.events import BadEntry, Cost, In, Out
from exergue.money.lots import Line, Unit, share

CENTS, PIECES = st.integers(0, 10**9), st.integers(1, 300)


def unit(cents, pieces):
    first = day("2026-01-01")
    return Unit("LOT", "fact", "bought", first, first, 0, pieces, (Line("price", cents, "fact"),))


@given(CENTS, PIECES, st.data())
def test_the_whole_adds_up_when_the_last_piece_leaves_however_it_is_cut(cents, pieces, data):
    lot, left, costs = unit(cents, pieces), pieces, []
    while left:
        leaving = data.draw(st.integers(1, left))
        costs.append((leaving, lot.split_off(leaving).cents))
        left -= leaving
    assert sum(cost for _, cost in costs) == cents
    gone = 0
    for leaving, cost in costs:  # the same as the shares of the first split, in the order in which they leave
        assert cost == sum(split(cents, [1] * pieces)[gone : gone + leaving])
        gone += leaving


@given(CENTS, PIECES, st.data())
def test_pieces_cost_the_same_one_by_one_or_together(cents, pieces, data):
    together = data.draw(st.integers(1, pieces))
    lot = unit(cents, pieces)
    one_by_one = [lot.split_off(1).cents for _ in range(together)]
    assert sum(one_by_one) == share(cents, pieces, together)
    assert max(one_by_one) - min(one_by_one) <= 1


def test_the_odd_cents_lie_on_the_pieces_that_leave_first():
    lot = unit(100_00, 3)
    assert [lot.split_off(1).cents for _ in range(3)] == [33_34, 33_33, 33_33]


def test_every_line_of_cost_is_cut_apart():
    books = Books()
    books.take(bought("2026-01-01", In("LOT", 3), price=100_00, shipping=1_00))
    books.take(sold("2026-02-01", Out("LOT", 1), price=50_00))
    assert books.gains()[0].basis == 33_34 + 34
    assert [(line.what, line.cents) for line in books.cost_of("LOT").lines] == [("price", 66_66), ("shipping", 66)]


def test_a_later_cost_lies_on_the_pieces_that_are_still_there():
    books = Books()
    books.take(bought("2026-01-01", In("LOT", 4), price=40_00))
    books.take(sold("2026-02-01", Out("LOT", 3), price=50_00))
    books.take(Cost(id="c", date=day("2026-02-02"), coins=(Out("LOT"),), costs=({"what": "grading", "cents": 7_00},)))
    assert [each.basis for each in books.gains()] == [30_00]
    assert books.cost_of("LOT").total == 17_00


def two_purchases(**settings):
    books = Books(**settings)
    first, second = bought("2026-01-01", In("LOT", 5), price=50_00), bought("2026-02-01", In("LOT", 5), price=75_00)
    books.take(first)
    books.take(second)
    return books, first, second


def test_a_later_purchase_adds_pieces_and_the_first_in_leave_first():
    books, _, _ = two_purchases()
    books.take(sold("2026-03-01", Out("LOT", 7), price=140_00))
    assert [(each.pieces, each.basis, each.acquired, each.proceeds) for each in books.gains()] == [
        (5, 50_00, day("2026-01-01"), 100_00), (2, 30_00, day("2026-02-01"), 40_00)]  # fmt: skip
    assert books.stock()[0].cost == 45_00


def test_pieces_may_be_named_by_the_purchase_that_brought_them():
    books, _, second = two_purchases()
    books.take(sold("2026-03-01", Out("LOT", 2, of=second.id), price=40_00))
    assert [(each.pieces, each.basis) for each in books.gains()] == [(2, 30_00)]


def test_lines_of_one_sale_may_name_different_purchases():
    books, first, second = two_purchases(lots="specific")
    books.take(sold("2026-03-01", Out("LOT", 1, of=second.id), Out("LOT", 2, of=first.id), price=60_00))
    assert sorted(each.basis for each in books.gains()) == [15_00, 20_00]
    with pytest.raises(BadEntry, match="goes out once"):
        books.take(sold("2026-03-02", Out("LOT", 1, of=second.id), Out("LOT", 1), price=60_00))


def test_a_book_of_specific_choice_asks_which_pieces_are_meant():
    books, _, _ = two_purchases(lots="specific")
    with pytest.raises(BadEntry, match="Say from which purchase the 2 pieces of LOT are"):
        books.take(sold("2026-03-01", Out("LOT", 2), price=40_00))
    books.take(sold("2026-03-01", Out("LOT"), price=200_00))  # all of them leaves no question
    assert [each.basis for each in books.gains()] == [50_00, 75_00]


@pytest.mark.parametrize(("line", "why"), [
    (Out("LOT", 11), "11 pieces of LOT cannot leave, since 10 are there"), (Out("LOT", 0), "at least 1"),
    (Out("LOT", 1, of="other"), "No pieces of LOT are here from the entry other"), (Out("LOTS", 1), "LOTS is not in these books"),
])  # fmt: skip
def test_pieces_that_are_not_there_cannot_leave(line, why):
    books, _, _ = two_purchases()
    with pytest.raises(BadEntry, match=why):
        books.take(sold("2026-03-01", line, price=40_00))


def test_a_single_coin_takes_no_more_pieces():
    books = Books()
    books.take(bought("2026-01-01", "COIN", price=50_00))
    with pytest.raises(BadEntry, match="COIN is here already, and is no lot"):
        books.take(bought("2026-01-02", In("COIN", 2), price=50_00))


def test_a_purchase_entered_late_takes_its_place_among_the_first_in():
    books = Books()
    books.take(bought("2026-02-01", In("LOT", 5), price=75_00))
    books.take(sold("2026-03-01", Out("LOT", 5), price=100_00))
    books.take(bought("2026-01-01", In("LOT", 5), price=50_00))
    assert [(each.basis, each.acquired) for each in books.gains()] == [(50_00, day("2026-01-01"))]


def test_pieces_that_come_back_are_again_the_first_in():
    books, first, _ = two_purchases()
    sale = sold("2026-03-01", Out("LOT", 5), price=100_00)
    books.take(sale)
    books.take(returned("2026-03-02", sale, refund=100_00))
    books.take(sold("2026-03-03", Out("LOT", 5), price=100_00))
    assert [(each.part.fact, each.basis) for each in books.gains()] == [(first.id, 50_00)]


def test_a_later_cost_lies_evenly_on_all_pieces_of_a_lot_whenever_they_came():
    books = Books.of([bought("2026-01-01", In("LOT", 2), price=2_00), bought("2026-02-01", In("LOT", 6), price=6_00)])
    books.take(Cost(id="c", date=day("2026-03-01"), coins=(Out("LOT"),), costs=({"what": "other", "cents": 8_00},)))
    assert [unit.cents for unit in books.records["LOT"].units] == [4_00, 12_00]


def test_when_all_pieces_left_their_cost_is_that_of_those_that_left_last():
    books, _, second = two_purchases()
    books.take(sold("2026-03-01", Out("LOT", 8), price=100_00))
    books.take(sold("2026-03-02", Out("LOT", 2), price=100_00))
    told = books.cost_of("LOT")
    assert (told.total, told.pieces, told.acquired) == (30_00, 2, day("2026-02-01"))
    assert {line.fact for line in told.lines} == {second.id}
