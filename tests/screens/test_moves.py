"""What is done with a coin besides a sale, from its card, with no network; and sent to the desk."""

import json
import re

import pytest
from playwright.sync_api import expect
from screens.conftest import CLASSIC, DRAPED, EAGLE
from support import browser as browsers
from support.waiting import until

from exergue.labels import ids

pytestmark = pytest.mark.browser
ENGINE = "import('/web/engine/engine.js').then(async ({engine}) => JSON.stringify((await (%s)) ?? null))"
DAY = {"date": "2026-03-20"}


def run(screen, expression):
    return json.loads(screen.page.evaluate(ENGINE % expression))


def more(screen, words):
    screen.button("More").last.click()
    screen.page.get_by_role("dialog").get_by_role("button", name=words).click()
    return screen


def segment(screen, words):
    screen.page.get_by_role("radio", name=words, exact=True).check(force=True)


def last(screen, kind):
    return next(one["fact"] for one in run(screen, "engine.entries()") if one["fact"]["kind"] == kind)


def test_a_day_of_moves_offline_reaches_the_desk(anna):
    card = anna.table.card
    with browsers.offline(anna.context):
        anna.go(f"/c/{DRAPED}")
        more(anna, "Send it away").at(f"/c/{DRAPED}/away").button("Another coin goes along").click()
        anna.page.get_by_role("dialog").get_by_role("button", name="Classic Head").click()
        anna.page.get_by_label("With", exact=True).fill("The graders")
        anna.button("Record that it is away").click()
        anna.at(f"/c/{DRAPED}").shows("2 coins are at grading.").shows("At grading").shows("The graders").waits(1)

        more(anna, "Add a later cost").page.get_by_label("Amount", exact=True).fill("35")
        segment(anna, "Card")
        anna.button("Record the cost").click()
        anna.at(f"/c/{DRAPED}").shows("$35.00 recorded for this coin.")

        anna.link("Back", exact=True).click()
        anna.button("Another coin with it").click()
        anna.page.get_by_role("dialog").get_by_role("button", name="Classic Head").click()
        anna.button("It is back").click()
        anna.at(f"/c/{DRAPED}").shows("In stock").waits(3)

        more(anna, "Out on memo").page.get_by_label("With", exact=True).fill("Orla Penhale")
        anna.button("Record that it is out").click()
        anna.shows("Give what you are to have when it is sold.").page.get_by_label("Net to you").fill("100")
        anna.page.get_by_label("Back by").fill("2099-12-31")
        anna.button("Record that it is out").click()
        anna.at(f"/c/{DRAPED}").shows("On memo").shows("Orla Penhale").shows("Dec 31, 2099")

        anna.go(f"/c/{CLASSIC}")
        more(anna, "Hold it otherwise")
        anna.button("Record it").click()
        anna.at(f"/c/{CLASSIC}").shows("Personal, not for sale")
        more(anna, "Missing, lost or stolen")
        segment(anna, "Stolen")
        anna.page.get_by_label("Reimbursed").fill("50")
        anna.button("Record the loss").click()
        anna.at(f"/c/{CLASSIC}").shows("Missing").link("Found", exact=True).wait_for()
        anna.button("Void").click()  # the existing undo
        anna.shows("In stock")

        anna.go("/memo-in").page.get_by_label("In words").fill("Gold dollar")
        theirs = re.sub(r"\W", "", anna.page.locator(".slip-id .id").inner_text())
        anna.page.get_by_label("With", exact=True).fill("R. Holt")
        anna.page.get_by_label("Net to its owner").fill("70")
        anna.button("Take it in").click()
        anna.at(f"/c/{theirs}").shows("On consignment").shows("(not our stock)")
        anna.page.locator(".sync", has_text="to send").first.wait_for()
    anna.sent()
    assert run(anna, "engine.state.refused") == 0
    assert (card(DRAPED)["state"], card(DRAPED)["own"]["cost"]) == ("on memo", 6_450 + 3_500)
    assert (card(CLASSIC)["state"], card(CLASSIC)["own"]["held"]) == ("in stock", "personal")
    assert (card(theirs)["state"], card(theirs)["theirs"]) == ("on consignment", True)


def test_some_coins_of_a_sale_made_at_the_desk_are_returned(anna, table):
    with table.book.connected():
        table.book.act_all([("ticket", {"sold": [{"coin": DRAPED, "price": 11_000}, {"coin": EAGLE, "price": 80_000}], "price": 91_000,
                                        "tax": {"rate": "5", "cents": 4_550}, "to": "A. Marsh", **DAY})])  # fmt: skip
    run(anna, "engine.sync()")
    with browsers.offline(anna.context):
        anna.go(f"/c/{DRAPED}").link("Record its return").click()
        refund = anna.page.get_by_label("Refund", exact=True)
        until(lambda: refund.input_value() == "910", what="the whole sale to be proposed")
        anna.page.get_by_role("checkbox", name="Ten dollars").uncheck()
        until(lambda: refund.input_value() == "110", what="the price of what comes back")
        refund.fill("200")
        anna.button("Record the return").click()
        anna.shows("They were sold for $110.00").page.get_by_label("Refund", exact=True).fill("110")
        anna.page.get_by_label("Sales tax given back").fill("5.50")
        segment(anna, "Cash")
        anna.button("Record the return").click()
        anna.at(f"/c/{DRAPED}").shows("In stock").shows("Returned by the buyer").waits(1)
        expect(anna.link("Record its return")).to_have_count(0)
        anna.go("/").page.get_by_text("Draped Bust").first.wait_for()  # the list of what is in stock
    anna.sent()
    assert (table.card(DRAPED)["state"], table.card(EAGLE)["state"]) == ("in stock", "sold")
    said = last(anna, "return")["body"]
    assert (said["coins"], said["refund"], said["tax"], said["payments"]) == ([DRAPED], 11_000, 550, [{"how": "cash", "cents": 11_550}])


