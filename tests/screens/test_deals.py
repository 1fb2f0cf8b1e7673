"""Deals of several coins in the composer: sold, bought and traded with no network, and the same at the desk."""

import io
import re

import pytest
from PIL import Image
from playwright.sync_api import expect
from screens.conftest import BLANK, CLASSIC, DRAPED, EAGLE, SHOW, WANT
from support import browser as browsers
from support.waiting import until

from exergue.labels import ids
from exergue.records import photos, reading

pytestmark = pytest.mark.browser
CARDS = "(ids) => import('/web/engine/engine.js').then(({engine}) => Promise.all(ids.map((id) => engine.card('coin', id))))"
PLACE = ("state", "left", "pieces")
SLIP = io.BytesIO()
Image.new("RGB", (600, 400), "white").save(SLIP, "PNG")
SLIP = SLIP.getvalue()


def choose(screen, label, option):
    screen.page.get_by_role("button", name=label).first.click()
    screen.page.get_by_role("dialog").get_by_role("button", name=option).first.click()
    screen.page.get_by_role("dialog").wait_for(state="detached")


def find(screen, *coins):
    """Put coins on the side that goes out, by the first characters of their IDs."""
    screen.page.get_by_role("button", name="Find a").click()
    search = screen.page.get_by_label("Coin ID, or search the stock")
    for coin in coins:
        search.fill(ids.show(coin))
        screen.button("Add the coin of this ID").click()
        until(lambda: search.input_value() == "", what="the coin to be in the deal")
    screen.button("Done, ").click()


def describe(screen, year, price, label):
    """A coin on a new ID drawn by the phone, as it comes in."""
    screen.button("New ID").click()
    choose(screen, "Denomination", "Half cent")
    screen.page.get_by_label("Date", exact=True).fill(str(year))
    key = ids.parse(screen.page.locator(".slip-id .id").inner_text())
    screen.button("Keep it in the deal").click()
    if price:
        screen.page.get_by_label(f"{label} of Half cent {year}").or_(screen.page.get_by_label(label, exact=True)).fill(price)
    return key


def painted(screen, *keys):
    return screen.page.evaluate(CARDS, list(keys))


@pytest.fixture
def lot(table):
    """Ten culls on one label, bought for 50.03, asked 100.00; four are sold."""
    key = ids.new_id()
    with table.book.connected():
        table.book.act_all([
            ("purchase", {"bought": [{"coin": key, "set": {"denom": "half-cent", "title": "Culls", "ask": 10_000, "floor": 7_000}, "pieces": 10}],
                          "costs": [{"what": "price", "cents": 5_003}], "date": "2026-03-14"}),
            ("ticket", {"sold": [{"coin": key, "pieces": 4}], "price": 4_500, "date": "2026-03-20"}),
        ])  # fmt: skip
    return key


