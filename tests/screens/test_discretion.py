"""Pairing, and what a screen shows to whom."""

import pytest
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
    assert screen.page.get_by_label("or type it").input_value() == "AAAA AAAA"


def test_an_iphone_tab_is_told_to_go_to_the_home_screen_first(open_screen, browser, table):
    context = browser.new_context(**(browsers.PHONE | {"user_agent": IPHONE}))
    screen = open_screen(context)
    screen.page.goto(table.desk.address)
    screen.shows("Put it on the home screen first").shows("after a week without use")
    context.close()


def test_hidden_cost_stays_hidden_over_a_reload(anna):
    anna.go(f"/c/{DRAPED}").shows("$64.50")
    anna.button("Hide cost").click()
    anna.page.get_by_text("$64.50").first.wait_for(state="detached")
    anna.go(f"/c/{DRAPED}").shows("$120.00")
    assert anna.page.get_by_text("$64.50").count() == 0
    assert anna.page.get_by_text("$90.00").count() == 0


def test_a_helper_sees_no_cost_floor_history_or_want(open_screen, phone):
    screen = open_screen(phone).pair("helper").go(f"/c/{DRAPED}").shows("$120.00")
    for text in ("$64.50", "$60.00", "$90.00", "Ines Calloway", "Hide cost"):
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
        assert anna.button("Unpair this phone").is_disabled()
