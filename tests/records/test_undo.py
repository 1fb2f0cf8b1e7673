"""A mistake is mended by a later entry, and the journal keeps both."""

import pytest

from exergue.records import reading, refold


def test_an_undone_purchase_frees_its_blank_label(book, anna):
    blank = anna.new_id()
    book.act("labels.blank", {"ids": [blank]})
    _, verdict = anna.buy(blank)
    assert reading.blanks() == [] and book.card("blank", blank) is None
    anna.say("void", of=verdict.fact)
    assert book.card("coin", blank) is None
    assert reading.blanks() == [blank] and book.card("blank", blank)["id"] == blank
    assert anna.buy(blank)[1].verdict == "applied"


def test_an_undone_sale_puts_the_coin_back(book, anna):
    coin, _ = anna.buy()
    before = book.card("coin", coin)
    sale = anna.sell(coin)
    anna.say("void", of=sale.fact)
    after = book.card("coin", coin)
    assert {**before, "at": 0} == {**after, "at": 0}
    assert [line["voided"] is not None for line in reading.history(coin)] == [False, True, False]


def test_a_purchase_is_not_undone_under_a_sale(book, anna):
    coin, bought = anna.buy()
    anna.sell(coin)
    assert anna.say("void", of=bought.fact).code == "sold_since"
    assert book.card("coin", coin)["state"] == "sold"


def test_undoing_twice_changes_nothing_more(book, anna):
    coin, _ = anna.buy()
    sale = anna.sell(coin)
    assert anna.say("void", of=sale.fact).verdict == "applied"
    assert anna.say("void", of=sale.fact).verdict == "merged"


@pytest.mark.parametrize("kind, body, look_at", [
    ("note", {"text": "ex Alder collection"}, "notes"),
    ("check", {"key": "facing", "answer": "fits", "base": ""}, "checks"),
    ("photo", {"photo": "01890000-0000-7000-8000-000000000001", "side": "obverse", "digest": "0" * 64}, "photos"),
    ("coin.edit", {"base": {"place": "Case 1"}, "set": {"place": "Box 9"}}, "place"),
])  # fmt: skip
def test_every_entry_about_a_coin_can_be_undone(book, anna, kind, body, look_at):
    coin, _ = anna.buy()
    before = book.card("coin", coin)[look_at]
    verdict = anna.say(kind, coin=coin, **body)
    assert book.card("coin", coin)[look_at] != before
    assert anna.say("void", of=verdict.fact).verdict == "applied"
    assert book.card("coin", coin)[look_at] == before


def test_an_edit_that_was_edited_again_stays(book, anna):
    coin, _ = anna.buy()
    first = anna.say("coin.edit", coin=coin, base={"place": "Case 1"}, set={"place": "Box 2"})
    anna.say("coin.edit", coin=coin, base={"place": "Box 2"}, set={"place": "Box 3"})
    assert anna.say("void", of=first.fact).verdict == "merged"
    assert book.card("coin", coin)["place"] == "Box 3"


def test_what_is_not_there_cannot_be_undone(book, anna):
    assert anna.say("void", of="01890000-0000-7000-8000-000000000009").code == "no_such_entry"


def test_undoing_the_wrong_coin_of_a_label_keeps_the_right_one_waiting_for_it(book, anna, ben):
    label, wrong = anna.buy()
    ben.buy(label, cents=7_000, set={"year": 1828})
    ben.say("coin.edit", coin=label, base={"place": "x"}, set={"place": "y"})
    anna.say("void", of=wrong.fact)
    assert book.card("coin", label) is None
    (look,) = reading.looks()
    assert look["kind"] == "label_used_twice"  # what was asked about the wrong coin is gone with it
    assert anna.say("decide", look=look["id"], choice="new_id", coin=label).verdict == "applied"
    card = book.card("coin", label)
    assert (card["year"], card["own"]["cost"], card["looks"]) == (1828, 7_000, 0)
    assert reading.looks() == [] and refold.verify() == []


def test_a_coin_that_was_only_recorded_takes_the_freed_label_by_itself(book, anna, ben):
    label = anna.new_id()
    wrong = anna.say("coin.add", coin=label, set={"year": 1806})
    ben.say("coin.add", coin=label, set={"year": 1828})
    (look,) = reading.looks()
    assert anna.say("decide", look=look["id"], choice="new_id").code == "id_used"  # not free yet
    anna.say("void", of=wrong.fact)
    assert anna.say("decide", look=look["id"], choice="new_id").verdict == "applied"
    assert book.card("coin", label)["year"] == 1828 and refold.verify() == []


def test_a_purchase_takes_its_coin_when_the_other_purchase_of_it_was_undone(book, anna, ben):
    label = anna.new_id()
    anna.say("coin.add", coin=label, set={"year": 1806})
    wrong = buy_known(anna, label, 5_000)
    buy_known(ben, label, 7_000)
    (look,) = reading.looks()
    anna.say("void", of=wrong.fact)
    assert anna.say("decide", look=look["id"], choice="new_id", coin=label).verdict == "applied"
    assert book.card("coin", label)["own"]["cost"] == 7_000 and refold.verify() == []


def buy_known(phone, coin, cents):
    return phone.say("purchase", bought=[{"coin": coin, "set": {}}], costs=[{"what": "price", "cents": cents}],
                     date="2026-03-14")  # fmt: skip


