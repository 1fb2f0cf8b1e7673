"""Part gift, part sale, from the fact to the card and the accounts: Treas. Reg. 1.1015-4(b), Examples 1, 2 and 3; and a loss after
Reg. 1.1015-4(a): then the basis is not above the value at the gift. Amounts are the regulation's, in dollars."""

import pytest

from exergue.records import books
from exergue.records.book import Book
from tests.records.conftest import Phone


@pytest.fixture
def book(tmp_path):
    made = Book.create(tmp_path / "book")
    with made.connected():
        yield made


@pytest.mark.parametrize(("paid", "donors", "value", "basis"), [
    (30_000, 30_000, 60_000, 30_000), (60_000, 30_000, 90_000, 60_000), (30_000, 60_000, 90_000, 60_000),
])  # fmt: skip
def test_the_basis_is_the_greater_of_what_was_paid_and_the_donors(book, paid, donors, value, basis):
    phone = Phone(book, "Anna's phone")
    coin = phone.new_id()
    row = {"coin": coin, "set": {"title": "x"}, "paid": paid * 100, "basis": donors * 100, "value": value * 100}
    assert phone.say("acquired", how="gift", coins=[row], payments=[{"how": "check", "cents": paid * 100}], date="2026-03-14").verdict == "applied"
    assert book.card("coin", coin)["own"]["cost"] == basis * 100
    account = books.build(book).books
    assert account.stock()[0].cost == basis * 100 and account.ledger.balance("cash:check") == -paid * 100


def test_a_loss_is_reckoned_from_no_more_than_the_value_at_the_gift(book):
    """Reg. 1.1015-4(b), Example 4: paid 30,000, transferor's basis 90,000, value 60,000: for a loss the basis is 60,000 (from memory)."""
    phone = Phone(book, "Anna's phone")
    coin = phone.new_id()
    row = {"coin": coin, "set": {"title": "x"}, "paid": 3_000_000, "basis": 9_000_000, "value": 6_000_000}
    phone.say("acquired", how="gift", coins=[row], date="2026-03-14")
    phone.sell(coin, 5_000_000)
    (gone,) = books.build(book).books.gains()
    assert (gone.basis, gone.gain) == (6_000_000, -1_000_000)
