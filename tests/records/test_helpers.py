"""What a helper's phone may enter, and what it is told."""

import json

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


def test_a_helper_sells_trades_and_takes_back_but_lends_nothing(book, anna, till):
    (one, _), (two, _) = anna.buy(), anna.buy()
    day = {"date": "2026-03-16"}
    sold = till.say("ticket", sold=[{"coin": one}], price=500, **day)
    assert sold.verdict == "applied" and till.say("return", of=sold.fact, refund=500, **day).verdict == "applied"
    assert till.say("trade", out=[{"coin": one, "value": 5}], **{"in": [{"coin": till.new_id(), "set": {}, "value": 5}]}, boot=0,
                    **day).verdict == "applied"  # fmt: skip
    for kind, body in {
        "memo": {"way": "out", "kind": "memo", "coins": [{"coin": two, "net": 1}]}, "withdrawn": {"coins": [two], "to": "personal"},
        "cost": {"coins": [{"coin": two}], "costs": [{"what": "fee", "cents": 1}]},
        "money": {"what": "owner_out", "cents": 1, "how": "cash"},
        "acquired": {"how": "found", "coins": [{"coin": till.new_id(), "set": {}}]},
    }.items():  # fmt: skip
        assert till.say(kind, **body, **day).code == "not_allowed"
    assert till.say("coin.edit", coin=two, base={}, set={"held": "personal"}).code == "not_allowed"


SECRET = 7_654_321  # stands for every amount that a helper must not see


def test_no_amount_of_what_happened_to_a_coin_reaches_a_helper(book, anna, till):
    day, amount = {"date": "2026-03-16"}, {"cents": SECRET}
    coins = [anna.buy(cents=SECRET)[0] for _ in range(6)]
    lot = anna.new_id()
    lines = [{"what": "price", "cents": SECRET}]
    anna.say("purchase", bought=[{"coin": lot, "set": {}, "pieces": 3}], costs=lines, payments=[{"how": "cash", **amount}], **day)
    anna.say("cost", coins=[{"coin": coins[0]}], costs=lines, **day)
    sold = anna.say("ticket", sold=[{"coin": coins[0]}, {"coin": lot, "pieces": 1}], price=2 * SECRET, tax=amount, **day)
    anna.say("return", of=sold.fact, coins=[coins[0]], refund=SECRET, tax=SECRET, **day)
    traded = anna.new_id()
    anna.say("trade", out=[{"coin": coins[1], "value": 2 * SECRET}], **{"in": [{"coin": traded, "set": {}, "value": SECRET}]},
             boot=SECRET, **day)  # fmt: skip
    anna.say("memo", way="out", kind="memo", coins=[{"coin": coins[2], "net": SECRET}], **day)
    anna.say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days"})
    shown = anna.new_id()
    anna.say("purchase", bought=[{"coin": shown, "set": {}}], costs=lines, show=SHOW, **{"from": "A secret party"}, **day)
    assert book.card("coin", shown, "helper")["came"] == {SHOW: "bought"}  # the show, without costs and parties
    theirs, gift = anna.new_id(), anna.new_id()
    anna.say("memo", way="in", kind="memo", coins=[{"coin": theirs, "set": {"title": "x"}, "net": SECRET}], **day)
    anna.say("acquired", how="gift", coins=[{"coin": gift, "set": {"title": "x"}, "value": SECRET, "basis": SECRET}], **day)
    anna.say("lost", coin=coins[3], how="stolen", reimbursed=SECRET, **day)
    anna.say("withdrawn", coins=[coins[4]], to="personal", **day)
    for coin in (*coins, lot, traded, theirs, gift, shown):
        held = json.dumps(book.card("coin", coin, "helper"))
        assert str(SECRET)[:4] not in held and '"own"' not in held and "secret" not in held and "personal" not in held
        assert str(SECRET) in json.dumps(book.card("coin", coin))
    for verdict in (till.say("return", of=sold.fact, coins=[lot], refund=10**9, **day), till.sell(coins[1]),
                    till.say("ticket", sold=[{"coin": coins[1]}], price=1, **day)):  # fmt: skip
        assert verdict.verdict in ("refused", "contested") and verdict.now is None and "76" not in verdict.message
