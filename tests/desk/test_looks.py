"""Needs a look: every kind shows both versions, and a decision settles it."""

import re

from exergue.labels import ids
from exergue.records import reading
from exergue.records.tables import Coin, Look, Sale

SALE = {"price": 15_000, "date": "2026-03-15"}


def decide(ada, choice: str, **more):
    (look,) = reading.looks()
    return ada.post("/desk/looks/decide", {"look": look["id"], "choice": choice, **more})


def test_an_edit_made_twice(ada, buy, phone):
    coin = buy(place="Box A")
    phone("coin.edit", {"coin": coin, "base": {"place": "Box B"}, "set": {"place": "Case 2"}})
    page = ada.get("/desk/looks").text
    assert "Edited twice" in page and "Box A" in page and "Case 2" in page
    decide(ada, "take")
    assert Coin.get_by_id(coin).place == "Case 2"
    assert "Nothing waits" in ada.get("/desk/looks").text


def test_a_coin_sold_twice(ada, book, buy, phone):
    coin = buy()
    book.act("sale", {"coin": coin, **SALE, "to": "First Buyer"})
    phone("sale", {"coin": coin, **SALE, "price": 17_000, "to": "Second Buyer"})
    page = ada.get("/desk/looks").text
    assert "First Buyer" in page and "Second Buyer" in page and "$170.00" in page
    decide(ada, "second")
    assert [sale.party for sale in Sale.select().where(Sale.live)] == ["Second Buyer"]


def test_a_label_used_twice_gives_the_later_coin_a_new_one(ada, buy, phone):
    coin = buy()
    later = {"denom": "large-cent", "year": 1798}
    phone("purchase", {"bought": [{"coin": coin, "set": later}], "costs": [], "date": "2026-03-15"})
    assert "Large cent, 1798" in ada.get("/desk/looks").text
    fresh = ids.new_id()
    decide(ada, "new_id", coin=ids.show(fresh))
    assert Coin.get_by_id(fresh).year == 1798
    assert Coin.get_by_id(coin).year == 1806


def test_a_new_label_that_is_taken_is_refused_and_it_still_waits(ada, buy, phone):
    coin, other = buy(), buy()
    phone("purchase", {"bought": [{"coin": coin, "set": {}}], "costs": [], "date": "2026-03-15"})
    decide(ada, "new_id", coin=other)
    assert "no other coin" in ada.get("/desk/looks").text
    assert Look.select().where(Look.open).count() == 1


def test_a_checklist_answered_twice(ada, buy, phone):
    coin = buy()
    phone("check", {"coin": coin, "key": "facing", "answer": "fits"})
    phone("check", {"coin": coin, "key": "facing", "answer": "differs", "base": "", "note": "to the left"})
    page = ada.get("/desk/looks").text
    assert "does not fit" in page and "to the left" in page
    decide(ada, "keep")
    assert not Look.select().where(Look.open).exists()


def test_an_entry_of_an_unknown_kind_is_kept_and_can_be_put_aside(ada, phone):
    phone("sighting", {"where": "table 4"})
    assert "does not know" in ada.get("/desk/looks").text
    decide(ada, "drop")
    assert "Nothing waits" in ada.get("/desk/looks").text


def test_a_choice_that_does_not_fit_is_refused(ada, buy, phone):
    phone("coin.edit", {"coin": buy(), "base": {"place": "x"}, "set": {"place": "y"}})
    decide(ada, "second")
    assert Look.select().where(Look.open).count() == 1
    assert "does not fit what waits" in ada.get("/desk/looks").text


def test_the_number_that_waits_is_on_every_page(ada, buy, phone):
    phone("coin.edit", {"coin": buy(), "base": {"place": "x"}, "set": {"place": "y"}})
    for address in ("/desk/", "/desk/stock", "/desk/settings"):
        assert re.search(r'class="count">1<', ada.get(address).text), address


def test_a_freed_label_is_offered_to_the_coin_that_waits_for_it(ada, buy, phone):
    coin = buy()
    wrong = Coin.get_by_id(coin).made_by
    phone("purchase", {"bought": [{"coin": coin, "set": {"year": 1798}}], "costs": [], "date": "2026-03-15"})
    phone("void", {"of": wrong})
    page = ada.get("/desk/looks").text
    assert f'value="{ids.show(coin)}"' in page and "has left the book" in page
    decide(ada, "new_id", coin=ids.show(coin))
    assert Coin.get_by_id(coin).year == 1798 and "Nothing waits" in ada.get("/desk/looks").text


def test_dates_that_contradict_wait_with_the_day_from_which_they_count(ada, book, buy):
    coin = buy(date="2026-03-14")
    book.act("sale", {"coin": coin, "price": 15_000, "date": "2026-01-02"})  # before it came
    page = ada.get("/desk/looks").text
    assert "Dates that contradict" in page and "It is dated 2026-01-02" in page and "Leave it so" in page
    decide(ada, "keep")
    assert "Nothing waits" in ada.get("/desk/looks").text
