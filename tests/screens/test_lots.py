"""Pieces of a lot of two purchases, sold, lost and given back with no network; a receipt's photo; several coins of somebody's at once."""

import re

import pytest
from PIL import Image
from playwright.sync_api import expect
from screens.conftest import BLANK, DRAPED
from support import browser as browsers
from support.waiting import until

from exergue.labels import ids
from exergue.records.tables import Fact

pytestmark = pytest.mark.browser
CARD = "(id) => import('/web/engine/engine.js').then(({engine}) => engine.card('coin', id))"


@pytest.fixture
def lot(table):
    """20 pieces for 200.00 and 10 more for 150.00, in a book that wants the purchase named; (coin, the two purchases)."""
    coin = ids.new_id()
    with table.book.connected():
        first = table.book.act("purchase", {"bought": [{"coin": coin, "set": {"denom": "half-cent", "title": "Culls", "ask": 60_000}, "pieces": 20}],
                                            "costs": [{"what": "price", "cents": 20_000}], "from": "A. Marsh", "date": "2026-03-14"}).fact  # fmt: skip
        more = table.book.act("purchase", {"bought": [{"coin": coin, "set": {}, "pieces": 10}], "costs": [{"what": "price", "cents": 15_000}],
                                           "from": "B. Holt", "date": "2026-04-14"}).fact  # fmt: skip
        table.book.act("setting", {"key": "lots", "value": "specific"})
    return coin, first, more


def left(table, coin):
    return [(row["fact"], row["left"]) for row in table.card(coin)["own"]["units"]]


def test_a_lot_of_two_purchases_is_sold_lost_and_given_back_offline(lot, anna, tmp_path):
    """4 of the 10 that cost 150.00 cost 60.00; for 90.00 they gain 30.00, half of them were sold for 45.00."""
    coin, first, second = lot
    with browsers.offline(anna.context):
        anna.go(f"/c/{coin}/sell").page.get_by_label("Pieces").fill("4")
        anna.button("Record the sale").click()
        anna.shows("Say from which purchase these pieces are.")
        which = anna.page.get_by_label("From which purchase")
        expect(which.locator("option").last).to_have_text("Apr 14, 2026, B. Holt: 10 left")
        anna.button("Show what it cost").click()
        expect(which.locator("option").last).to_have_text("Apr 14, 2026, B. Holt: 10 left, $15.00 each")
        which.select_option(second)
        anna.page.get_by_label("Price").fill("90")
        anna.shows("$60.00").shows("+$30.00")
        anna.page.get_by_label("Pieces").fill("11")
        anna.button("Record the sale").click()
        anna.shows("Of that purchase 10 pieces are left.").page.get_by_label("Pieces").fill("4")
        anna.page.get_by_label("Price").fill("90")
        anna.button("Record the sale").click()
        anna.at(f"/c/{coin}").waits(1)
        added = anna.page.locator(".history > li").filter(has_text="10 pieces added")
        expect(added).to_contain_text("10 pieces added Apr 14, 2026 from B. Holt")
        anna.button("Show what it cost").click()
        expect(added).to_contain_text("$150.00")

        anna.go(f"/c/{coin}/lost").page.get_by_label("Pieces").fill("7")
        which.select_option(second)
        anna.button("Record the loss").click()
        anna.shows("Of that purchase 6 pieces are left.")  # four of them wait on this phone
        which.select_option(first)
        anna.button("Record the loss").click()
        anna.at(f"/c/{coin}").waits(2)

        anna.page.get_by_role("link", name="Record its return").click()
        anna.shows("4 pieces of this sale are not back yet.").page.get_by_label("Pieces that come back").fill("2")
        refund = anna.page.get_by_label("Refund", exact=True)
        until(lambda: refund.input_value() == "45", what="what two of the four were sold for")
        anna.button("Record the return").click()
        anna.at(f"/c/{coin}").shows("2 pieces are back in stock.").waits(3)

        Image.new("RGB", (600, 900), "white").save(tmp_path / "paper.jpg")
        anna.page.get_by_role("link", name="Add the receipt").last.click()  # of the purchase
        anna.page.locator("input[type=file]").last.set_input_files(tmp_path / "paper.jpg")
        anna.button("Keep the receipt").click()
        anna.at(f"/c/{coin}").page.get_by_role("img", name="Receipt").wait_for()
        anna.waits(4)
        painted = anna.page.evaluate(CARD, coin)
    anna.sent()
    assert left(anna.table, coin) == [(first, 13), (second, 6), (second, 2)]
    card = anna.table.card(coin)
    assert (painted["left"], painted["pieces"], painted["own"]["receipts"]) == (card["left"], card["pieces"], card["own"]["receipts"])
    assert [(row["fact"], row["left"], row["costs"]) for row in painted["own"]["units"]] == [
        (row["fact"], row["left"], row["costs"]) for row in card["own"]["units"]]  # fmt: skip
    assert (card["left"], [move["kind"] for move in card["own"]["moves"]]) == (21, ["ticket", "lost", "return"])
    (photo,) = card["own"]["receipts"][first]
    until(lambda: (anna.table.book.photos / photo[-2:] / f"{photo}.full.jpg").is_file(), what="the receipt to arrive")


def test_several_coins_of_somebody_come_in_by_one_entry(anna, table):
    with browsers.offline(anna.context):
        anna.go("/memo-in").page.get_by_label("In words").fill("Gold dollar")
        one = re.sub(r"\W", "", anna.page.locator(".slip-id .id").inner_text())
        anna.page.get_by_label("Net to its owner").fill("70")
        anna.button("Scan another").click()
        anna.button("Type the ID").click()
        for label, said in ((DRAPED, "on a coin of the book already"), (one, "in this entry already"), (BLANK, "")):
            anna.page.get_by_label("Coin ID").fill(ids.show(label))
            anna.button("Add the coin of this ID").click()
            if said:
                anna.shows(said)
        anna.page.get_by_label("In words").fill("Three dollars")
        anna.button("Keep it in the entry").click()
        anna.page.get_by_label("Net to the owner of Three dollars").fill("1,200")
        anna.shows("$1,270.00")
        anna.go("/").go("/memo-in").shows("Continued from what was begun here.")
        anna.button("Take 2 coins in").click()
        anna.shows("Say with whom")
        anna.page.get_by_label("With", exact=True).fill("R. Holt")
        anna.button("Take 2 coins in").click()
        anna.at("/").shows("who is to have $1,270.00").waits(1)
    anna.sent()
    assert [(table.card(key)["title"], table.card(key)["state"], table.card(key)["theirs"]) for key in (one, BLANK)] == [
        ("Gold dollar", "on consignment", True), ("Three dollars", "on consignment", True)]  # fmt: skip
    with table.book.connected():
        (memo,) = Fact.select().where(Fact.kind == "memo")
        assert [row["net"] for row in memo.body["coins"]] == [7_000, 120_000]