def test_several_coins_and_part_of_a_lot_are_sold_on_one_ticket_with_three_payments(lot, anna):
    """120.00 + 80.00 + 20.00 less 20.00 is 200.00; 8.25 per cent of it is 16.50. The discount lies on the lines by their prices."""
    with browsers.offline(anna.context):
        anna.go("/deal")
        find(anna, DRAPED, CLASSIC, lot)
        anna.page.get_by_label("Pieces of Half cent, Culls").fill("7")
        anna.button("Record the sale").click()
        anna.shows("Only 6 of this lot are left.")
        anna.page.get_by_label("Pieces of Half cent, Culls").fill("2")
        until(lambda: anna.page.get_by_label("Price of Half cent, Culls").input_value() == "20", what="the price of two pieces")
        anna.page.get_by_label("Discount").fill("20")
        anna.page.get_by_role("radiogroup", name="Sales tax").get_by_text("Tax", exact=True).click()
        anna.page.get_by_label("Tax rate").fill("8.25")
        anna.shows("To pay, with $16.50 tax")
        for _ in range(2):
            anna.page.get_by_role("button", name="Paid in several ways").or_(anna.button("Another payment")).click()
        anna.page.get_by_label("Paid by payment 1").fill("100")
        anna.page.get_by_label("Paid by payment 2").fill("50")
        anna.page.get_by_label("Payment 3 by").select_option("check")
        anna.button("The rest, $66.50").last.click()
        anna.page.get_by_label("Buyer").fill("Bram Oduya")
        anna.button("A cost of selling").click()
        anna.page.get_by_label("Amount", exact=True).fill("7.77")
        anna.button("Record the sale").click()
        anna.page.wait_for_url("**/receipt/*")
        before = painted(anna, DRAPED, CLASSIC, lot)
        receipt = anna.page.locator(".paper").get_attribute("alt")
    anna.sent()
    cards = [anna.table.card(key) for key in (DRAPED, CLASSIC, lot)]
    assert [[one.get(name) for name in PLACE] for one in before] == [[one.get(name) for name in PLACE] for one in cards]
    assert [one["state"] for one in cards] == ["sold", "sold", "in stock"] and cards[2]["left"] == 4
    assert [one["own"]["sale"]["price"] for one in cards[:2]] == [10_909, 7_273]
    assert cards[2]["own"]["moves"][-1]["cents"] == 1_818  # 200.00 / 220.00 of each; two cents over to the largest remainders
    assert sum(line["cents"] for one in cards[:2] for line in one["own"]["sale"]["costs"]) <= 777
    for words in ("Bram Oduya", "$109.09", "$72.73", "$18.18", "2 pieces", "Sales tax, 8.25 %: $16.50", "Total: $216.50", "Paid, check: $66.50"):
        assert words in receipt
    assert not [secret for secret in ("64.50", "60.00", "90.00", "7.77", "50.03") if secret in receipt]


def test_a_coin_is_traded_for_two_with_money_either_way_after_the_tab_was_killed(anna):
    with browsers.offline(anna.context):
        anna.go(f"/c/{DRAPED}").button("More").click()
        anna.button("Trade it").click()
        anna.at(f"/c/{DRAPED}/trade").shows("Comes in")
        first = describe(anna, 1828, "90", "Value")
        anna.shows("They pay you, to be even").shows("$30.00")
        anna.page.close()
        anna.page = anna.context.new_page()
        anna.go("/deal").shows("Continued from what was begun here")
        second = describe(anna, 1834, "45.50", "Value")
        anna.shows("You pay them, to be even").shows("$15.50")
        anna.page.get_by_label("With", exact=True).fill("Orla Penhale")
        anna.button("Record the trade").click()
        anna.page.wait_for_url("**/receipt/*")
        expect(anna.page.locator(".paper")).to_have_attribute("alt", re.compile(r"Table nine pays: \$15\.50"))
        before = painted(anna, DRAPED, first, second)
    anna.sent()
    cards = [anna.table.card(key) for key in (DRAPED, first, second)]
    assert [[one.get(name) for name in PLACE] for one in before] == [[one.get(name) for name in PLACE] for one in cards]
    assert [one["own"]["cost"] for one in cards[1:]] == [one["own"]["cost"] for one in before[1:]] == [9_000, 4_550]
    assert cards[0]["state"] == "traded" and cards[1]["own"]["purchase"]["from"] == "Orla Penhale"
    anna.button("Undo the deal").click()
    anna.button("Undo it").click()
    anna.shows("This deal is undone").sent()
    assert anna.table.card(DRAPED)["state"] == "in stock" and anna.table.card(first) is None


