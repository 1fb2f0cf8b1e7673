"""Counts of stock and cash against textbook examples and the law's list of coins."""

import pytest

from exergue.shows.drawer import Compared, counted, denominations
from exergue.shows.expected import Coin, Entered, Went
from exergue.shows.reconcile import Asked, Scan, reconcile

ENTRY = Entered("f", 0, "phone")


@pytest.mark.parametrize(("recorded", "found", "off", "says"), [
    (8_192_00, 8_220_00, 28_00, "over"),  # "Cash short and over" in a college text on corporate accounting, 14th ed., ch. 7
    (9_440_00, 9_506_00, 66_00, "over"),  # the same problem in a text on financial and managerial accounting, 13th ed., ch. 7
    (200_00 - 74_40 - 36_00 - 33_70 - 27_50, 200_00 - 175_00, -3_40, "short"),  # petty cash of a financial accounting text, 8th ed., ch. 7
])  # fmt: skip
def test_cash_over_and_short(recorded, found, off, says):
    done = Compared(recorded, found)
    assert (done.off, done.says) == (off, says)


def test_coins_of_the_united_states_are_those_of_the_law():
    """31 U.S.C. 5112(a)(1)-(6): dollar, half dollar, quarter dollar, dime, 5-cent coin, one-cent coin (from memory)."""
    assert [one.cents for one in denominations("USD") if one.kind == "coin"] == [1, 5, 10, 25, 50, 100]


def test_coins_and_notes_of_the_euro_are_those_of_the_law():
    """Regulation (EU) No 729/2014, annex I: eight coins; decision ECB/2013/10, article 1: seven notes (from memory)."""
    found = denominations("EUR")
    assert [one.cents for one in found if one.kind == "coin"] == [1, 2, 5, 10, 20, 50, 100, 200]
    assert [one.cents // 100 for one in found if one.kind == "note"] == [5, 10, 20, 50, 100, 200, 500]


def test_a_drawer_worked_by_hand():
    """Common practice, no source: 4 × 100 + 7 × 20 + 3 × 5 + 9 × 0.25 = 557.25."""
    assert counted([{"cents": 100_00, "number": 4}, {"cents": 20_00, "number": 7}, {"cents": 5_00, "number": 3}, {"cents": 25, "number": 9}]) == 557_25


def test_a_book_stock_and_a_count():
    """A business how-to on shrinkage: opening 6,000, sold 2,000, bought 1,000: expected 5,000; counted 4,850: 150 short."""
    coins = [Coin(f"p{n}", "packed", ENTRY, went=Went("sold", "sold", ENTRY) if n < 2_000 else None) for n in range(6_000)]
    coins += [Coin(f"b{n}", "bought", ENTRY) for n in range(1_000)]
    there = [coin.id for coin in coins if coin.due][:4_850]
    done = reconcile({coin.id: coin for coin in coins}, [Scan(key, 1, "phone") for key in there], Asked("r", "s", "2026-03-14"))
    assert done.rows == [("packed", 6_000), ("bought", 1_000), ("sold", -2_000)]
    assert (done.expected, done.seen, done.missing, done.unexpected) == (5_000, 4_850, 150, 0)


def test_both_ways_of_a_physical_count_floor_to_sheet_and_sheet_to_floor():
    """GAO-02-447G, executive guide to physical counts: items traced from the floor to the record and from the record to the
    floor, each difference researched (from memory). Two errors that cancel in the total are still two differences."""
    coins = {key: Coin(key, "packed", ENTRY) for key in "AB"} | {"C": Coin("C")}
    done = reconcile(coins, [Scan("A", 1, "phone"), Scan("C", 1, "phone")], Asked("r", "s", "2026-03-14"))
    assert done.expected == done.seen == 2
    assert sorted((one.coin, one.kind) for one in done.differences) == [("B", "missing"), ("C", "never packed")]
