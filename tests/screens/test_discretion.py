"""Pairing, and what a screen shows to whom."""

import pytest
from playwright.sync_api import expect
from screens.conftest import DRAPED
from support import browser as browsers

pytestmark = pytest.mark.browser
IPHONE = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Mobile/15E148 Safari/604.1"


def test_the_pairing_code_leaves_the_address_bar_at_once(open_screen, phone, table):
    screen = open_screen(phone)
    screen.page.goto(f"{table.desk.address}/#pair={table.code()}")
    screen.button("Pair this phone").wait_for()
    assert "#" not in screen.page.url


def test_a_pairing_link_works_in_a_tab_where_the_app_is_open_already(open_screen, phone, table):
    screen = open_screen(phone)
    screen.page.goto(table.desk.address)
    screen.button("Scan the pairing code").wait_for()
    screen.pair()


def test_a_typed_code_that_is_wrong_is_told_beside_its_field(open_screen, phone, table):
    screen = open_screen(phone)
    screen.page.goto(table.desk.address)
    screen.page.get_by_label("or type it").fill("AAAA AAAA")
    screen.button("Pair this phone").click()
    screen.shows("not one that the desk gave out")
    expect(screen.page.get_by_label("or type it")).to_have_value("AAAA AAAA")


def test_an_iphone_tab_is_told_to_go_to_the_home_screen_first(open_screen, browser, table):
    context = browser.new_context(**(browsers.PHONE | {"user_agent": IPHONE}))
    screen = open_screen(context)
    screen.page.goto(table.desk.address)
    screen.shows("Put it on the home screen first").shows("after a week without use")
    context.close()


SECRETS = ("$64.50", "$90.00", "$55.50", "46.2%")


def bare(screen):
    screen.shows("$120.00").button("Show what it cost").wait_for()
    return [text for text in SECRETS if screen.page.get_by_text(text).count()]


def uncovered(screen):
    screen.go(f"/c/{DRAPED}")
    assert bare(screen) == []
    screen.button("Show what it cost").click()
    for text in SECRETS:
        screen.shows(text)


def test_what_a_coin_cost_shows_after_a_press_and_hides_by_itself(anna):
    anna.go("/").page.clock.install()
    uncovered(anna)
    anna.page.clock.fast_forward(21_000)
    assert bare(anna) == []


def test_what_a_coin_cost_hides_at_a_second_press_on_leaving_and_after_a_reload(anna):
    uncovered(anna)
    anna.button("Hide what it cost").click()
    assert bare(anna) == []
    anna.button("Show what it cost").click()
    anna.shows("$64.50").link("Sell").click()
    anna.at(f"/c/{DRAPED}/sell").button("Show what it cost").wait_for()
    assert anna.page.get_by_text("Gain over cost").count() == 0
    anna.page.go_back()
    assert bare(anna) == []
    uncovered(anna)
    anna.page.reload()
    assert bare(anna) == []


def test_what_a_coin_cost_hides_when_the_app_goes_to_the_background(anna):
    uncovered(anna)
    anna.page.evaluate("""() => { Object.defineProperty(document, 'hidden', {get: () => true, configurable: true});
        document.dispatchEvent(new Event('visibilitychange')) }""")
    assert bare(anna) == []


def test_a_helper_sees_no_cost_floor_history_or_want(open_screen, phone):
    screen = open_screen(phone).pair("helper").go(f"/c/{DRAPED}").shows("$120.00")
    for text in ("$64.50", "$60.00", "$90.00", "Ines Calloway", "Show what it cost"):
        assert screen.page.get_by_text(text).count() == 0
    screen.go("/wants").shows("Wants stay with the owner")


def test_unpairing_takes_the_book_off_the_phone(anna):
    anna.go("/more/leave").button("Unpair this phone").click()
    anna.button("Pair this phone", exact=True).wait_for()
    anna.page.goto(f"{anna.table.desk.address}/c/{DRAPED}")
    anna.button("Pair this phone", exact=True).wait_for()
    assert anna.page.get_by_text("Draped Bust").count() == 0


def test_unpairing_with_entries_that_wait_has_to_be_meant(anna):
    with browsers.offline(anna.context):
        anna.go(f"/c/{DRAPED}/sell").button("Record the sale").click()
        anna.at(f"/c/{DRAPED}").waits(1).go("/more/leave").shows("1 entry was not sent")
        expect(anna.button("Unpair this phone")).to_be_disabled()
