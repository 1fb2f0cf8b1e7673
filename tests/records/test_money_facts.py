"""The facts of money: what each does to the coins, what it refuses and with which words, and what it contests."""

import pytest

from exergue.records import accounts, reading, refold
from exergue.records.tables import Deal, Purchase, Sale

NEVER = "01890000-0000-7000-8000-000000000009"


def card(book, coin):
    return book.card("coin", coin)


def lot(phone, pieces=10, cents=1_003):
    coin = phone.new_id()
    phone.say("purchase", bought=[{"coin": coin, "set": {"title": "roll"}, "pieces": pieces}],
              costs=[{"what": "price", "cents": cents}], date="2026-03-14")  # fmt: skip
    return coin


def ticket(phone, *coins, price=10_000, **more):
    rows = [coin if isinstance(coin, dict) else {"coin": coin} for coin in coins]
    return phone.say("ticket", sold=rows, price=price, date="2026-03-16", **more)


def memo_in(phone, coin=None, net=7_000, **more):
    coin = coin or phone.new_id()
    verdict = phone.say("memo", way="in", kind="consignment", coins=[{"coin": coin, "set": {"title": "theirs"}, "net": net}],
                        date="2026-03-10", **{"with": "R. Holt"}, **more)  # fmt: skip
    return coin, verdict


def trade(phone, out, come, boot=0, **more):
    return phone.say("trade", out=out, **{"in": come}, boot=boot, date="2026-03-18", **more)


# --- coming in ------------------------------------------------------------------------------------


def test_a_purchase_of_pieces_is_divided_over_the_pieces(book, anna):
    many, one = anna.new_id(), anna.new_id()
    anna.say("purchase", bought=[{"coin": many, "set": {}, "pieces": 9}, {"coin": one, "set": {}}],
             costs=[{"what": "price", "cents": 1_000}], date="2026-03-14")  # fmt: skip
    assert card(book, many)["own"]["cost"] == 900 and card(book, one)["own"]["cost"] == 100
    assert (card(book, many)["pieces"], card(book, many)["left"]) == (9, 9) and "pieces" not in card(book, one)


def test_a_purchase_may_be_paid_in_several_ways_and_another_currency(book, anna):
    coin = anna.new_id()
    anna.say("purchase", bought=[{"coin": coin, "set": {}}], costs=[{"what": "price", "cents": 10_800}], date="2026-03-14",
             payments=[{"how": "cash", "cents": 800}, {"how": "card", "cents": 10_000}], split="even",
             foreign={"currency": "EUR", "cents": 10_000, "rate": "1.08"})  # fmt: skip
    bought = card(book, coin)["own"]["purchase"]
    assert bought["payment"] is None and bought["payments"][0] == {"how": "cash", "cents": 800}
    assert bought["foreign"]["rate"] == "1.08"


@pytest.mark.parametrize("how, row, cost, line", [
    ("opening", {"value": 500}, 500, "opening"), ("opening", {}, None, None),
    ("inherited", {"value": 900}, 900, "inherited"), ("found", {"value": 25}, 25, "found"),
    ("gift", {"value": 900, "basis": 400, "gift_tax": 30, "since": "1999-05-01"}, 430, "gift"), ("gift", {"value": 900}, None, None),
])  # fmt: skip
def test_a_coin_that_was_not_bought_counts_as_having_cost_what_its_road_says(book, anna, how, row, cost, line):
    coin = anna.new_id()
    verdict = anna.say("acquired", how=how, coins=[{"coin": coin, "set": {"title": "x"}, **row}], date="2026-03-14")
    own = card(book, coin)["own"]
    assert verdict.verdict == "applied" and own["cost"] == cost and own["purchase"]["how"] == how
    assert own["costs"] == ([{"what": line, "cents": cost}] if line else [])
    assert own["purchase"].get("since") == row.get("since")


def test_a_later_cost_is_divided_and_names_its_entry(book, anna):
    (one, _), (two, _) = anna.buy(cents=100), anna.buy(cents=100)
    verdict = anna.say("cost", coins=[{"coin": one, "weight": 2}, {"coin": two, "weight": 1}],
                       costs=[{"what": "grading", "cents": 100}], date="2026-04-01")  # fmt: skip
    assert [card(book, coin)["own"]["cost"] for coin in (one, two)] == [167, 133]
    assert card(book, one)["own"]["costs"][1] == {"what": "grading", "cents": 67, "fact": verdict.fact, "date": "2026-04-01"}


