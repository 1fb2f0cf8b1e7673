"""A lot's own little accounts are worked out once for an entry, and never of rows that are no more."""

import pytest
from support.noting import calls

from exergue.records import units
from exergue.records.tables import Coin


@pytest.fixture
def made(monkeypatch):
    """How often books of one coin were made from here on."""
    return calls(monkeypatch, units, "_made")


def test_an_entry_works_a_lot_out_once_for_the_record_and_for_its_card(book, anna, made):
    lot, _ = anna.buy(cents=1_003, set={"pieces": 10})
    for _ in range(3):
        made.clear()
        anna.say("ticket", sold=[{"coin": lot, "pieces": 2}], price=500, date="2026-03-15")
        assert made == [lot]


def test_what_was_only_tried_is_no_part_of_what_is_said_next(book, anna):
    """1,003 cents over 10 pieces are 101 for each of the first three, and 100 for the rest (largest remainder)."""
    lot, _ = anna.buy(cents=1_003, set={"pieces": 10})
    with book.tried("ticket", {"sold": [{"coin": lot, "pieces": 2}], "price": 500, "date": "2026-03-15"}):
        assert Coin.get_by_id(lot).cost_left == 801
    assert units.cost(units.worked(lot, 10), lot) == (1_003, 1_003)
    sold = anna.say("ticket", sold=[{"coin": lot, "pieces": 4}], price=900, date="2026-03-15")
    assert Coin.get_by_id(lot).cost_left == 1_003 - (3 * 101 + 100)
    anna.say("void", of=sold.fact)
    assert Coin.get_by_id(lot).cost_left == 1_003 and units.cost(units.worked(lot, 10), lot) == (1_003, 1_003)
