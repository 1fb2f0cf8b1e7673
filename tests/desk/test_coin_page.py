"""A coin at the desk: entered, shown, edited by two, sold, undone."""

import html
import json
import re

import pytest

from exergue.labels import ids
from exergue.records import reading
from exergue.records.tables import Coin, Fact

NEW = {"denom": "half-cent", "type": "half-cent/draped-bust", "year": "1806", "grade": "vf 20", "place": "Box A",
       "ask": "$1,234.50", "came": "bought", "date": "2026-03-14", "seller": "A. Seller", "cost_price": "900",
       "cost_fee": "180.00", "cost_shipping": "12.5", "payment": "cash"}  # fmt: skip


def enter(ada, **changed):
    return ada.post("/desk/coins/new", NEW | changed)


def only_coin() -> dict:
    (row,) = Coin.select()
    return reading.coins([row.id])[0]


def test_a_new_coin_has_its_cost_line_by_line(ada):
    answer = enter(ada)
    card = only_coin()
    assert answer.location == f"/desk/coins/{card['id']}"
    assert (card["grade"], card["ask"]) == ("VF-20", 123_450)
    assert card["own"]["costs"] == [{"what": "price", "cents": 90_000}, {"what": "fee", "cents": 18_000},
                                    {"what": "shipping", "cents": 1_250}]  # fmt: skip
    page = ada.get(answer.location).text
    for text in ("$1,092.50", "$900.00", "$180.00", "$12.50", "Very Fine 20", "A. Seller", "Half cent, Draped Bust"):
        assert text in page


def test_a_coin_without_a_recorded_purchase(ada):
    enter(ada, came="had", cost_price="", date="")
    card = only_coin()
    assert card["own"]["cost"] is None
    assert "its cost is not known" in ada.get(f"/desk/coins/{card['id']}").text


def test_its_purchase_can_be_recorded_later(ada):
    enter(ada, came="had", cost_price="", date="")
    coin = only_coin()["id"]
    assert ada.post(f"/desk/coins/{coin}/purchase", {"date": "2026-01-02", "cost_price": "75"}).status_code == 302
    assert only_coin()["own"]["cost"] == 7_500


def test_a_new_coin_may_take_the_id_of_a_blank_label(ada):
    coin = ids.new_id()
    enter(ada, coin_id=ids.show(coin).lower())
    assert only_coin()["id"] == coin


@pytest.mark.parametrize("changed, said", [
    ({"year": "1801"}, "1801"),
    ({"grade": "splendid"}, "splendid"),
    ({"cost_price": "ten"}, "is not an amount"),
    ({"cost_price": ""}, "Give the price"),
    ({"date": ""}, "Give the day."),
    ({"coin_id": "7K3M9-QX2B5"}, "check character does not fit"),
    ({"year": "18x6"}, "Give a whole number."),
    ({"variety": "x" * 121}, "At most 120 characters"),
])  # fmt: skip
def test_what_cannot_be_taken_is_told_at_its_field_and_nothing_typed_is_lost(ada, changed, said):
    answer = enter(ada, **changed)
    assert answer.status_code == 200
    errors = html.unescape(" ".join(re.findall(r'class="error"[^>]*>([^<]+)<', answer.text)))
    assert said in errors
    for typed in (NEW | changed).values():
        assert html.escape(typed, quote=True) in answer.text or typed == ""
    assert not Coin.select().exists()


def edit_form(ada, coin: str) -> dict:
    """The edit form as a browser would send it back unchanged."""
    page = ada.get(f"/desk/coins/{coin}/edit").text
    seen = html.unescape(re.search(r'name="seen"[^>]*value="([^"]*)"', page).group(1))
    fields = json.loads(seen)["fields"]
    form = {name: "" if value is None else value for name, value in fields.items() if name not in ("ask", "floor")}
    return form | {"seen": seen, "ask": "" if fields["ask"] is None else f"{fields['ask'] / 100:.2f}"}


def test_an_edit_records_only_what_changed(ada, buy):
    coin = buy(place="Box A")
    form = edit_form(ada, coin)
    assert ada.post(f"/desk/coins/{coin}/edit", form | {"place": "Case 2"}).status_code == 302
    body = Fact.select().order_by(Fact.seq.desc()).get().body
    assert (body["base"], body["set"]) == ({"place": "Box A"}, {"place": "Case 2"})