def test_a_cost_after_the_sale_is_said_to_be_one(book, anna):
    coin, _ = anna.buy(cents=10_000)
    anna.sell(coin, 15_000)
    verdict = anna.say("cost", coins=[{"coin": coin}], costs=[{"what": "shipping", "cents": 500}], date="2026-04-01")
    assert verdict.verdict == "merged" and "after the sale" in verdict.message
    own = card(book, coin)["own"]
    assert own["costs"][1]["after"] is True and own["sale"]["gain"] == 5_000  # the sale gained what it gained


def test_a_cost_does_not_make_an_unknown_cost_known(book, anna):
    coin = anna.new_id()
    anna.say("acquired", how="opening", coins=[{"coin": coin, "set": {"title": "x"}}], date="2026-03-14")
    anna.say("cost", coins=[{"coin": coin}], costs=[{"what": "grading", "cents": 500}], date="2026-04-01")
    assert card(book, coin)["own"]["cost"] is None and card(book, coin)["own"]["costs"][0]["cents"] == 500


# --- going out ------------------------------------------------------------------------------------


def test_a_ticket_divides_its_price_by_weight_to_the_cent(book, anna):
    coins = [anna.buy(cents=1_000)[0] for _ in range(3)]
    verdict = ticket(anna, *({"coin": coin, "weight": 1} for coin in coins), price=10_000, discount=500,
                     tax={"place": "Larkmoor", "rate": "8.25", "cents": 825}, costs=[{"what": "fee", "cents": 100}],
                     payments=[{"how": "cash", "cents": 825}, {"how": "card", "cents": 10_000}], to="A. Marsh")  # fmt: skip
    assert verdict.verdict == "applied"
    sales = [card(book, coin)["own"]["sale"] for coin in coins]
    assert [sale["price"] for sale in sales] == [3_334, 3_333, 3_333] and sum(sale["costs"][0]["cents"] for sale in sales) == 100
    assert all(sale["to"] == "A. Marsh" and sale["gain"] == sale["price"] - sale["costs"][0]["cents"] - 1_000 for sale in sales)
    assert Deal.get(Deal.fact == verdict.fact).tax["cents"] == 825


def test_a_lot_is_sold_piece_by_piece_and_its_costs_add_up(book, anna):
    coin = lot(anna, 10, 1_003)
    ticket(anna, {"coin": coin, "pieces": 4}, price=4_000)
    part = card(book, coin)
    assert (part["state"], part["left"], part["own"]["cost"], part["own"]["cost_left"]) == ("in stock", 6, 1_003, 600)
    assert part["own"]["sale"] is None and part["own"]["moves"][0]["gain"] == 4_000 - 403
    assert reading.stock(state="in stock").cost == 600
    ticket(anna, coin, price=6_000)
    assert card(book, coin)["state"] == "sold" and card(book, coin)["own"]["sale"]["gain"] == 5_400


def test_a_return_puts_the_coin_back_and_it_may_be_sold_again(book, anna):
    (one, _), (two, _) = anna.buy(cents=1_000), anna.buy(cents=1_000)
    sold = ticket(anna, one, two, price=5_000)
    verdict = anna.say("return", of=sold.fact, coins=[one], refund=2_000, date="2026-03-20")
    assert verdict.verdict == "applied" and card(book, one)["state"] == "in stock" and card(book, two)["state"] == "sold"
    assert anna.sell(one, 3_000, "2026-03-20").verdict == "applied"
    assert card(book, one)["own"]["sale"]["price"] == 3_000
    assert [move["kind"] for move in card(book, one)["own"]["moves"]] == ["ticket", "return", "sale"]
    assert anna.say("return", of=sold.fact, refund=0, date="2026-03-21").verdict == "applied"  # the rest of it
    assert card(book, two)["state"] == "in stock"