def test_several_coins_are_bought_for_one_price_by_shares(anna):
    """100.00 by shares of 1 to 2, and 10.01 shipping by the same: by hand."""
    with browsers.offline(anna.context):
        anna.go("/deal")
        first, second = describe(anna, 1828, "", ""), describe(anna, 1834, "", "")
        anna.page.get_by_text("One price", exact=True).click()
        anna.page.get_by_label("Price for all of them").fill("100")
        anna.page.get_by_label("Shared over the coins").select_option("weights")
        anna.button("Record the purchase").click()
        anna.shows("Give this coin its share.")
        anna.page.get_by_label("Share of Half cent 1828").fill("1")
        anna.page.get_by_label("Share of Half cent 1834").fill("2")
        anna.button("Fee, tax, shipping").click()
        anna.page.get_by_label("Added cost", exact=True).select_option("shipping")
        anna.page.get_by_label("Amount", exact=True).fill("10.01")
        anna.page.get_by_label("From", exact=True).fill("Varrow Brothers")
        anna.shows("$110.01").button("Record the purchase").click()
        anna.page.wait_for_url("**/receipt/*")
        slip = anna.page.locator(".paper").get_attribute("alt")
    anna.sent()
    assert [anna.table.card(key)["own"]["cost"] for key in (first, second)] == [3_333 + 334, 6_667 + 667]
    assert "Price: $100.00" in slip and "33.33" not in slip and "110.01" not in slip


def test_a_purchase_in_another_currency_fills_a_want_and_keeps_a_photo_of_its_receipt(anna):
    """100.00 euros at 1.0832 are 108.32; with 5.00 shipping 113.32: by hand."""
    with browsers.offline(anna.context):
        anna.go("/deal").button("New ID").click()
        choose(anna, "Denomination", "Half cent")
        choose(anna, "Type", "Braided Hair")
        anna.page.get_by_label("Date", exact=True).fill("1853")
        key = ids.parse(anna.page.locator(".slip-id .id").inner_text())
        anna.button("Keep it in the deal").click()
        anna.button("Fill the want").click()
        anna.shows("Fills the want")
        anna.button("Paid in another currency").click()
        anna.page.get_by_label("Currency").select_option("EUR")
        anna.page.get_by_label("Price in it").fill("100")
        anna.button("Record the purchase").click()
        anna.shows("Give what one unit of that currency is worth here")
        anna.page.get_by_label("Rate").fill("1,0832")
        anna.button("Fee, tax, shipping").click()
        anna.page.get_by_label("Added cost", exact=True).select_option("shipping")
        anna.page.get_by_label("Amount", exact=True).fill("5")
        anna.shows("$113.32").page.get_by_label("Photo of the receipt").set_input_files({"name": "slip.png", "mimeType": "image/png", "buffer": SLIP})
        anna.page.get_by_alt_text("The receipt, as taken").wait_for()
        anna.button("Set aside").click()
        anna.link("More").click()
        anna.link("Deals Several coins").click()
        anna.button("1 other deal begun").click()
        anna.button("Purchase of 1 coin").click()
        anna.page.get_by_alt_text("The receipt, as taken").wait_for()
        anna.button("Record the purchase").click()
        anna.page.wait_for_url("**/receipt/*")
        anna.page.get_by_text("The photo of their receipt").click()
        until(lambda: anna.page.locator("img.theirs").evaluate("(image) => image.naturalWidth") > 0, what="the photo to be shown with no network")
        assert "Paid as €100.00 at 1.0832" in anna.page.locator(".paper").get_attribute("alt")
    anna.sent()
    with anna.table.book.connected():
        (entry,) = [one for one in reading.of_kinds(("purchase",)) if one["body"].get("receipt")]
        assert [(one["id"], one["coin"]) for one in reading.found_wants()] == [(WANT, key)]
    assert anna.table.card(key)["own"]["cost"] == 11_332
    assert entry["body"]["foreign"] == {"currency": "EUR", "cents": 10_000, "rate": "1.0832"}
    until(lambda: photos.path(anna.table.book.photos, entry["body"]["receipt"]).is_file(), what="the photo to be at the desk")


