"""A ticket at the desk, its receipt, and what comes back."""

import json

from desk.test_deals_purchase import confirm

from exergue.records import reading
from exergue.records.tables import Fact

SALE = "/desk/deals/sale"
SHOW = "01890000-0000-7000-8000-000000000002"
SEEN = {"name": "Harbour Coin Fair", "place": "", "table": "", "starts": "", "ends": "", "float": None, "tax_rate": None,
        "tax_place": "", "note": ""}  # fmt: skip


def own(coin: str) -> dict:
    return reading.coins([coin])[0]["own"]


def test_cost_gain_and_margin_are_seen_before_a_sale(ada, buy):
    """Worked by hand: sold for 1,900.00, commission 190.00, shipping 15.00 → realised 1,695.00, less 1,354.00: gain 341.00;
    of the price that is 17.9 %."""
    coin = buy(135_400)
    page, answer = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "1900", "fee": "190", "shipping": "15",
                                       "date": "2026-05-02"})  # fmt: skip
    for said in ("$1,354.00", "$341.00", "17.9 %"):
        assert said in page
    assert own(coin)["sale"]["gain"] == 34_100
    receipt = ada.get(answer.location).text
    assert "$1,900.00" in receipt
    for secret in ("1,354", "341", "190.00", "margin"):
        assert secret not in receipt


def test_tax_at_the_rate_of_the_show_and_payments(ada, buy, book):
    """8.25 % of 100.00 is 8.25."""
    book.act("show.add", {"show": SHOW, "set": {"name": "Harbour Coin Fair"}})
    show = {"name": "Harbour Coin Fair", "seen": json.dumps(SEEN), "tax_place": "Harbour"}
    assert "not a tax rate" in ada.post(f"/desk/shows/{SHOW}", show | {"tax_rate": "eight"}).text
    assert ada.post(f"/desk/shows/{SHOW}", show | {"tax_rate": "8.250 %"}).status_code == 302
    coin = buy()
    page, answer = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "100", "date": "2026-05-02", "show": SHOW,
                                       "taxed": "rate", "payments-0-how": "cash", "payments-0-cents": "50",
                                       "payments-1-how": "check"})  # fmt: skip
    assert "$108.25" in page
    (fact,) = Fact.select().where(Fact.kind == "ticket")
    assert fact.body["tax"] == {"place": "Harbour", "rate": "8.25", "cents": 825}
    assert fact.body["payments"][1] == {"how": "check", "cents": 5_825}
    assert "Sales tax, 8.25 %" in ada.get(answer.location).text


def test_one_price_is_divided_by_the_asking_prices(ada, buy):
    one, two = buy(ask=30_000), buy(year=1807, ask=10_000)
    confirm(ada, SALE, {"coins-0-coin": one, "coins-1-coin": two, "all_price": "300", "date": "2026-05-02"})
    assert [own(coin)["sale"]["price"] for coin in (one, two)] == [22_500, 7_500]


def test_a_discount_comes_off_every_line(ada, buy):
    one, two = buy(), buy(year=1807)
    confirm(ada, SALE, {"coins-0-coin": one, "coins-0-price": "300", "coins-1-coin": two, "coins-1-price": "100",
                        "discount": "40", "date": "2026-05-02"})  # fmt: skip
    assert [own(coin)["sale"]["price"] for coin in (one, two)] == [27_000, 9_000]


def test_a_sale_says_what_is_wrong(ada, buy):
    coin, before = buy(), Fact.select().count()
    for changed, said in (
        ({}, "Give every coin its price"),
        ({"coins-0-price": "5", "all_price": "5"}, "not both"),
        ({"all_price": "5"}, "no asking price"),
        ({"coins-0-price": "5", "discount": "6"}, "more than the price"),
        ({"coins-0-price": "5", "taxed": "rate"}, "Give the rate"),
        ({"coins-0-price": "5", "taxed": "rate", "rate": "eight"}, "not a tax rate"),
        ({"coins-0-price": "5", "taxed": "exempt"}, "exemption certificate"),
        ({"coins-0-price": "5", "payments-0-how": "cash", "payments-0-cents": "4"}, "$1.00 missing"),
        ({"coins-0-price": "5", "coins-1-coin": "0000000000"}, "ID"),
    ):
        page = ada.post(SALE, {"coins-0-coin": coin, "date": "2026-05-02", "do": "record"} | changed).text
        assert said in page, said
    assert Fact.select().count() == before


def test_coins_ticked_in_the_stock_list_stand_on_the_ticket(ada, buy):
    coin = buy(ask=15_000)
    answer = ada.post("/desk/stock/selection", {"coin": coin, "do": "sell"})
    page = ada.get(answer.location).text
    assert 'value="150.00"' in page


def test_a_coin_is_named_over_its_id(ada, buy):
    assert "Half cent, Draped Bust, 1806, VF-20" in ada.get(f"/desk/deals/sale?coin={buy()}").text


def test_a_return_brings_the_coin_back(ada, buy):
    coin = buy()
    _, answer = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "100", "date": "2026-05-02"})
    fact = answer.location.split("/")[-2]
    page = ada.get(f"/desk/deals/{fact}/return").text
    assert 'value="100.00"' in page
    high = ada.post(f"/desk/deals/{fact}/return", {"back": coin, "refund": "101", "date": "2026-05-03"})
    assert "at most what the coins were sold for" in high.text
    page, answer = confirm(ada, f"/desk/deals/{fact}/return", {"back": coin, "refund": "100", "date": "2026-05-03"})
    assert "Given back" in page and "in stock" in page and answer.status_code == 302
    assert reading.coins([coin])[0]["state"] == "in stock"
    assert "1 coin came back on 3 May 2026" in ada.get(f"/desk/deals/{fact}").text
    assert "is left to give back" in ada.get(f"/desk/deals/{fact}/return", follow_redirects=True).text


def test_an_exempt_sale_keeps_its_certificate(ada, buy):
    coin = buy()
    _, answer = confirm(ada, SALE, {"coins-0-coin": coin, "coins-0-price": "100", "date": "2026-05-02", "taxed": "exempt",
                                    "certificate": "X-1", "reason": "resale"})  # fmt: skip
    assert "No sales tax: resale, certificate X-1" in ada.get(answer.location).text


def test_part_of_a_lot_is_sold(ada, buy):
    lot = buy(20_000, pieces=20)
    confirm(ada, SALE, {"coins-0-coin": lot, "coins-0-price": "75", "coins-0-pieces": "5", "date": "2026-05-02"})
    assert own(lot)["moves"][-1]["gain"] == 2_500
    card = reading.coins([lot])[0]
    assert (card["state"], card["left"]) == ("in stock", 15)


def test_a_receipt_of_nothing_is_not_found(ada):
    assert ada.get(f"/desk/deals/{SHOW}/receipt").status_code == 404
    assert ada.get(f"/desk/deals/{SHOW}/return").status_code == 404
