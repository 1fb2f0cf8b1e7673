"""Whatever happens to a book: its journal balances, and what is undone is as if it had never been."""

import random
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.histories import DAY, HISTORIES, make, picture, play

from exergue.money.books import Books, in_order
from exergue.money.events import Acquired, BadEntry, Purchase, Trade, Void
from exergue.money.ledger import check

MANY = settings(max_examples=150)


@MANY
@given(HISTORIES, st.sampled_from(["fifo", "specific"]))
def test_the_journal_balances_and_its_stock_is_what_the_coins_cost(history, lots):
    books = Books(lots=lots)
    play(books, history)
    proof = check(books)
    assert proof.ok, proof.faults
    assert sum(books.ledger.balances().values()) == 0
    for record in books.records.values():
        assert all(unit.pieces > 0 and all(line.cents >= 0 for line in unit.lines) for unit in record.units)
        assert not (record.units and record.coin in books.others)


@MANY
@given(HISTORIES)
def test_what_is_refused_changes_nothing(history):
    books, taken = Books(), []
    draw = random.Random(history[0])
    for n in range(history[1]):
        event = make(n, draw, books, taken)
        before = picture(books)
        try:
            books.take(event)
            taken.append(event)
        except BadEntry:
            assert picture(books) == before
    assert in_order(books.taken.values()) == in_order(taken)


@MANY
@given(HISTORIES, st.integers(0, 100))
def test_a_history_with_an_entry_undone_is_the_history_without_it(history, which):
    books = Books()
    taken = play(books, history)
    if not taken:
        return
    gone = taken[which % len(taken)]
    void = Void(id="void", date=DAY + timedelta(days=900), of=gone.id, order=999)
    rest = [event for event in taken if event is not gone]
    before = picture(books)
    try:
        without = Books.of(rest)
    except BadEntry:
        with pytest.raises(BadEntry, match=r"cannot be undone while the .* stands: .*\.$"):
            books.take(void)
        assert picture(books) == before
        return
    books.take(void)
    assert picture(books) == picture(without) == picture(Books.of([*taken, void]))


@MANY
@given(HISTORIES, st.randoms(use_true_random=False))
def test_the_order_in_which_entries_arrive_does_not_matter(history, draw):
    taken = play(Books(), history)
    whole = picture(Books.of(taken))
    books, waiting = Books(), list(taken)
    draw.shuffle(waiting)
    while waiting:
        still = []
        for event in waiting:
            try:
                books.take(event)
            except BadEntry:  # it needs another that is still to come
                still.append(event)
        if len(still) == len(waiting):
            return
        waiting = still
    assert picture(books) == whole


@MANY
@given(HISTORIES, st.integers(0, 900))
def test_the_books_of_an_earlier_day_are_those_of_what_had_happened(history, days):
    books = Books()
    taken = play(books, history)
    day = DAY + timedelta(days=days)
    then = Books.of([event for event in taken if event.date <= day])
    assert books.stock(day) == then.stock()
    assert check(books.as_of(day)).ok
    assert books.ledger.balances(last=day) == then.ledger.balances()


@MANY
@given(HISTORIES)
def test_pieces_are_neither_made_nor_lost(history):
    """What each entry brought is here or left, and its whole cost with it, to the cent."""
    books = Books()
    taken = play(books, history)
    units = [unit for record in books.records.values() for unit in record.units] + [each.part for each in books.gains()]
    for event in taken:
        rows = {Purchase: "bought", Trade: "into", Acquired: "coins"}.get(type(event))
        if rows is None or getattr(event, "how", "") == "entered":  # a word on how the coin came takes its place
            continue
        for row in getattr(event, rows):
            mine = [unit for unit in units if (unit.fact, unit.coin) == (event.id, row.coin)]
            assert sum(unit.pieces for unit in mine) == row.pieces
        if type(event) is Purchase:
            own = [line.cents for unit in units for line in unit.lines if unit.fact == line.fact == event.id]
            assert sum(own) == sum(line["cents"] for line in event.costs)


@MANY
@given(HISTORIES)
def test_the_accounts_hold_what_the_disposals_say(history):
    books = Books()
    play(books, history)
    stand = [each for each in books.gains() if each.gain is not None]
    for held in ("investment", "personal"):
        assert -books.ledger.balance(f"gains:{held}") == sum(each.gain for each in stand if each.held == held)
    stock = [each for each in books.gains() if each.held == "stock"]
    used = sum(each.part.cents if each.basis is None else each.basis for each in stock)
    assert books.ledger.balance("cost of sales") == used
