"""From which purchase the pieces of a lot are sold, traded or lost, and pieces of a lot that come back."""

import re

import pytest
from desk.test_deals_purchase import confirm

from exergue.records import books, proof, reading, refold
from exergue.records.tables import Fact

SALE, TRADE, LOST = "/desk/deals/sale", "/desk/deals/trade", "/desk/deals/move/lost"
WHICH = "say from which these pieces are"


@pytest.fixture
def lot(book, buy):
    """20 pieces for 200.00 from A. Seller, and 10 more for 150.00 from B. Seller a month later; (coin, the two purchases)."""
    coin = buy(20_000, pieces=20)
    more = book.act("purchase", {"bought": [{"coin": coin, "set": {}, "pieces": 10}], "costs": [{"what": "price", "cents": 15_000}],
                                 "date": "2026-04-14", "from": "B. Seller"})  # fmt: skip
    return coin, Fact.get(Fact.kind == "purchase").id, more.fact


@pytest.fixture
def specific(book):
    book.act("setting", {"key": "lots", "value": "specific"})


def own(coin: str) -> dict:
    return reading.coins([coin])[0]["own"]


def sound(book):
    assert proof.differences(books.build(book)) == [] and refold.verify() == []


def options(page: str) -> list[str]:
    select = re.search(r'(?s)<select[^>]*name="(?:coins-0-|out-0-)?of".*?</select>', page)
    return re.findall(r"(?s)<option[^>]*>(.*?)</option>", select.group(0)) if select else []


def test_a_book_that_takes_the_first_in_asks_nothing(ada, lot):
    coin, *_ = lot
    page, _ = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "75", "coins-0-pieces": "5", "date": "2026-05-02"})
    assert options(page) == [] and own(coin)["moves"][-1]["gain"] == 7_500 - 5_000


def test_a_sale_asks_from_which_purchase_and_shows_cost_and_gain_of_that(ada, book, lot, specific):
    """Worked by hand: 4 of the 10 that cost 150.00 cost 60.00; sold for 75.00 they gain 15.00. Of the others: 40.00, 35.00."""
    coin, first, second = lot
    page = ada.get(f"{SALE}?coin={coin}").text
    assert options(page) == ["Say which", "14 Mar 2026: 20 left, $10.00 each", "14 Apr 2026, B. Seller: 10 left, $15.00 each"]
    form = {"coins-0-coin": coin, "coins-0-price": "75", "coins-0-pieces": "4", "date": "2026-05-02"}
    refused = ada.post(SALE, form | {"do": "look"}).text
    assert WHICH in refused and len(options(refused)) == 3 and "What will be recorded" not in refused
    assert "$35.00" in ada.post(SALE, form | {"do": "look", "coins-0-of": first}).text
    page, answer = confirm(ada, SALE, form | {"coins-0-of": second})
    assert "$60.00" in page and "$15.00" in page and "4 of 14 Apr 2026" in page
    assert own(coin)["moves"][-1]["gain"] == 1_500
    assert [(row["fact"], row["left"]) for row in own(coin)["units"]] == [(first, 20), (second, 6)]
    assert "4 of 14 Apr 2026" in ada.get(answer.location.removesuffix("/receipt")).text
    sound(book)


def test_more_pieces_than_that_purchase_has_left_is_said_beside_the_field(ada, lot, specific):
    coin, _, second = lot
    page = ada.post(SALE, {"coins-0-coin": coin, "coins-0-price": "75", "coins-0-pieces": "11", "coins-0-of": second, "date": "2026-05-02"}).text
    assert re.search(r'id="coins-0-of-error">Of that purchase 10 pieces are left', page)
    one, _ = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "300", "date": "2026-05-02"})  # all of it needs no word
    assert WHICH not in one and own(coin)["sale"]["price"] == 30_000


