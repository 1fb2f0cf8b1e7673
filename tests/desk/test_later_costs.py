"""A later cost at the desk: divided over its coins to the cent, in the way that was asked for."""

from datetime import date

import pytest
from desk.test_deals_purchase import confirm

from exergue.labels import ids
from exergue.records import reading
from exergue.records.tables import Fact

WAY = "/desk/deals/move/cost"


def costs(*coins) -> list[int]:
    return [card["own"]["cost"] for card in reading.coins(list(coins))]


def form(*coins, **more) -> dict:
    return {f"coins-{at}-coin": coin for at, coin in enumerate(coins)} | {"grading": "30.01", "date": "2026-05-02"} | more


@pytest.fixture
def two(buy):
    """A coin of 100.00 and one of 300.00."""
    return buy(10_000), buy(30_000, year=1807)


# Largest remainder over 30.01: half and half; one to three; one to two (worked by hand).
@pytest.mark.parametrize("more, shares", [
    ({}, [1_501, 1_500]),
    ({"split": "cost"}, [750, 2_251]),
    ({"split": "weights", "coins-0-worth": "5", "coins-1-worth": "10"}, [1_000, 2_001]),
])  # fmt: skip
def test_one_cost_is_divided_to_the_cent(ada, two, more, shares):
    page, answer = confirm(ada, WAY, form(*two, **more))
    assert answer.status_code == 302
    assert costs(*two) == [10_000 + shares[0], 30_000 + shares[1]] and sum(shares) == 3_001
    assert "What each coin bears" in page


def test_a_cost_by_estimate_follows_the_recorded_sales(ada, book, buy):
    day = date.today().isoformat()
    book.act_all([("sale.seen", {"set": {"date": day, "price": cents, "denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806,
                   "grade": grade, "fee_included": True}}) for grade, cents in (("VF-20", 15_000), ("EF-40", 60_000))])  # fmt: skip
    low, high = buy(grade="VF-20"), buy(grade="EF-40")
    confirm(ada, WAY, form(low, high, split="estimate"))
    (fact,) = Fact.select().where(Fact.kind == "cost")
    weights = [row["weight"] for row in fact.body["coins"]]
    assert weights[0] < weights[1] and costs(low)[0] < costs(high)[0]
    assert sum(costs(low, high)) == 23_001


def test_one_coin_needs_no_second_press_and_payments_may_be_several(ada, buy):
    coin = buy()
    answer = ada.post(WAY, form(coin, **{"payments-0-how": "cash", "payments-0-cents": "10", "payments-1-how": "card", "do": "look"}))
    assert answer.status_code == 302 and costs(coin) == [13_001]
    (fact,) = Fact.select().where(Fact.kind == "cost")
    assert fact.body["payments"] == [{"how": "cash", "cents": 1_000}, {"how": "card", "cents": 2_001}]


@pytest.mark.parametrize("more, said", [
    ({"grading": ""}, "at least one cost"),
    ({"split": "weights", "coins-0-worth": "5"}, "Give every coin a share"),
    ({"split": "estimate"}, "has no estimate of"),
    ({"coins-2-coin": "nonsense"}, "ID"),
    ({"date": ""}, "Give the day"),
])  # fmt: skip
def test_what_is_missing_is_said_and_nothing_is_kept(ada, two, more, said):
    before = Fact.select().count()
    assert said in ada.post(WAY, form(*two, **more)).text
    assert Fact.select().count() == before


def test_a_coin_of_unknown_cost_is_named(ada, book, buy):
    known, bare = buy(), ids.new_id()
    book.act("coin.add", {"coin": bare, "set": {"title": "Store card"}})
    assert "What Store card cost is not known" in ada.post(WAY, form(known, bare, split="cost")).text