def test_a_trade_lets_go_and_brings_in_at_value(book, anna):
    out, _ = anna.buy(cents=3_000)
    come = anna.new_id()
    assert trade(anna, [{"coin": out, "value": 5_000}], [{"coin": come, "set": {"title": "new"}, "value": 4_000}], 1_000,
                 payments=[{"how": "cash", "cents": 1_000}]).verdict == "applied"  # fmt: skip
    assert card(book, out)["state"] == "traded" and card(book, out)["own"]["moves"][0]["gain"] == 2_000
    own = card(book, come)["own"]
    assert own["cost"] == 4_000 and own["purchase"]["how"] == "trade" and own["costs"] == [{"what": "trade", "cents": 4_000}]


def test_our_coin_on_memo_is_with_somebody_until_it_is_back_or_sold(book, anna):
    coin, _ = anna.buy()
    anna.say("memo", way="out", kind="memo", coins=[{"coin": coin, "net": 9_000}], date="2026-03-16", due="2026-04-16",
             **{"with": "R. Holt"})  # fmt: skip
    assert card(book, coin)["state"] == "on memo"
    assert card(book, coin)["where"] == {"with": "R. Holt", "date": "2026-03-16", "why": "memo", "due": "2026-04-16"}
    anna.say("back", coins=[coin], date="2026-04-01")
    assert card(book, coin)["state"] == "in stock" and "where" not in card(book, coin)


def test_somebody_elses_coin_is_in_the_case_and_never_in_our_stock(book, anna):
    coin, _ = memo_in(anna, net=7_000)
    here = card(book, coin)
    assert here["state"] == "on consignment" and here["theirs"] is True and here["own"]["cost"] is None
    assert reading.counts()["theirs"] == 1
    ticket(anna, coin, price=10_000)
    assert card(book, coin)["own"]["sale"]["gain"] == 3_000  # its owner is to have 7,000
    unsold, _ = memo_in(anna)
    anna.say("back", coins=[unsold], date="2026-04-01")
    assert card(book, unsold)["state"] == "returned"
    assert memo_in(anna, unsold)[1].code == "label_used_twice"
    again = anna.say("memo", way="in", kind="memo", coins=[{"coin": unsold, "net": 1}], date="2026-05-01")
    assert again.verdict == "applied" and card(book, unsold)["state"] == "on memo"
    bought = anna.say("purchase", bought=[{"coin": unsold, "set": {}}], costs=[{"what": "price", "cents": 5_000}], date="2026-05-02")
    assert bought.verdict == "applied" and card(book, unsold)["state"] == "in stock" and "theirs" not in card(book, unsold)


@pytest.mark.parametrize("why, state", [("grading", "at grading"), ("conservation", "away"), ("display", "away"), ("other", "away")])
def test_a_coin_elsewhere_is_still_ours(book, anna, why, state):
    coin, _ = anna.buy()
    anna.say("away", coins=[coin], why=why, date="2026-03-16", **{"with": "the graders"})
    assert card(book, coin)["state"] == state and card(book, coin)["where"]["with"] == "the graders"
    assert anna.say("back", coins=[coin], date="2026-04-16").verdict == "applied"
    assert anna.say("back", coins=[coin], date="2026-04-16").verdict == "merged"


def test_what_is_missing_may_be_found_or_turn_out_to_be_sold(book, anna):
    coin, _ = anna.buy()
    anna.say("lost", coin=coin, how="stolen", date="2026-03-16", reimbursed=5_000)
    assert card(book, coin)["state"] == "missing"
    anna.say("back", coins=[coin], date="2026-03-20")
    assert card(book, coin)["state"] == "in stock"
    anna.say("lost", coin=coin, how="missing", date="2026-03-21")
    assert anna.sell(coin, date="2026-03-21").verdict == "applied" and card(book, coin)["state"] == "sold"
    part = lot(anna)
    anna.say("lost", coin=part, pieces=2, how="lost", date="2026-03-21")
    assert (card(book, part)["state"], card(book, part)["left"]) == ("in stock", 8)
    anna.say("back", coins=[part], date="2026-03-22")
    assert card(book, part)["left"] == 10