def test_a_purchase_that_is_no_choice_of_the_coin_is_asked_anew(ada, buy, lot, specific):
    coin, first, _ = lot
    other = buy()
    page = ada.post(SALE, {"coins-0-coin": other, "coins-0-price": "75", "coins-0-of": first, "date": "2026-05-02", "do": "look"}).text
    assert "What will be recorded" in page and options(page) == []


def test_a_trade_and_a_loss_ask_as_well(ada, book, lot, specific):
    coin, first, second = lot
    form = {"out-0-coin": coin, "out-0-value": "30", "out-0-pieces": "2", "coins-0-title": "Token", "coins-0-worth": "30", "date": "2026-05-02"}
    assert WHICH in ada.post(TRADE, form | {"do": "look"}).text
    confirm(ada, TRADE, form | {"out-0-of": second})
    assert own(coin)["moves"][-1]["gain"] == 0
    lost = {"coins": coin, "how": "missing", "pieces": "3", "date": "2026-05-03"}
    assert len(options(ada.get(f"{LOST}?coin={coin}").text)) == 3
    assert WHICH in ada.post(LOST, lost).text
    assert "Of that purchase 8 pieces are left" in ada.post(LOST, lost | {"pieces": "9", "of": second}).text
    assert ada.post(LOST, lost | {"of": first}).status_code == 302
    assert [(row["fact"], row["left"]) for row in own(coin)["units"]] == [(first, 17), (second, 8)]
    sound(book)


def test_the_book_card_tells_phones_that_a_purchase_is_to_be_named(book, specific):
    assert book.card("book", "book")["own"]["lots"] == "specific"
    book.act("setting", {"key": "lots", "value": "fifo"})
    assert "lots" not in book.card("book", "book")["own"]


# --- pieces of a return ----------------------------------------------------------------------


def sold(ada, coin: str, pieces: int, price: str) -> str:
    _, answer = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": price, "coins-0-pieces": str(pieces), "date": "2026-05-02"})
    return answer.location.split("/")[-2]


def test_some_pieces_of_a_sold_lot_come_back(ada, book, buy):
    """20 pieces at 100.00 together, 12 of them come back: at most 60.00; of the 8 that are left, 40.00."""
    coin = buy(20_000, pieces=20)
    address = f"/desk/deals/{sold(ada, coin, 20, '100')}/return"
    assert "20 are not back yet" in ada.get(address).text
    form = {"back": coin, "date": "2026-05-09"}
    high = ada.post(address, form | {"pieces": "12", "refund": "100"}).text
    assert re.search(r'id="refund-error">These 12 pieces were sold for \$60\.00', high)
    page, _ = confirm(ada, address, form | {"pieces": "12", "refund": "60"})
    assert "12 pieces" in page
    card = reading.coins([coin])[0]
    assert (card["state"], card["left"]) == ("in stock", 12)
    again = ada.get(address).text
    assert 'value="40.00"' in again and "8 are not back yet" in again
    assert re.search(r'id="pieces-error">8 pieces are not back yet', ada.post(address, form | {"pieces": "9", "refund": "40"}).text)
    confirm(ada, address, form | {"refund": "40"})
    assert reading.coins([coin])[0]["left"] == 20
    assert "is left to give back" in ada.get(address, follow_redirects=True).text
    sound(book)


def test_pieces_of_a_return_are_about_one_coin(ada, buy):
    one, two = buy(20_000, pieces=20), buy()
    _, answer = confirm(ada, SALE, {"coins-0-coin": one, "coins-0-price": "100", "coins-1-coin": two, "coins-1-price": "50", "date": "2026-05-02"})
    address = f"/desk/deals/{answer.location.split('/')[-2]}/return"
    page = ada.post(address, {"back": [one, two], "pieces": "3", "refund": "15", "date": "2026-05-09"}).text
    assert re.search(r'id="pieces-error">Tick the lot alone', page)
    page, _ = confirm(ada, address, {"back": [one], "pieces": "3", "refund": "15", "date": "2026-05-09"})
    assert reading.coins([one])[0]["left"] == 3
