"""Trades, moves, money without a coin, and the page of all deals."""

import pytest
from desk.test_deals_purchase import confirm

from exergue.records import reading
from exergue.records.tables import Coin, Fact

TRADE = {"date": "2026-05-02", "party": "B. Trader", "coins-0-title": "First", "coins-0-worth": "500", "coins-1-title": "Second",
         "coins-1-worth": "300", "out-0-value": "700"}  # fmt: skip


def card(coin: str) -> dict:
    return reading.coins([coin])[0]


def test_a_trade_with_cash_paid(ada, buy):
    """Basis 400 and 100 cash for coins worth 500 and 300: realised 700, gain 300, bases 500 and 300, worked by hand after
    IRC 1001(b)."""
    coin = buy(40_000)
    page, _ = confirm(ada, "/desk/deals/trade", TRADE | {"out-0-coin": coin, "way": "paid", "boot": "100"})
    assert "Boot, you pay them" in page
    assert card(coin)["own"]["moves"][-1]["gain"] == 30_000
    new = {row.title: row.cost for row in Coin.select().where(Coin.id != coin)}
    assert new == {"First": 50_000, "Second": 30_000}


def test_a_trade_that_is_not_even_says_by_how_much(ada, buy):
    page = ada.post("/desk/deals/trade", TRADE | {"out-0-coin": buy(40_000), "do": "record"}).text
    assert "differ by $100.00: it is even when you pay them $100.00" in page




def test_away_and_back(ada, buy):
    coin = buy()
    ada.post("/desk/deals/move/away", {"coins": coin, "why": "grading", "party": "A grader", "date": "2026-05-02"})
    assert card(coin)["state"] == "at grading"
    ada.post("/desk/deals/move/back", {"coins": coin, "date": "2026-05-09"})
    assert card(coin)["state"] == "in stock"


def test_out_on_consignment(ada, buy):
    coin = buy()
    ada.post("/desk/deals/move/memo", {"lent-0-coin": coin, "lent-0-net": "90", "kind": "consignment", "party": "C. Dealer",
                                       "date": "2026-05-02", "due": "2026-06-02"})  # fmt: skip
    assert card(coin)["state"] == "on consignment"


def test_somebodys_coin_is_no_stock_of_ours(ada):
    ada.post("/desk/deals/move/memo-in", {"coins-0-title": "Theirs", "coins-0-worth": "90", "date": "2026-05-02"})
    (coin,) = Coin.select()
    assert coin.theirs and coin.cost is None


def test_lost_and_held_otherwise(ada, buy):
    lost, kept = buy(), buy(year=1807)
    ada.post("/desk/deals/move/lost", {"coins": lost, "how": "stolen", "reimbursed": "80", "date": "2026-05-02"})
    assert card(lost)["state"] == "missing"
    assert ada.post("/desk/deals/move/withdrawn", {"coins": kept, "to": "personal", "date": "2026-05-02"}).status_code == 302
    assert card(kept)["own"]["held"] == "personal"


@pytest.mark.parametrize("way, data, said", [
    ("back", {"coins": "nonsense"}, "ID"),
    ("away", {"coins": ""}, "at least one coin"),
    ("back", {"date": ""}, "Give the day"),
    ("memo", {}, "what its owner is to have"),
    ("memo-in", {}, "Enter each coin"),
])  # fmt: skip
def test_what_is_missing_is_said(ada, buy, way, data, said):
    coin, before = buy(), Fact.select().count()
    assert said in ada.post(f"/desk/deals/move/{way}", {"coins": coin, "date": "2026-05-02"} | data).text
    assert Fact.select().count() == before


def test_more_pieces_than_there_are_cannot_be_lost(ada, buy):
    coin = buy()
    answer = ada.post("/desk/deals/move/lost", {"coins": coin, "how": "lost", "pieces": "2", "note": "in the post",
                                                "date": "2026-05-02"})  # fmt: skip
    assert "give that many at most" in answer.text
    assert 'value="in the post"' in answer.text
    assert card(coin)["state"] == "in stock"


def test_a_gift_keeps_the_donors_basis(ada):
    """IRC 1015(a): the donor's adjusted basis is the basis for a gain."""
    page = ada.get("/desk/deals/acquired").text
    assert "Not tax advice" in page
    page, _ = confirm(ada, "/desk/deals/acquired", {"how": "gift", "party": "An aunt", "date": "2026-05-02", "coins-0-title": "Given",
                      "coins-0-worth": "80", "coins-0-basis": "100", "coins-0-since": "1999-01-02"})  # fmt: skip
    assert "$100.00" in page and "2 Jan 1999" in page
    (coin,) = Coin.select()
    assert coin.cost == 10_000


def test_money_without_a_coin(ada):
    data = {"what": "expense", "amount": "75", "how": "cash", "about": "Table", "date": "2026-05-02"}
    assert ada.post("/desk/deals/money", data).status_code == 302
    assert "Paid an expense $75.00" in ada.get("/desk/deals").text
    assert "to_how" in ada.post("/desk/deals/money", data | {"what": "transfer"}).text


def test_deals_are_found_by_kind_party_and_undone(ada, buy):
    coin = buy()
    ada.post("/desk/deals/money", {"what": "expense", "amount": "75", "how": "cash", "date": "2026-05-02"})
    assert "expense" not in ada.get("/desk/deals?kind=purchase").text.split("<tbody>")[1]
    assert "No deals here" in ada.get("/desk/deals?who=nobody").text
    (fact,) = Fact.select().where(Fact.kind == "purchase")
    ada.post(f"/desk/deals/{fact.id}/undo")
    assert not Coin.select().where(Coin.id == coin).exists()
    assert "undone" in ada.get("/desk/deals").text


def test_what_was_sold_since_is_not_undone(ada, buy):
    coin = buy()
    (fact,) = Fact.select().where(Fact.kind == "purchase")
    confirm(ada, "/desk/deals/sale", {"coins-0-coin": coin, "coins-0-price": "100", "date": "2026-05-02"})
    answer = ada.post(f"/desk/deals/{fact.id}/undo", follow_redirects=True)
    assert "undo the sale first" in answer.text
    assert Coin.select().where(Coin.id == coin).exists()
