"""What a helper's phone may enter, and what it is told."""

import pytest

from exergue.records import refold
from tests.records.conftest import Phone

SHOW = "01890000-0000-7000-8000-000000000001"


@pytest.fixture
def till(book):
    return Phone(book, "Till", role="helper")


@pytest.mark.parametrize("kind, body", [
    ("setting", {"key": "cost_code", "value": "x", "base": "?"}),
    ("setting", {"key": "label_address", "value": "https://elsewhere.example"}),
    ("show.add", {"show": SHOW, "set": {"float": 1}}),
    ("want.add", {"want": SHOW, "set": {}}),
    ("sale.seen", {"set": {"date": "2026-03-14", "price": 1}}),
    ("decide", {"look": SHOW, "choice": "keep"}),
])  # fmt: skip
def test_what_is_the_owners_is_refused(book, till, kind, body):
    verdict = till.say(kind, **body)
    assert (verdict.verdict, verdict.code, verdict.now) == ("refused", "not_allowed", None)


@pytest.mark.parametrize("field, value", [("floor", 1), ("publish", ["identity"])])
def test_a_helper_changes_neither_floor_nor_what_is_published(book, anna, till, field, value):
    coin, _ = anna.buy(set={"floor": 12_345})
    verdict = till.say("coin.edit", coin=coin, base={field: None}, set={field: value})
    assert verdict.code == "not_allowed" and verdict.now is None
    assert book.card("coin", coin)["own"]["floor"] == 12_345


def test_a_helper_undoes_only_its_own(book, anna, till):
    coin, bought = anna.buy()
    assert till.say("void", of=bought.fact).code == "not_allowed"
    sold = till.sell(coin)
    assert till.say("void", of=sold.fact).verdict == "applied"
    assert refold.verify() == []


def test_a_coin_sold_already_is_told_without_the_price(book, anna, till):
    coin, _ = anna.buy()
    anna.sell(coin, 22_200)
    verdict = till.sell(coin, 5)
    assert verdict.code == "sold_twice" and verdict.now is None and "222" not in verdict.message
