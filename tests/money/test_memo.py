"""Memo and consignment: ours that is with somebody else, and somebody's that is with us."""

import pytest
from support.entries import bought, head, moved, returned, sold, traded

from exergue.money.books import Books
from exergue.money.events import Back, BadEntry, In, Lent, Lost, Memo, Out, Withdrawn
from exergue.money.ledger import check


def memo(when, way, *coins, kind="consignment", with_="Ada"):
    return Memo(**head(when), way=way, kind=kind, coins=coins, with_=with_)


@pytest.fixture
def books():
    books = Books()
    books.take(bought("2026-01-01", "A", price=100_00))
    books.take(memo("2026-01-02", "in", Lent("X", 80_00), Lent("Y", 50_00)))
    return books


def test_our_coin_on_memo_is_still_our_stock_at_its_cost(books):
    books.take(memo("2026-02-01", "out", Lent("A", 130_00), kind="memo", with_="Bert"))
    (standing,) = books.stock()
    assert (standing.coin, standing.state, standing.cost) == ("A", "on memo", 100_00)
    assert [(each.coin, each.party, each.net) for each in books.out()] == [("A", "Bert", 130_00)]
    books.take(Back(**head("2026-03-01"), coins=("A",)))
    assert books.stock()[0].state == "in stock" and books.out() == []


def test_our_coin_is_sold_while_it_is_out_for_what_was_agreed(books):
    books.take(memo("2026-02-01", "out", Lent("A", 130_00)))
    books.take(sold("2026-03-01", "A", price=None, payment="check"))
    assert [(each.proceeds, each.gain) for each in books.gains()] == [(130_00, 30_00)]
    assert books.ledger.balance("cash:check") == 130_00
    with pytest.raises(BadEntry, match="A is not here: it is sold"):
        books.take(memo("2026-04-01", "out", Lent("A", 1)))


def test_somebodys_coin_is_never_in_our_stock(books):
    assert [(each.coin, each.party, each.net) for each in books.held_for_others()] == [("X", "Ada", 80_00), ("Y", "Ada", 50_00)]
    assert [each.coin for each in books.stock()] == ["A"]
    assert check(books).coins["stock"] == (100_00, 100_00)


def test_what_is_left_of_the_price_after_the_owners_net_is_our_commission(books):
    books.take(sold("2026-02-01", Out("X", price=100_00), Out("A", price=150_00), price=250_00, tax=10_00))
    assert [(each.coin, each.gain) for each in books.gains()] == [("A", 50_00)]
    assert books.due == {"Ada": 80_00}
    assert books.ledger.balances() == {
        "cash:cash": -100_00 + 260_00, "sales": -150_00, "cost of sales": 100_00, "due to consignors": -80_00,
        "income:commission": -20_00, "sales tax": -10_00}  # fmt: skip
    books.take(moved("2026-03-01", "consignor", 80_00, how="check", to="Ada"))
    assert books.due == {"Ada": 0} and books.ledger.balance("due to consignors") == 0
    assert check(books).ok


def test_a_sale_of_somebodys_coin_is_returned_to_both(books):
    sale = sold("2026-02-01", "X", price=100_00)
    books.take(sale)
    books.take(returned("2026-02-03", sale, refund=100_00))
    assert {each.coin for each in books.held_for_others()} == {"X", "Y"}
    assert books.due == {"Ada": 0}
    assert books.ledger.balances() == {"cash:cash": -100_00, "coins:stock": 100_00}


def test_an_unsold_coin_goes_back_to_its_owner(books):
    books.take(Back(**head("2026-02-01"), coins=("X",)))
    assert [each.coin for each in books.held_for_others()] == ["Y"]
    with pytest.raises(BadEntry, match="X is not in these books"):
        books.take(sold("2026-02-02", "X", price=1))


def test_a_coin_left_with_us_may_be_bought(books):
    books.take(bought("2026-02-01", "X", price=75_00))
    assert [each.coin for each in books.held_for_others()] == ["Y"]
    assert books.cost_of("X").total == 75_00
    books.take(traded("2026-02-02", (Out("X", value=75_00),), (In("Y", value=75_00),)))
    assert books.held_for_others() == [] and books.cost_of("Y").total == 75_00


def test_the_owner_of_a_coin_that_we_lost_is_due_what_was_agreed(books):
    """Common practice, no source."""
    books.take(Lost(**head("2026-02-01"), coin="X", how="lost", reimbursed=70_00))
    assert books.held_for_others()[0].coin == "Y" and books.due == {"Ada": 80_00}
    assert (books.ledger.balance("expense:losses"), books.ledger.balance("income:reimbursed")) == (80_00, -70_00)
    books.take(Back(**head("2026-02-05"), coins=("X",)))
    assert {each.coin for each in books.held_for_others()} == {"X", "Y"} and books.due == {"Ada": 0}
    assert books.ledger.balance("expense:losses") == 0 and check(books).ok


@pytest.mark.parametrize(("event", "why"), [
    (sold("2026-02-01", Out("X", 2), price=1), "2 pieces of X cannot leave: 1 is there, of Ada’s"),
    (memo("2026-02-01", "out", Lent("X")), "X is not ours but Ada’s"),
    (memo("2026-02-01", "out", Lent("Q")), "Q is not here: it is not in these books"),
    (memo("2026-02-01", "in", Lent("A", 1)), "A is ours"),
    (memo("2026-02-01", "in", Lent("X", 1)), "X is with us already"),
    (memo("2026-02-01", "in", Lent("Z", 1), Lent("Z", 1)), "each once"),
    (memo("2026-02-01", "up", Lent("Z", 1)), "go out or come in"),
    (memo("2026-02-01", "in", Lent("Z", 1), kind="loan"), "not on “loan”"),
    (Withdrawn(**head("2026-02-01"), coins=("X",), to="personal"), "X is not ours but Ada’s"),
])  # fmt: skip
def test_whose_a_coin_is_must_be_right(books, event, why):
    with pytest.raises(BadEntry, match=why):
        books.take(event)


def test_what_is_due_to_the_owner_must_be_known_when_the_coin_is_sold(books):
    books.take(memo("2026-02-01", "in", Lent("Z")))
    with pytest.raises(BadEntry, match="what is due to the owner of Z"):
        books.take(sold("2026-02-02", "Z", price=10_00))


def test_a_lost_coin_of_somebody_is_found_before_anything_else_becomes_of_it(books):
    sale = sold("2026-02-01", "X", price=100_00)
    for event in (sale, returned("2026-02-02", sale, refund=100_00), Lost(**head("2026-02-03"), coin="X", how="lost")):
        books.take(event)
    with pytest.raises(BadEntry, match="X is booked as missing"):
        books.take(bought("2026-02-04", "X", price=75_00))
    with pytest.raises(BadEntry, match="X is with us already"):
        books.take(memo("2026-02-04", "in", Lent("X", 1)))
    with pytest.raises(BadEntry, match="returned already"):
        books.take(returned("2026-02-04", sale, refund=100_00))