def test_a_withdrawal_changes_only_how_a_coin_is_held(book, anna):
    coin, _ = anna.buy()
    before = card(book, coin)
    anna.say("withdrawn", coins=[coin], to="personal", date="2026-03-16")
    after = card(book, coin)
    assert after["own"]["held"] == "personal" and after["state"] == before["state"] and after["own"]["cost"] == before["own"]["cost"]


def test_money_moves_by_itself(book, anna):
    verdict = anna.say("money", what="expense", cents=4_500, how="cash", about="table fee", date="2026-03-16")
    kept = Deal.get(Deal.fact == verdict.fact)
    assert (kept.how, kept.cents, kept.payments, kept.about) == ("expense", 4_500, [{"how": "cash", "cents": 4_500}], "table fee")


# --- refused --------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind, body, says", [
    ("ticket", {"sold": [{"coin": "HERE"}], "price": 100, "payments": [{"how": "cash", "cents": 90}]}, "add up to $0.90"),
    ("ticket", {"sold": [{"coin": "HERE", "price": 90}], "price": 100}, "add up to $0.90"),
    ("ticket", {"sold": [{"coin": "HERE", "price": 90}, {"coin": "MORE"}], "price": 100}, "for every line"),
    ("ticket", {"sold": [{"coin": "HERE", "weight": 1}, {"coin": "MORE"}], "price": 100}, "weight"),
    ("ticket", {"sold": [{"coin": "HERE"}, {"coin": "NONE"}], "price": 100}, "no coin with this ID"),
    ("ticket", {"sold": [{"coin": "HERE", "pieces": 2}], "price": 100}, "1 piece"),
    ("ticket", {"sold": [{"coin": "HERE"}, {"coin": "HERE"}], "price": 100}, "twice"),
    ("ticket", {"sold": [], "price": 100}, "names no coin"),
    ("ticket", {"sold": [{"coin": "HERE"}], "price": 100, "tax": {"cents": 8, "rate": "eight"}}, "tax.rate"),
    ("ticket", {"sold": [{"coin": "HERE"}], "price": 100, "tax": {"cents": 8}, "exempt": {"reason": "resale"}}, "exempt"),
    ("return", {"of": NEVER, "refund": 1}, "no such sale"),
    ("return", {"of": "SOLD", "refund": 99_999}, "at most"),
    ("return", {"of": "SOLD", "refund": 1, "tax": 1}, "sales tax"),
    ("return", {"of": "SOLD", "refund": 1, "coins": ["HERE"]}, "not in that sale"),
    ("trade", {"out": [{"coin": "HERE", "value": 500}], "in": [{"coin": "NONE", "set": {}, "value": 300}], "boot": 100}, "differ by $1.00"),
    ("trade", {"out": [{"coin": "HERE", "value": 5}], "in": [{"coin": "HERE", "set": {}, "value": 5}], "boot": 0}, "both sides"),
    ("acquired", {"how": "found", "coins": [{"coin": "NONE", "set": {}, "basis": 5}]}, "only a gift"),
    ("acquired", {"how": "gift", "coins": [{"coin": "NONE", "set": {}, "basis": 5, "since": "2030-01-01"}]}, "after the gift"),
    ("acquired", {"how": "gift", "coins": [{"coin": "NONE", "set": {}, "gift_tax": 5}]}, "give the basis"),
    ("acquired", {"how": "found", "coins": [{"coin": "NONE", "set": {"pieces": 2}, "pieces": 3}]}, "two numbers of pieces"),
    ("acquired", {"how": "found", "coins": [{"coin": "NONE", "set": {}, "pieces": 0}]}, "coins.pieces"),
    ("cost", {"coins": [{"coin": "HERE"}], "costs": []}, "costs is empty"),
    ("cost", {"coins": [{"coin": "HERE"}], "costs": [{"what": "beer", "cents": 5}]}, "costs.what"),
    ("memo", {"way": "out", "kind": "memo", "coins": [{"coin": "GONE", "net": 5}]}, "is sold"),
    ("memo", {"way": "out", "kind": "memo", "coins": [{"coin": "THEIRS", "net": 5}]}, "somebody else's"),
    ("memo", {"way": "out", "kind": "memo", "coins": [{"coin": "HERE", "net": 5}], "due": "2000-01-01"}, "before the date"),
    ("away", {"coins": ["HERE", "GONE"], "why": "grading"}, "is sold"),
    ("back", {"coins": ["GONE"]}, "nowhere to come back from"),
    ("lost", {"coin": "GONE", "how": "lost"}, "is sold"),
    ("lost", {"coin": "HERE", "how": "lost", "pieces": 5}, "1 piece"),
    ("withdrawn", {"coins": ["GONE"], "to": "personal"}, "is sold"),
    ("withdrawn", {"coins": ["THEIRS"], "to": "personal"}, "somebody else's"),
    ("money", {"what": "transfer", "cents": 5, "how": "cash"}, "to_how"),
    ("money", {"what": "transfer", "cents": 5, "how": "cash", "to_how": "cash"}, "same"),
    ("money", {"what": "expense", "cents": 5, "how": "cash", "to_how": "card"}, "to_how"),
])  # fmt: skip
def test_what_does_not_fit_is_refused_with_one_sentence_and_changes_nothing(book, anna, kind, body, says):
    names = {"HERE": anna.buy()[0], "MORE": anna.buy()[0], "GONE": anna.buy()[0], "THEIRS": memo_in(anna)[0], "NONE": anna.new_id()}
    names["SOLD"] = anna.sell(names["GONE"], 5_000).fact

    def named(value):
        if isinstance(value, dict):
            return {key: named(one) for key, one in value.items()}
        return [named(one) for one in value] if isinstance(value, list) else names.get(value, value)

    before = refold.prints()
    verdict = anna.say(kind, date="2026-03-20", **named(body))
    assert verdict.verdict == "refused" and says in verdict.message and verdict.message.endswith(".") and ". " not in verdict.message
    after = refold.prints()
    assert {name for name in after if after[name] != before[name]} <= {"About"}  # it stands in the coin's history


