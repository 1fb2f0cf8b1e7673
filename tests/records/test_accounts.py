"""Cards and accounts are two reckonings of one journal: they agree, coin by coin."""

from hypothesis import HealthCheck, given, settings

from exergue.money import ledger
from exergue.records import books, proof
from exergue.records.book import Book
from exergue.records.tables import Coin
from tests.records.test_refold import STEPS, play


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_accounts_of_any_history_balance_and_say_what_the_cards_say(tmp_path_factory, steps):
    book = Book.create(tmp_path_factory.mktemp("book"))
    with book.connected():
        play(book, steps)
        account = books.build(book)
        assert ledger.check(account.books).faults == []
        assert proof.differences(account) == []


def test_a_coin_put_in_alone_is_in_the_accounts_at_an_unknown_cost(book, anna):
    coin = anna.new_id()
    anna.say("coin.add", coin=coin, set={"title": "x"})
    account = books.build(book)
    assert account.unknown == [coin] and proof.differences(account) == []
    assert "1 coin without a known cost" in proof.prove(book)[1][0]


def test_a_card_that_says_another_cost_is_found(book, anna):
    coin, _ = anna.buy(cents=10_000)
    Coin.update(cost_left=9_999).where(Coin.id == coin).execute()
    (said,) = proof.prove(book)[0]
    assert "9999" in said and "10000" in said


def test_a_clash_counts_once_in_the_accounts(book, anna, ben):
    coin, _ = anna.buy(cents=10_000)
    anna.sell(coin, 15_000), ben.sell(coin, 16_000)
    account = books.build(book)
    assert [each.proceeds for each in account.books.gains()] == [15_000] and proof.differences(account) == []