def test_a_coin_is_in_one_deal_once_and_a_deal_set_aside_waits(anna):
    anna.go("/deal")
    find(anna, DRAPED)
    anna.button("Find another").click()
    search = anna.page.get_by_label("Coin ID, or search the stock")
    search.fill(DRAPED)
    anna.button("Add the coin of this ID").click()
    anna.shows("That coin is in this deal already.")
    search.fill(BLANK)
    anna.button("Add the coin of this ID").click()
    anna.shows("That label is blank: it is for a coin that comes in.")
    anna.button("Done, 1 coin").click()
    anna.button("Set aside").click()
    anna.go("/deal").shows("1 other deal begun")
    anna.button("Find a coin").click()
    search.fill(DRAPED)
    anna.button("Add the coin of this ID").click()
    anna.shows("That coin is in another deal, which is set aside")
    search.fill(EAGLE)
    anna.button("Add the coin of this ID").click()
    anna.button("Done, 1 coin").click()
    anna.button("Record the sale").click()
    anna.shows("A sale needs its price.")
    anna.button("1 other deal begun").click()
    anna.button("Sale of 1 coin").click()
    anna.shows("Half cent, Draped Bust").button("Record the sale").click()
    anna.at(f"/c/{DRAPED}").sent()
    assert (anna.table.card(DRAPED)["state"], anna.table.card(EAGLE)["state"]) == ("sold", "in stock")
    begun = "Object.keys(localStorage).filter((key) => key.startsWith('exergue.draft.')).map((key) => localStorage[key]).join()"
    assert EAGLE in anna.page.evaluate(begun)
    anna.go("/more/leave").button("Unpair this phone").click()
    anna.button("Pair this phone", exact=True).wait_for()
    assert EAGLE not in anna.page.evaluate(begun)