def test_what_rests_on_an_entry_is_undone_first(book, anna):
    coin, bought = anna.buy()
    sold = anna.sell(coin)
    back = anna.say("return", of=sold.fact, refund=1, date="2026-03-20")
    assert anna.say("void", of=sold.fact).code == "rests_on"
    assert anna.say("void", of=bought.fact).code == "sold_since"
    assert anna.say("void", of=back.fact).verdict == "applied" and card(book, coin)["state"] == "sold"
    assert anna.say("void", of=sold.fact).verdict == "applied"
    late = anna.say("cost", coins=[{"coin": coin}], costs=[{"what": "fee", "cents": 1}], date="2026-03-20")
    assert anna.say("void", of=bought.fact).code == "cost_since"
    anna.say("void", of=late.fact)
    anna.say("away", coins=[coin], why="display", date="2026-03-20")
    assert anna.say("void", of=bought.fact).code == "used_since"


# --- contested ------------------------------------------------------------------------------------


def test_a_ticket_stands_for_the_coins_that_were_still_there(book, anna, ben):
    (gone, _), (there, _) = anna.buy(), anna.buy()
    first = anna.sell(gone, 5_000)
    second = ticket(ben, gone, there, price=8_000)
    assert second.code == "sold_twice" and "One coin of this entry" in second.message
    assert card(book, gone)["own"]["sale"]["fact"] == first.fact and card(book, there)["own"]["sale"]["fact"] == second.fact
    (look,) = reading.looks()
    assert look["subject"] == f"coin/{gone}"
    (event,) = [event for event in accounts.events(book) if event.kind == "ticket"]
    assert [row["coin"] for row in event.body["sold"]] == [there] and [row["coin"] for row in event.body["contested"]] == [gone]
    assert anna.say("decide", look=look["id"], choice="second").verdict == "applied"
    assert card(book, gone)["own"]["sale"]["fact"] == second.fact
    assert Sale.select().where(Sale.coin == gone, Sale.live == True).count() == 1  # noqa: E712
    assert refold.verify() == []


def test_a_trade_of_a_coin_that_was_sold_waits_for_that_coin_alone(book, anna, ben):
    coin, _ = anna.buy()
    sold, come = anna.sell(coin), anna.new_id()
    traded = trade(ben, [{"coin": coin, "value": 500}], [{"coin": come, "set": {"title": "new"}, "value": 500}])
    assert traded.code == "sold_twice" and card(book, coin)["state"] == "sold" and card(book, come)["state"] == "in stock"
    anna.say("void", of=sold.fact)
    assert card(book, coin)["state"] == "traded" and reading.looks() == [] and refold.verify() == []


