"""Trades: what goes out is sold for what comes in, and what comes in has cost what went out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.entries import bought, day, head, traded

from exergue.money.books import Books
from exergue.money.events import BadEntry, In, Lent, Memo, Out, Trade
from exergue.money.ledger import check


@pytest.fixture
def books():
    books = Books()
    books.take(bought("2026-01-01", "A", price=400_00))
    books.take(bought("2026-01-01", "B", price=100_00))
    return books


def test_each_coin_realises_its_value_less_its_share_of_the_costs(books):
    out, into = (Out("A", value=600_00), Out("B", value=200_00)), (In("C", value=300_00), In("D", value=450_00))
    books.take(traded("2026-02-01", out, into, boot=50_00, shipping=8_00))
    assert [(each.coin, each.why, each.proceeds, each.basis, each.gain) for each in books.gains()] == [
        ("A", "traded", 594_00, 400_00, 194_00), ("B", "traded", 198_00, 100_00, 98_00)]  # fmt: skip
    assert [(coin, books.cost_of(coin).total, books.cost_of(coin).acquired) for coin in "CD"] == [
        ("C", 300_00, day("2026-02-01")), ("D", 450_00, day("2026-02-01"))]  # fmt: skip
    assert books.ledger.balances() == {
        "cash:cash": -500_00 + 50_00 - 8_00, "coins:stock": 750_00, "cost of sales": 500_00, "sales": -800_00,
        "expense:shipping": 8_00}  # fmt: skip
    assert books.records["A"].state == "traded"


def test_boot_paid_goes_out_in_cash(books):
    books.take(traded("2026-02-01", (Out("A", value=500_00),), (In("C", value=600_00),), boot=-100_00, payment="check"))
    assert books.ledger.balance("cash:check") == -100_00
    assert books.gains()[0].gain == 100_00


@pytest.mark.parametrize(("boot", "off"), [(0, "$50.00"), (49_99, "$0.01"), (-50_00, "$100.00")])
def test_a_trade_that_does_not_balance_says_the_difference(books, boot, off):
    with pytest.raises(BadEntry) as told:
        books.take(traded("2026-02-01", (Out("A", value=500_00),), (In("C", value=450_00),), boot=boot))
    assert str(told.value).endswith(f"{off} is missing.") and "$500.00 goes out" in str(told.value)
    assert books.gains() == [] and "C" not in books.records


@pytest.mark.parametrize(("out", "into", "why"), [
    ((Out("A", value=1),), (In("A", value=1),), "A cannot go out and come in"),
    ((Out("A"),), (In("C", value=1),), "what A counts for"),
    ((Out("A", value=1),), (In("C"),), "what C counts for"),
    ((Out("E", value=1),), (In("C", value=1),), "E is not in these books"),
    ((Out("A", value=1),), (In("B", value=1),), "B is here already"),
    ((), (In("C", value=1),), "which coins went out"),
    ((Out("A", value=1),), (), "which coins came in"),
])  # fmt: skip
def test_what_cannot_be_traded_is_refused(books, out, into, why):
    books.take(Memo(**head("2026-01-15"), way="in", kind="memo", coins=(Lent("X", 5),), with_="Ada"))
    with pytest.raises(BadEntry, match=why):
        books.take(traded("2026-02-01", out, into))


def test_payments_of_a_trade_come_to_its_boot(books):
    def trade(*payments):
        out, into = (Out("A", value=500_00),), (In("C", value=600_00),)
        return Trade(**head("2026-02-01"), out=out, into=into, boot=-100_00, payments=payments)

    with pytest.raises(BadEntry, match=r"\$99.00, and \$100.00 is due"):
        books.take(trade({"how": "cash", "cents": 99_00}))
    books.take(trade({"how": "cash", "cents": 60_00}, {"how": "card", "cents": 40_00}))
    assert books.ledger.balance("cash:card") == -40_00


def test_the_costs_of_a_trade_without_boot_may_be_what_is_paid(books):
    out, into = (Out("A", value=500_00),), (In("C", value=500_00),)
    shipping = ({"what": "shipping", "cents": 7_00},)
    books.take(Trade(**head("2026-02-01"), out=out, into=into, costs=shipping, payments=({"how": "card", "cents": 7_00},)))
    assert books.ledger.balance("cash:card") == -7_00 and check(books).ok


VALUES = st.lists(st.integers(0, 10**7), min_size=1, max_size=4)


@given(VALUES, VALUES)
def test_what_one_side_gives_is_what_the_other_gets(ours, theirs):
    """Boot squares the two sides; a trade seen from across the table is the same trade."""
    boot = sum(ours) - sum(theirs)
    mine, yours = [f"M{n}" for n in range(len(ours))], [f"Y{n}" for n in range(len(theirs))]
    here, there = Books(), Books()
    for books, coins in ((here, mine), (there, yours)):
        books.take(bought("2026-01-01", *coins, price=1_000_00))

    def trade(out, into, boot):
        return traded("2026-02-01", tuple(Out(c, value=v) for c, v in out), tuple(In(c, value=v) for c, v in into), boot)

    my_side, your_side = list(zip(mine, ours, strict=True)), list(zip(yours, theirs, strict=True))
    here.take(trade(my_side, your_side, boot))
    there.take(trade(your_side, my_side, -boot))
    for one, other, moved in ((here, there, my_side), (there, here, your_side)):
        assert [(each.coin, each.proceeds) for each in one.gains()] == moved
        assert [(coin, other.cost_of(coin).total) for coin, _ in moved] == moved
        assert check(one).ok
    assert here.ledger.balance("cash:cash") + there.ledger.balance("cash:cash") == -2_000_00
    assert here.ledger.balance("cash:cash") == -1_000_00 + boot