def test_an_entry_that_was_refused_says_the_same_after_it_was_opened_in_the_composer(anna, lot):
    """What the composer makes of an entry that it reads again, with nothing changed, is that entry."""
    anna.page.evaluate("import('/web/engine/engine.js').then(({engine}) => engine.sync())")
    key, day = ids.new_id(), {"date": "2026-03-15", "note": "At once"}
    new = {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20", "ask": 900}
    fee = [{"what": "fee", "cents": 250}, {"what": "shipping", "cents": 5}]
    made = [
        ("sale", {"coin": DRAPED, "price": 11_950, "payment": "check", "costs": fee, "to": "Bram Oduya", **day}),
        ("ticket", {"sold": [{"coin": DRAPED, "price": 10_909}, {"coin": CLASSIC, "price": 7_273}, {"coin": lot, "pieces": 2, "price": 1_818}], "price": 20_000,
                    "discount": 2_000, "tax": {"rate": "8.25", "cents": 1_650}, "costs": fee, "to": "Bram Oduya",
                    "payments": [{"how": "cash", "cents": 20_000}, {"how": "card", "cents": 1_600}, {"how": "other", "cents": 50}], **day}),
        ("ticket", {"sold": [{"coin": DRAPED, "weight": 3}, {"coin": CLASSIC, "weight": 2}], "price": 15_000,
                    "exempt": {"certificate": "TX-55", "reason": "Resale"}, "payments": [{"how": "cash", "cents": 15_000}], **day}),
        ("purchase", {"bought": [{"coin": key, "set": new, "weight": 4_000}, {"coin": ids.new_id(), "set": new, "pieces": 20, "weight": 1_000}],
                      "costs": [{"what": "price", "cents": 5_000}, *fee], "split": "weights", "payment": "transfer", "from": "Varrow Brothers", **day}),
        ("purchase", {"bought": [{"coin": key, "set": new}, {"coin": ids.new_id(), "set": new}], "costs": [{"what": "price", "cents": 5_000}],
                      "split": "even", "payments": [{"how": "cash", "cents": 1}, {"how": "check", "cents": 4_999}], **day}),
        ("purchase", {"bought": [{"coin": key, "set": new, "weight": 30, "want": WANT}, {"coin": ids.new_id(), "set": new, "weight": 10}],
                      "costs": [{"what": "price", "cents": 10_832}, *fee], "foreign": {"currency": "EUR", "cents": 10_000, "rate": "1.0832"},
                      "receipt": SHOW, "split": "weights", "payment": "card", **day}),
        ("trade", {"out": [{"coin": DRAPED, "value": 500}, {"coin": lot, "pieces": 2, "value": 100}], "in": [{"coin": key, "set": new, "value": 700, "want": WANT}],
                   "boot": -100, "costs": fee, "receipt": SHOW, "payments": [{"how": "cash", "cents": 100}], "with": "Orla Penhale", **day}),
    ]  # fmt: skip
    again = anna.page.evaluate("""async (made) => {
        const [{engine}, {dealOf}, {readDeal}, {makeForm}, {formOf}] = await Promise.all(['engine/engine', 'parts/deal-said', 'parts/deal-read', 'parts/field', 'parts/mending']
            .map((name) => import(`/web/${name}.js`)));
        const ui = {engine, update() {}, say() {}};
        return Promise.all(made.map(async ([kind, body]) => {
            const deal = dealOf(ui, {id: 'x', kind, body}, () => false);
            const cards = new Map(await Promise.all(deal.out.map(async (id) => [id, await engine.card('coin', id)])));
            const {entry, wrong} = readDeal(ui, makeForm(ui, deal.values), deal, {cards, shows: [], estimates: new Map(), wants: await engine.list('want')});
            return [entry.kind, entry.body, wrong, Boolean(formOf({kind, body}, true))];
        })) }""", made)  # fmt: skip
    assert again == [[kind, body, {}, True] for kind, body in made]


def test_a_refused_ticket_is_put_right_in_the_composer(anna):
    refused = {"sold": [{"coin": DRAPED, "price": 5_000}, {"coin": CLASSIC, "price": 4_000}], "price": 9_500, "date": "2026-03-15"}
    anna.page.evaluate("(body) => import('/web/engine/engine.js').then(({engine}) => engine.record('ticket', body))", refused)
    anna.sent().go("/entries").shows("The lines add up to").button("Edit").click()
    anna.at("/deal").shows("Refused by the desk.")
    expect(anna.page.get_by_label("Price of Half cent, Classic Head")).to_have_value("40")
    anna.page.get_by_label("Price of Half cent, Draped Bust").fill("95")
    anna.button("Record the sale").click()
    anna.page.wait_for_url("**/receipt/*")
    anna.sent()
    assert anna.table.card(DRAPED)["own"]["sale"]["price"] == 9_500
    anna.go("/entries").shows("Refused, then put right")


def test_a_lot_partly_sold_shows_its_bargain_and_sells_by_pieces(lot, anna):
    """Ten cost 50.03: the first three bear a cent more. Six are left: 6 of 10 of the ask, 6 × 5.00 of the cost."""
    anna.go(f"/c/{lot}").button("Show what it cost").click()
    anna.shows("The 6 pieces that are left")
    said = anna.page.locator(".bargain").inner_text().replace("\n", " ")
    for text in ("Their part of the ask $60.00", "What they cost $30.00", "Gain at the ask +$30.00", "Margin 50.00%"):
        assert text in said
    anna.go(f"/c/{lot}/sell").page.get_by_label("Pieces").fill("5")
    until(lambda: anna.page.get_by_label("Price", exact=True).input_value() == "50", what="the price of the pieces")
    anna.page.get_by_label("Price", exact=True).fill("52")
    anna.button("Record the sale").click()
    anna.at(f"/c/{lot}").shows("1 of 10 left").sent()
    card = anna.table.card(lot)
    assert (card["left"], card["own"]["moves"][-1]["cents"], card["own"]["moves"][-1]["gain"]) == (1, 5_200, 2_700)


def test_a_helper_composes_a_deal_and_sees_no_cost(open_screen, phone):
    screen = open_screen(phone).pair("helper").go("/deal")
    find(screen, DRAPED, CLASSIC)
    expect(screen.page.get_by_text("what it cost")).to_have_count(0)
    screen.page.get_by_label("Price of Half cent, Draped Bust").fill("1")
    screen.button("Record the sale").click()
    screen.page.wait_for_url("**/receipt/*")
    screen.sent()
    assert screen.table.card(DRAPED)["own"]["sale"]["price"] == 100
