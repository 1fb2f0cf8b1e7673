"""A mistake is mended by a later entry, and the journal keeps both."""

import pytest

from exergue.records import reading


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
