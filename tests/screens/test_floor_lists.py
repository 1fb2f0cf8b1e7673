"""Wants, sightings, contacts and sets on the phone, with no network: noted in a few seconds, found again, bought from."""

import json

import pytest
from playwright.sync_api import expect
from screens.conftest import BLANK, CLASSIC, DRAPED, SHOW, WANT
from support import browser as browsers

pytestmark = pytest.mark.browser

GOAL = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
SLOTS = [{"key": "d", "title": "Draped Bust", "types": ["half-cent/draped-bust"], "grade_from": "F-12", "grade_to": "EF-40"},
         {"key": "b", "title": "Braided Hair", "types": ["half-cent/braided-hair"], "grade_from": "VF-20"}]  # fmt: skip


@pytest.fixture
def table(table):
    with table.book.connected():
        table.book.act("set.add", {"goal": GOAL, "set": {"name": "Half cents by type", "slots": SLOTS}})
    return table


def at_the_show(screen):
    screen.go("/more/shows").page.get_by_label("Larkmoor Coin Days").check()
    return screen


def fill(screen, **fields):
    for label, value in fields.items():
        screen.page.get_by_label(label.replace("_", " "), exact=True).fill(value)


def choose(screen, picker, option):
    screen.button(picker).first.click()
    screen.page.get_by_role("dialog").get_by_role("button", name=option).first.click()
    screen.page.get_by_role("dialog").wait_for(state="detached")


def test_a_day_among_the_tables(anna):
    at_the_show(anna)
    with browsers.offline(anna.context):
        anna.go("/contacts/new")
        fill(anna, Name="Ines Calloway", Table="14")
        anna.button("Keep the contact").click()
        anna.shows("is among the contacts")
        # A want is reached in two taps, and from it what is seen is noted with the want's own type.
        anna.link("Wants", exact=True).click()
        anna.link("Half cent, Braided Hair").click()
        anna.at(f"/wants/{WANT}").shows("None of this type in your stock.").button("Seen here").click()
        anna.at("/seen/new").shows("For the want")
        fill(anna, Price_asked="145", Date="1851", Dealer="Ines Calloway")
        anna.page.get_by_label("Dealer", exact=True).blur()
        expect(anna.page.get_by_label("Table", exact=True)).to_have_value("14")
        anna.button("Note it").click()
        anna.at("/seen").shows("Noted at Ines Calloway").waits(2)
        # Another coin of the same table; who and where stand there already.
        anna.link("Note a sighting").click()
        choose(anna, "Type", "Half cent, Classic Head")
        anna.shows("You have 1 coin of this type")
        expect(anna.page.get_by_label("Dealer", exact=True)).to_have_value("Ines Calloway")
        fill(anna, Price_asked="80")
        anna.button("Note it").click()
        anna.at("/seen").shows("2 coins seen")
        anna.page.get_by_label("Dealer, table or coin").fill("braided")
        anna.shows("1 coin seen")
        # At the wants, what was seen near comes with its price; the ceiling stays hidden until the press.
        anna.go("/wants").page.get_by_text("Seen near").click()
        anna.shows("Ines Calloway, table 14").shows("$145")
        assert not anna.page.get_by_text("$150").count()
        anna.button("Show the ceilings").click()
        anna.shows("$150")
        # From the sighting on to the purchase, its values filled in.
        anna.go("/seen").link("Half cent, Braided Hair").click()
        anna.button("Buy it").click()
        anna.at("/buy").shows("Fills the want")
        for label, value in {"Date": "1851", "Price": "145", "From": "Ines Calloway"}.items():
            expect(anna.page.get_by_label(label, exact=True).first).to_have_value(value)
        anna.button("Record the purchase").click()
        anna.shows("Bought for $145.00")
        anna.go("/wants").shows("Nothing is wanted yet")
        anna.go("/contacts").link("Ines Calloway").click()
        anna.shows("waits to be sent").shows("Half cent, Classic Head")
    anna.sent()
    with anna.table.book.connected():
        from exergue.records import reading

        (contact,) = reading.contacts()
        seen = {one["type"]: one for one in reading.sightings()}
        assert anna.table.book.card("contact", contact["id"])["own"]["deals"][0]["cents"] == 14_500
        braided, classic = seen["half-cent/braided-hair"], seen["half-cent/classic-head"]
        assert (braided["own"]["want"], braided["contact"], braided["show"], braided["ask"], braided["year"]) == (WANT, contact["id"], SHOW, 14_500, 1851)
        assert (classic["own"]["want"], classic["table"], classic["ask"]) == (None, "14", 8_000)