def test_an_unchanged_form_records_nothing(ada, buy):
    coin = buy()
    before = Fact.select().count()
    ada.post(f"/desk/coins/{coin}/edit", edit_form(ada, coin))
    assert Fact.select().count() == before


def test_two_editors_of_one_field_are_noticed(ada, book, buy, phone):
    coin = buy(place="Box A")
    form = edit_form(ada, coin)
    phone("coin.edit", {"coin": coin, "base": {"place": "Box A"}, "set": {"place": "In my bag"}})
    ada.post(f"/desk/coins/{coin}/edit", form | {"place": "Case 2"})
    assert only_coin()["place"] == "In my bag"
    page = ada.get("/desk/looks").text
    assert "In my bag" in page and "Case 2" in page
    assert "wait for your decision" in ada.get(f"/desk/coins/{coin}").text


def test_two_editors_of_different_fields_both_stand(ada, buy, phone):
    coin = buy(place="Box A")
    form = edit_form(ada, coin)
    phone("coin.edit", {"coin": coin, "base": {"ask": None}, "set": {"ask": 5_000}})
    ada.post(f"/desk/coins/{coin}/edit", form | {"place": "Case 2"})
    assert (only_coin()["place"], only_coin()["ask"]) == ("Case 2", 5_000)


def test_publishing_is_switched_part_by_part(ada, buy):
    coin = buy()
    ada.post(f"/desk/coins/{coin}/edit", edit_form(ada, coin) | {"publish": ["identity", "price"]})
    assert only_coin()["publish"] == ["identity", "price"]


def test_a_sale_shows_its_gain_and_can_be_undone(ada, buy):
    coin = buy(10_000)
    form = {"price": "150", "fee": "7.50", "date": "2026-03-15", "buyer": "B. Buyer", "payment": "cash"}
    assert ada.post(f"/desk/coins/{coin}/sale", form).status_code == 302
    page = ada.get(f"/desk/coins/{coin}").text
    assert "$42.50" in page and "Gain" in page and "B. Buyer" in page
    sale = only_coin()["own"]["sale"]["fact"]
    ada.post(f"/desk/coins/{coin}/undo/{sale}")
    assert (only_coin()["state"], only_coin()["own"]["sale"]) == ("in stock", None)
    assert "undone" in ada.get(f"/desk/coins/{coin}").text


def test_undoing_the_purchase_that_made_a_coin_takes_the_coin_along(ada, buy):
    coin = buy()
    answer = ada.post(f"/desk/coins/{coin}/undo/{only_coin()['own']['purchase']['fact']}")
    assert answer.location == "/desk/stock"
    assert ada.get(f"/desk/coins/{coin}").status_code == 404
    assert "Undid: Bought" in ada.get("/desk/journal").text


def test_a_note_is_kept_as_typed_and_harmless(ada, buy):
    coin = buy()
    ada.post(f"/desk/coins/{coin}/notes", {"text": "<script>alert(1)</script>\r\nsecond line"})
    page = ada.get(f"/desk/coins/{coin}").text
    assert "&lt;script&gt;alert(1)&lt;/script&gt;<br>second line" in page
    assert "<script>alert" not in page


def test_history_tells_each_entry_with_device_and_verdict(ada, buy, phone):
    coin = buy(place="Box A")
    phone("check", {"coin": coin, "key": "facing", "answer": "fits", "note": "to the right"})
    phone("coin.edit", {"coin": coin, "base": {"place": "elsewhere"}, "set": {"place": "In my bag"}})
    page = ada.get(f"/desk/coins/{coin}").text
    assert page.index("Changed place") < page.index("Checklist, facing: fits") < page.index("Bought on 14 Mar 2026 for $100.00")
    assert "contested" in page and "Phone" in page and "to the right" in page


def test_an_unknown_coin_is_not_found(ada):
    assert ada.get(f"/desk/coins/{ids.new_id()}").status_code == 404
    assert ada.get("/desk/coins/none").status_code == 404


def test_a_date_of_one_mint_that_was_struck_in_proof_only_is_told_of_that_mint_alone(ada, buy):
    about = {"denom": "half-eagle", "type": "half-eagle/coronet-motto", "year": 1887, "grade": "AU-50"}
    assert "known in proof only" in ada.get(f"/desk/coins/{buy(**about)}").text
    assert "known in proof only" not in ada.get(f"/desk/coins/{buy(**about, mint='S')}").text
