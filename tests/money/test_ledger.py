"""The journal: entries that balance, and a proof that finds what does not agree."""

import pytest
from support.entries import bought, day, moved, sold

from exergue.money.books import Books
from exergue.money.events import BadEntry, In, Out
from exergue.money.ledger import Entry, Ledger, check


@pytest.fixture
def books():
    return Books.of([
        bought("2026-01-01", In("LOT", 3), price=100_00),
        sold("2026-02-01", Out("LOT", 1), price=50_00),
        moved("2026-03-01", "expense", 9_00),
    ])  # fmt: skip


def test_an_entry_that_does_not_balance_is_refused():
    ledger = Ledger()
    with pytest.raises(BadEntry, match="does not balance"):
        ledger.post("fact", day("2026-01-01"), 0, "sale", {"sales": -1_00, "cash:cash": 99})
    assert ledger.entries() == [] and ledger.balances() == {}


def test_every_entry_adds_up_to_nothing_and_names_its_fact(books):
    entries = books.ledger.entries()
    assert [(entry.about, entry.date) for entry in entries] == [
        ("purchase", day("2026-01-01")), ("sale", day("2026-02-01")), ("entry of money", day("2026-03-01"))]  # fmt: skip
    assert all(sum(cents for _, cents in entry.postings) == 0 for entry in entries)
    assert [entry.fact for entry in entries] == list(books.taken)
    assert dict(entries[1].postings) == {"cash:cash": 50_00, "sales": -50_00, "cost of sales": 33_34, "coins:stock": -33_34}


def test_balances_of_a_span_of_days(books):
    assert books.ledger.balances(last=day("2026-01-31")) == {"cash:cash": -100_00, "coins:stock": 100_00}
    assert books.ledger.balances(first=day("2026-03-01")) == {"cash:cash": -9_00, "expense:general": 9_00}
    assert books.ledger.balances(first=day("2026-01-01")) == books.ledger.balances()


def test_the_proof_finds_a_coin_whose_cost_is_not_in_the_journal(books):
    assert check(books).ok
    unit = books.records["LOT"].units[0]
    unit.lines = (unit.lines[0]._replace(cents=unit.cents + 1),)
    assert check(books).faults == ["The account coins:stock holds 6666, and its coins cost 6667."]


def test_the_proof_finds_an_entry_that_is_off(books):
    entry = books.ledger._entries[0]
    books.ledger._entries[0] = Entry(entry.fact, entry.date, 0, "purchase", (*entry.postings, ("cash:cash", 1)))
    proof = check(books)
    assert not proof.ok and any(entry.fact in fault for fault in proof.faults)


def test_the_proof_finds_consignors_who_are_due_something_else(books):
    books.due["Ada"] = 5
    assert check(books).faults == ["Consignors are due 5, and their account holds 0."]


def test_held_kinds_have_accounts_of_their_own():
    held = [bought("2026-01-01", In(name, held=name), price=10_00) for name in ("stock", "investment", "personal")]
    assert check(Books.of(held)).coins == dict.fromkeys(("stock", "investment", "personal"), (10_00, 10_00))