def test_own_or_better_of_a_label_that_the_book_does_not_know(anna):
    with browsers.offline(anna.context):
        anna.go(f"/c/{BLANK}").button("Have I one as good?").click()
        anna.page.get_by_label("Filter types").fill("draped half cent")
        anna.page.get_by_role("dialog").get_by_role("button", name="Half cent, Draped Bust").click()
        anna.shows("You have 1 coin of this type, VF-20 at best.")
        assert not anna.page.get_by_text("$64.50").count()
        anna.button("Show what they cost").click()
        anna.shows("$64.50")
        anna.button("Record a purchase of it").click()
        anna.at(f"/c/{BLANK}/buy").shows("You have 1 coin of this type")
        fill(anna, Mint_mark="")
        anna.page.get_by_label("Date", exact=True).first.fill("1806")
        anna.shows("1 coin of this date and mint")


def test_a_board_says_what_fills_a_slot_and_what_would(anna):
    with browsers.offline(anna.context):
        anna.go("/sets").link("Half cents by type").click()
        anna.at(f"/sets/{GOAL}").button("Draped Bust").click()
        sheet = anna.page.get_by_role("dialog")
        sheet.get_by_text("What fills it").wait_for()
        sheet.locator(f'a[href="/c/{DRAPED}"]').wait_for()
        sheet.get_by_text("better from").wait_for()
        sheet.get_by_label("Close").click()
        anna.button("Braided Hair").click()
        sheet.get_by_role("button", name="Put it on the want list").click()
        anna.at("/wants/new").shows("For the slot Braided Hair")
        anna.button("Another type will do, too").click()
        sheet.get_by_role("button", name="Half cent, Classic Head").click()
        fill(anna, Ceiling="160")
        anna.button("Put it on the list").click()
        anna.shows("It is on the want list").shows("Any of these serves").waits(1)
        anna.go(f"/sets/{GOAL}").button("Braided Hair").get_by_text("wanted").wait_for()
        anna.shows("As the desk worked it out")
        sold = json.dumps({"coin": DRAPED, "price": 9_000, "date": "2026-03-15"})
        anna.page.evaluate(f"import('/web/engine/engine.js').then(({{engine}}) => engine.record('sale', {sold}))")
        anna.button("Draped Bust").get_by_text("open").wait_for()
        anna.shows("With what this phone has entered")
    anna.sent()
    anna.shows("As the desk worked it out")
    anna.button("Draped Bust").get_by_text("open").wait_for()
    with anna.table.book.connected():
        from exergue.records import reading

        (made,) = [one for one in reading.wants() if one.get("goal")]
    assert (made["slot"], made["types"], made["own"]["ceiling"]) == ("b", ["half-cent/braided-hair", "half-cent/classic-head"], 16_000)


def test_a_refused_sighting_opens_in_its_form_and_a_contact_is_offered_in_a_deal(anna):
    with browsers.offline(anna.context):
        anna.page.evaluate("""import('/web/engine/engine.js').then(({engine}) => Promise.all([
            engine.record('contact.add', {contact: '0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c44', set: {name: 'Ines Calloway'}}),
            engine.record('sighting.add', {sighting: '0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c55', set: {type: 'half-cent/no-such', table: '9', ask: 5000, date: '2026-03-14'}})]))""")
        offered = anna.go(f"/c/{CLASSIC}/sell").page.locator("#l-party option")
        offered.first.wait_for(state="attached")
        assert offered.evaluate_all("(all) => all.map((one) => one.value)") == ["Ines Calloway"]
    anna.sent()
    anna.go("/entries").button("Edit").click()
    anna.at("/seen/new").shows("Refused by the desk")
    expect(anna.page.get_by_label("Table", exact=True)).to_have_value("9")
    choose(anna, "Type", "Half cent, Classic Head")
    anna.button("Note it").click()
    anna.at("/seen")
    anna.sent()
    with anna.table.book.connected():
        from exergue.records import reading

        (seen,) = reading.sightings()
    assert (seen["type"], seen["ask"], seen["table"]) == ("half-cent/classic-head", 5_000, "9")
