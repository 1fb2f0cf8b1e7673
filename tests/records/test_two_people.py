"""What two people do to the same coin: merged where it can be, kept and shown where it cannot."""

from exergue.records import reading


def test_edits_of_different_fields_both_stand(book, anna, ben):
    coin, _ = anna.buy()
    seen = book.seq
    anna.say("coin.edit", coin=coin, base={"place": "Case 1"}, set={"place": "Box 2"}, seen=seen)
    verdict = ben.say("coin.edit", coin=coin, base={"ask": None}, set={"ask": 20_000}, seen=seen)
    assert verdict.verdict == "merged"
    card = book.card("coin", coin)
    assert (card["place"], card["ask"]) == ("Box 2", 20_000)


def test_the_same_field_edited_twice_waits_for_a_decision(book, anna, ben):
    coin, _ = anna.buy()
    anna.say("coin.edit", coin=coin, base={"place": "Case 1"}, set={"place": "Box 2"})
    verdict = ben.say("coin.edit", coin=coin, base={"place": "Case 1"}, set={"place": "Box 3", "ask": 5})
    assert verdict.verdict == "contested" and verdict.now == {"place": "Box 2"}
    assert book.card("coin", coin)["place"] == "Box 2"
    (look,) = reading.looks()
    anna.say("decide", look=look["id"], choice="take")
    assert book.card("coin", coin)["place"] == "Box 3" and reading.looks() == []
    assert book.card("coin", coin)["looks"] == 0


def test_the_same_edit_by_both_is_no_conflict(book, anna, ben):
    coin, _ = anna.buy()
    for phone in (anna, ben):
        verdict = phone.say("coin.edit", coin=coin, base={"place": "Case 1"}, set={"place": "Box 2"})
    assert verdict.verdict in ("applied", "merged") and reading.looks() == []


def test_a_coin_sold_twice_keeps_both_sales(book, anna, ben):
    coin, _ = anna.buy()
    anna.sell(coin, 15_000)
    verdict = ben.sell(coin, 16_000)
    assert verdict.code == "sold_twice" and verdict.now["price"] == 15_000
    assert book.card("coin", coin)["own"]["sale"]["price"] == 15_000
    (look,) = reading.looks()
    book.act("decide", {"look": look["id"], "choice": "second"})
    assert book.card("coin", coin)["own"]["sale"]["price"] == 16_000


def test_undoing_the_first_of_two_sales_lets_the_second_stand(book, anna, ben):
    coin, _ = anna.buy()
    first = anna.sell(coin, 15_000)
    ben.sell(coin, 16_000)
    anna.say("void", of=first.fact)
    card = book.card("coin", coin)
    assert card["state"] == "sold" and card["own"]["sale"]["price"] == 16_000 and reading.looks() == []


def test_a_label_used_twice_keeps_both_purchases(book, anna, ben):
    coin, _ = anna.buy(cents=10_000)
    _, verdict = ben.buy(coin, cents=7_000, set={"year": 1828})
    assert verdict.code == "label_used_twice"
    assert book.card("coin", coin)["own"]["cost"] == 10_000
    (look,) = reading.looks()
    fresh = ben.new_id()
    book.act("decide", {"look": look["id"], "choice": "new_id", "coin": fresh})
    card = book.card("coin", fresh)
    assert (card["year"], card["own"]["cost"]) == (1828, 7_000) and reading.looks() == []
    assert any(line["fact"] == verdict.fact for line in reading.history(fresh))


def test_answers_on_the_checklist_that_differ_wait(book, anna, ben):
    coin, _ = anna.buy()
    anna.say("check", coin=coin, key="facing", answer="fits", base="")
    assert ben.say("check", coin=coin, key="facing", answer="differs", base="").verdict == "contested"
    assert book.card("coin", coin)["checks"]["facing"]["answer"] == "fits"


def test_a_changed_mind_on_the_checklist_is_no_conflict(book, anna):
    coin, _ = anna.buy()
    anna.say("check", coin=coin, key="facing", answer="fits", base="")
    assert anna.say("check", coin=coin, key="facing", answer="unsure", base="fits").verdict == "applied"
    assert book.card("coin", coin)["checks"]["facing"]["answer"] == "unsure"


def test_of_three_sales_of_one_coin_only_one_stands(book, anna, ben):
    coin, _ = anna.buy()
    for phone, price in ((anna, 1_000), (ben, 2_000), (anna, 3_000)):
        phone.sell(coin, price)
    for look in reading.looks():
        book.act("decide", {"look": look["id"], "choice": "second"})
    assert [sale["price"] for sale in reading.sales()] == [3_000]
    anna.say("void", of=reading.sales()[0]["fact"])
    assert reading.sales() == [] and book.card("coin", coin)["state"] == "in stock"