def test_a_helper_returns_a_sale_of_this_phone_and_is_offered_nothing_of_the_owners(open_screen, phone):
    ben = open_screen(phone).pair("helper").go(f"/c/{DRAPED}")
    ben.button("More").last.click()
    words = ben.page.get_by_role("dialog").locator("button").all_inner_texts()
    assert any("Send it away" in one for one in words) and not any(re.search("cost|memo|otherwise|floor", one) for one in words)
    for form in ("cost", "memo", "held"):
        ben.go(f"/c/{DRAPED}/{form}").shows("Only the owner may enter this.")
    ben.go(f"/c/{DRAPED}/sell").button("Record the sale").click()
    ben.at(f"/c/{DRAPED}").sent()
    ben.go(f"/c/{DRAPED}").link("Return", exact=True).click()
    until(lambda: ben.page.get_by_label("Refund", exact=True).input_value() == "120", what="what it was sold for")
    ben.button("Record the return").click()
    ben.at(f"/c/{DRAPED}").shows("In stock").sent()
    assert ben.table.card(DRAPED)["state"] == "in stock"


def entries(coin, other):
    """One entry of each kind about a coin that the desk does not know: (its words, its body, form, field, value)."""
    return {
        "cost": ({"coins": [{"coin": coin}], "costs": [{"what": "insurance", "cents": 350}], "from": "The carrier"}, "cost", "Amount", "3.50"),
        "away": ({"coins": [coin, other], "why": "display", "with": "The museum"}, "away", "With", "The museum"),
        "memo": ({"way": "out", "kind": "memo", "coins": [{"coin": coin, "net": 4_200}], "with": "R. Holt"}, "memo", "Net to you", "42"),
        "lost": ({"coin": coin, "how": "stolen", "reimbursed": 900}, "lost", "Reimbursed", "9"),
        "withdrawn": ({"coins": [coin], "to": "investment", "note": "For later"}, "held", "Note", "For later"),
        "back": ({"coins": [coin], "note": "By post"}, "back", "Note", "By post"),
    }


def test_each_refused_entry_opens_in_its_own_form_filled_in(anna):
    """They are about a coin that the book learns of only later, so that the desk refuses each."""
    coin = ids.new_id()
    made = {kind: run(anna, f"engine.record('{kind}', {json.dumps(body | DAY)})") for kind, (body, *_) in entries(coin, DRAPED).items()}
    anna.sent()
    assert {one["state"] for one in run(anna, "engine.entries()")} == {"refused"}
    with anna.table.book.connected():
        anna.table.book.act("purchase", anna.table.bought(coin, 1806, "draped-bust"))
    run(anna, "engine.sync()")
    for kind, (_, form, field, value) in entries(coin, DRAPED).items():
        anna.go("/entries").page.locator(f"#e-{made[kind]['id']}").get_by_role("button", name="Edit").click()
        anna.at(f"/c/{coin}/{form}").shows("Refused by the desk.")
        until(lambda field=field, value=value: anna.page.get_by_label(field, exact=True).input_value() == value, what=f"{field} to be filled in")
        expect(anna.page.get_by_label("Date", exact=True)).to_have_value(DAY["date"])
    anna.go("/entries").page.locator(f"#e-{made['away']['id']}").get_by_role("button", name="Edit").click()
    anna.button("Record that it is away").click()
    anna.at(f"/c/{coin}").sent()
    assert (anna.table.card(coin)["state"], anna.table.card(DRAPED)["state"]) == ("away", "away")
    assert next(one for one in run(anna, "engine.entries()") if one["fact"]["id"] == made["away"]["id"])["state"] == "dropped"


def test_a_refused_return_and_somebodys_coin_are_filled_in(anna, table):
    coin = ids.new_id()
    sold = {"coin": DRAPED, "price": 11_000, "payment": "cash", **DAY}
    run(anna, f"engine.record('sale', {json.dumps(sold)})")
    back = {"of": last(anna, "sale")["id"], "coins": [DRAPED], "refund": 20_000, "costs": [{"what": "shipping", "cents": 850}], **DAY}
    lent = {"way": "in", "kind": "memo", "coins": [{"coin": coin, "set": {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1801},
                                                    "net": 4_200}], "with": "R. Holt", "due": "2026-04-20", **DAY}  # fmt: skip
    made = {kind: run(anna, f"engine.record('{kind}', {json.dumps(body)})") for kind, body in (("return", back), ("memo", lent))}
    anna.sent()
    assert run(anna, "engine.state.refused") == 2  # more than the price; none were struck in 1801
    expected = [("return", f"/c/{DRAPED}/return/{back['of']}", {"Refund": "200", "Shipping": "8.50"}),
                ("memo", f"/c/{coin}/memo-in", {"Net to its owner": "42", "With": "R. Holt", "Back by": "2026-04-20"})]  # fmt: skip
    for kind, form, fields in expected:
        anna.go("/entries").page.locator(f"#e-{made[kind]['id']}").get_by_role("button", name="Edit").click()
        anna.at(form).shows("Refused by the desk.")
        for name, value in fields.items():
            until(lambda name=name, value=value: anna.page.get_by_label(name, exact=True).input_value() == value, what=f"{name} to be filled in")
    anna.page.get_by_label("Date", exact=True).first.fill("1806")
    anna.button("Take it in").click()
    anna.at(f"/c/{coin}").sent()
    assert (table.card(coin)["state"], table.card(coin)["theirs"]) == ("on memo", True)