def test_a_trade_whose_label_is_used_waits_whole_and_goes_in_under_another(book, anna, ben):
    (out, _), (used, _) = anna.buy(), anna.buy()
    verdict = trade(ben, [{"coin": out, "value": 500}], [{"coin": used, "set": {"title": "new"}, "value": 500}])
    assert verdict.code == "label_used_twice" and card(book, out)["state"] == "in stock"
    assert [event.kind for event in accounts.events(book)] == ["purchase", "purchase"]
    fresh = anna.new_id()
    anna.say("decide", look=reading.looks()[0]["id"], choice="new_id", coin=fresh)
    assert card(book, out)["state"] == "traded" and card(book, fresh)["own"]["cost"] == 500
    (event,) = [event for event in accounts.events(book) if event.kind == "trade"]
    assert event.body["in"][0]["coin"] == fresh and refold.verify() == []
    assert ben.say("void", of=verdict.fact).verdict == "applied"
    assert card(book, fresh) is None and card(book, out)["state"] == "in stock" and refold.verify() == []


def test_more_pieces_sold_than_a_lot_has_left_wait(book, anna, ben):
    coin = lot(anna, 10)
    ticket(anna, {"coin": coin, "pieces": 7})
    assert ticket(ben, {"coin": coin, "pieces": 5}).code == "sold_twice"
    assert card(book, coin)["left"] == 3
    anna.say("decide", look=reading.looks()[0]["id"], choice="second")
    assert card(book, coin)["left"] == 5 and refold.verify() == []


def test_fewer_pieces_than_have_gone_are_refused(book, anna):
    coin = lot(anna, 10)
    ticket(anna, {"coin": coin, "pieces": 7})
    assert anna.say("coin.edit", coin=coin, base={"pieces": 10}, set={"pieces": 5}).code == "too_few"
    assert anna.say("coin.edit", coin=coin, base={"pieces": 10}, set={"pieces": 8}).verdict == "applied"
    assert card(book, coin)["left"] == 1


# --- for the accounts -----------------------------------------------------------------------------


def test_events_leave_out_what_is_undone_refused_or_does_not_stand(book, anna):
    coin, _ = anna.buy()
    first = anna.sell(coin)
    anna.sell(coin)  # sold twice: waits
    undone = anna.say("money", what="income", cents=5, how="cash", date="2026-03-16")
    anna.say("void", of=undone.fact)
    anna.say("cost", coins=[{"coin": coin}], costs=[], date="2026-03-16")  # refused
    found = list(accounts.events(book))
    assert [event.kind for event in found] == ["purchase", "sale"] and found[1].id == first.fact
    assert found[0].body["bought"][0] | {"set": {}} == {"coin": coin, "set": {}, "pieces": 1, "cents": 10_000, "held": "stock",
                                                           "costs": [{"what": "price", "cents": 10_000}]}  # fmt: skip
    assert found[1].body["payments"] == [{"how": "cash", "cents": 15_000}] and found[1].body["costs"] == []


def test_purchases_made_another_way_are_no_purchases_of_a_show(book, anna):
    anna.say("acquired", how="found", coins=[{"coin": anna.new_id(), "set": {"title": "x"}, "value": 1}], date="2026-03-14")
    assert Purchase.select().count() == 1 and reading.purchases() == []


def test_a_card_follows_when_only_its_owners_part_changed_in_the_same_batch(book, anna):
    """Entries that came together bear one time of arrival: that alone must not make a card look unchanged."""
    with book.connected():
        coin = anna.new_id()
        day = {"date": "2026-03-14"}
        book.act_all([
            ("purchase", {"bought": [{"coin": coin, "set": {"title": "roll"}}], "costs": [{"what": "price", "cents": 5_000}], **day}),
            ("cost", {"coins": [{"coin": coin}], "costs": [{"what": "grading", "cents": 3_500}], **day}),
        ])  # fmt: skip
        assert card(book, coin)["own"]["cost"] == 8_500