def lot(phone, *coins):
    return phone.say("purchase", bought=[{"coin": coin, "set": {"year": 1828}} for coin in coins], costs=[],
                     date="2026-03-14")  # fmt: skip


def test_an_undone_purchase_can_no_longer_be_decided_in(book, anna, ben):
    one, two = anna.buy()[0], anna.buy()[0]
    contested = lot(ben, one, two)
    (look,) = reading.looks()
    anna.say("decide", look=look["id"], choice="new_id", coin=anna.new_id())
    (again,) = reading.looks()  # the lot's second label is used, too
    assert again["id"] != look["id"]
    ben.say("void", of=contested.fact)
    assert reading.looks() == []
    verdict = anna.say("decide", look=again["id"], choice="new_id", coin=anna.new_id())
    assert verdict.verdict == "merged" and reading.counts()["coins"] == 2
    assert refold.verify() == []


def test_a_new_label_that_another_coin_of_the_lot_has_is_refused(book, anna, ben):
    used, other = anna.buy()[0], anna.new_id()
    lot(ben, used, other)
    (look,) = reading.looks()
    verdict = anna.say("decide", look=look["id"], choice="new_id", coin=other)
    assert verdict.code == "id_used" and "same purchase" in verdict.message
    assert [one["id"] for one in reading.looks()] == [look["id"]]
    assert anna.say("decide", look=look["id"], choice="new_id", coin=anna.new_id()).verdict == "applied"
    assert book.card("coin", other)["year"] == 1828 and refold.verify() == []


def test_a_dropped_want_leaves_nothing_waiting(book, anna, ben):
    want = "01890000-0000-7000-8000-000000000001"
    anna.say("want.add", want=want, set={"note": "any"})
    ben.say("want.edit", want=want, base={"note": "other"}, set={"note": "VF or better"})
    assert len(reading.looks()) == 1
    anna.say("want.drop", want=want)
    assert reading.looks() == [] and refold.verify() == []


def test_a_want_taken_off_the_list_is_put_back_as_it_was(book, anna):
    want = "01890000-0000-7000-8000-000000000001"
    anna.say("want.add", want=want, set={"title": "A half cent", "ceiling": 500})
    before = book.card("want", want)
    dropped = anna.say("want.drop", want=want)
    assert book.card("want", want) is None and [one["fact"] for one in reading.dropped_wants()] == [dropped.fact]
    assert anna.say("want.edit", want=want, base={"ceiling": 500}, set={"ceiling": 600}).code == "no_such_want"
    assert anna.say("void", of=dropped.fact).verdict == "applied"
    assert book.card("want", want) | {"at": before["at"]} == before and reading.dropped_wants() == [] and refold.verify() == []


def test_each_coin_of_a_purchase_or_a_trade_may_fill_a_want(book, anna):
    wants = [f"01890000-0000-7000-8000-00000000000{n}" for n in range(4)]
    for want in wants:
        anna.say("want.add", want=want, set={"title": "A half cent"})
    rows = [{"coin": anna.new_id(), "set": {}, "want": want} for want in wants[:2]]
    bought = anna.say("purchase", bought=rows, costs=[{"what": "price", "cents": 9}], date="2026-03-16")
    came = {"coin": anna.new_id(), "set": {}, "value": 5, "want": wants[2]}
    traded = anna.say("trade", out=[{"coin": rows[0]["coin"], "value": 5}], **{"in": [came]}, boot=0, date="2026-03-16")
    assert {one["id"]: one["coin"] for one in reading.found_wants()} == {
        wants[0]: rows[0]["coin"], wants[1]: rows[1]["coin"], wants[2]: came["coin"]}  # fmt: skip
    assert [one["id"] for one in reading.wants()] == wants[3:]
    anna.say("void", of=traded.fact)
    assert [one["id"] for one in reading.wants()] == wants[2:]
    anna.say("void", of=bought.fact)
    assert [one["id"] for one in reading.wants()] == wants and refold.verify() == []


def test_an_undone_purchase_opens_the_want_that_it_filled(book, anna, ben):
    want = "01890000-0000-7000-8000-000000000001"
    anna.say("want.add", want=want, set={"denom": "half-cent", "title": "A half cent"})
    coin, bought = anna.buy(want=want)
    assert book.card("want", want) is None and reading.wants() == []
    assert [(one["id"], one["coin"]) for one in reading.found_wants()] == [(want, coin)]
    _, again = ben.buy(want=want)
    anna.say("void", of=bought.fact)
    assert book.card("want", want) is None  # the other purchase still fills it
    ben.say("void", of=again.fact)
    assert book.card("want", want)["title"] == "Half cent, A half cent" and reading.found_wants() == []
    assert refold.verify() == []


def test_a_purchase_for_a_want_that_is_off_the_list_stands(book, anna):
    _, verdict = anna.buy(want="01890000-0000-7000-8000-000000000001")
    assert verdict.verdict == "applied"


def test_a_want_is_undone_and_so_is_a_change_of_it(book, anna):
    want = "01890000-0000-7000-8000-000000000001"
    added = anna.say("want.add", want=want, set={"title": "Chain cent", "ceiling": 90_000})
    changed = anna.say("want.edit", want=want, base={"ceiling": 90_000}, set={"ceiling": 95_000})
    assert anna.say("void", of=changed.fact).verdict == "applied"
    assert book.card("want", want)["own"]["ceiling"] == 90_000
    assert anna.say("void", of=added.fact).verdict == "applied" and book.card("want", want) is None
    assert refold.verify() == []
