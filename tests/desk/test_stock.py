"""The stock list: finding, filtering, ordering, and acting on several coins at once."""

import re

import pytest

from exergue.labels import ids
from exergue.records import coin_money, reading
from exergue.records.tables import Coin


@pytest.fixture
def box(buy):
    """Four coins."""
    return {
        "early": buy(50_000, year=1804, grade="VG-8", place="Box A", ask=80_000),
        "fine": buy(10_000, year=1806, grade="VF-30", place="Box A", ask=15_000),
        "dollar": buy(200_000, denom="dollar", type="", title="Draped Bust", year=1799, grade="AU-50", place="Case 1"),
        "plain": buy(3_000, denom="large-cent", type="", title="not sure yet", year=None, grade=""),
    }


def found(answer) -> list[str]:
    """IDs of the coins in a list, in its order."""
    return re.findall(r'name="coin" value="(\w{10})"', answer.text)


@pytest.mark.parametrize("asked, names", [
    ({"q": "1806"}, ["fine"]),
    ({"q": "draped bust"}, ["dollar", "early", "fine"]),
    ({"q": "draped 1804"}, ["early"]),
    ({"denom": "half-cent"}, ["early", "fine"]),
    ({"place": "Box A", "grade_from": "VF"}, ["fine"]),
    ({"grade_from": "VF", "grade_to": "vf"}, ["fine"]),
    ({"grade_from": "VG 8", "grade_to": "VF-30"}, ["early", "fine"]),
    ({"q": "trade dollar"}, []),
])  # fmt: skip
def test_search_and_filters_find_what_fits(ada, box, asked, names):
    assert sorted(found(ada.get("/desk/stock", query_string=asked))) == sorted(box[name] for name in names)


def test_the_order_can_be_chosen(ada, box):
    assert found(ada.get("/desk/stock?order=grade"))[:3] == [box["dollar"], box["fine"], box["early"]]
    assert found(ada.get("/desk/stock?order=cost"))[0] == box["dollar"]


def test_totals_are_of_all_that_was_found(ada, box):
    page = ada.get("/desk/stock?denom=half-cent").text
    assert "$600.00" in page and "$950.00" in page


def test_pages_hold_every_coin_once(ada, buy):
    made = {buy(year=1804, variety=f"no. {n}") for n in range(53)}
    first, second = found(ada.get("/desk/stock")), found(ada.get("/desk/stock?page=2"))
    assert (len(first), len(second)) == (50, 3)
    assert set(first) | set(second) == made


def test_an_id_leads_to_its_coin_however_it_is_typed(ada, box):
    typed = ids.show(box["fine"]).lower()
    assert ada.get("/desk/stock", query_string={"q": typed}).location == f"/desk/coins/{box['fine']}"


def test_a_grade_that_is_none_is_told_and_the_rest_still_works(ada, box):
    page = ada.get("/desk/stock?grade_from=splendid&denom=dollar")
    assert page.status_code == 200
    assert "splendid" in page.text
    assert found(page) == [box["dollar"]]


def test_sold_coins_stand_apart(ada, book, box):
    book.act("sale", {"coin": box["fine"], "price": 15_000, "date": "2026-03-15"})
    assert box["fine"] not in found(ada.get("/desk/stock"))
    assert found(ada.get("/desk/stock?state=sold")) == [box["fine"]]
    assert box["fine"] in found(ada.get("/desk/stock?state=all"))


def test_a_place_is_set_for_all_that_are_ticked(ada, box):
    chosen = {"coin": [box["early"], box["plain"]], "do": "place", "place": " Case 9 "}
    assert ada.post("/desk/stock/selection", chosen).status_code == 302
    places = {row.id: row.place for row in Coin.select()}
    assert (places[box["early"]], places[box["plain"]], places[box["fine"]]) == ("Case 9", "Case 9", "Box A")


def test_ticked_coins_go_to_the_label_page(ada, box):
    answer = ada.post("/desk/stock/selection", {"coin": [box["early"], box["fine"]], "do": "labels"})
    assert answer.location.startswith("/desk/labels?")
    assert box["early"] in answer.location and box["fine"] in answer.location


def test_nothing_ticked_is_told(ada, box):
    ada.post("/desk/stock/selection", {"do": "place", "place": "Case 9"})
    assert "Tick at least one coin" in ada.get("/desk/stock").text
    assert not Coin.select().where(Coin.place == "Case 9").exists()


def test_an_empty_book_says_how_to_begin(ada):
    page = ada.get("/desk/stock").text
    assert "No coins yet" in page and "/desk/import" in page


def test_the_asking_price_of_a_lot_is_for_all_its_pieces_and_counts_for_what_is_left(ada, book):
    """300.00 for 30 pieces of which 20 are left is 200.00: in the sum of the stock and for a stranger."""
    lot = ids.new_id()
    about = {"denom": "half-cent", "ask": 30_000, "publish": ["identity", "price"]}
    book.act_all([
        ("purchase", {"bought": [{"coin": lot, "set": about, "pieces": 30}], "costs": [{"what": "price", "cents": 9_000}], "date": "2026-03-14"}),
        ("ticket", {"sold": [{"coin": lot, "pieces": 10}], "price": 12_000, "date": "2026-03-15"}),
    ])  # fmt: skip
    assert reading.stock().ask == 20_000
    assert "$200.00" in ada.get(f"/c/{lot}").text and "$300.00" not in ada.get(f"/c/{lot}").text
    assert "For all its pieces." in ada.get(f"/desk/coins/{lot}/edit").text
    book.act("ticket", {"sold": [{"coin": lot, "pieces": 20}], "price": 24_000, "date": "2026-03-16"})
    assert reading.stock(state="sold").ask == coin_money.asking(book.card("coin", lot)) == 30_000  # gone whole: what all was asked for
