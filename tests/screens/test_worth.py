"""Worth on the owner's phone, with no network; nothing of it on a helper's."""

import re
from datetime import date, timedelta

import pytest
from playwright.sync_api import expect
from screens.conftest import CLASSIC, DRAPED, WANT
from support.waiting import until

pytestmark = pytest.mark.browser
HELD = "import('/web/engine/db.js').then(({get}) => get('meta', 'worth')).then((found) => Boolean(found))"


@pytest.fixture
def known(table):
    """Recorded sales of the draped bust half cent."""
    day = (date.today() - timedelta(days=95)).isoformat()
    rows = [("F-12", 9_000), ("VF-20", 15_000), ("VF-20", 16_000), ("VF-30", 21_000), ("EF-40", 33_000)]
    with table.book.connected():
        table.book.act_all([("sale.seen", {"set": {"date": day, "price": cents, "denom": "half-cent", "year": 1806, "grade": grade,
                             "type": "half-cent/draped-bust", "fee_included": True}}) for grade, cents in rows])  # fmt: skip


def test_the_owner_reads_a_coins_worth_offline(known, anna, phone):
    until(lambda: anna.page.evaluate(HELD), what="the estimates to come")
    phone.set_offline(True)
    anna.go(f"/c/{DRAPED}")
    panel = anna.page.locator(".worth-panel")
    panel.get_by_text("Shows and hides together with what it cost.").wait_for()  # a customer may look on
    assert panel.locator("svg, .money").count() == 0 and anna.page.get_by_text("Rests on").count() == 0
    anna.button("Show what it cost").click()
    panel.get_by_text("Rests on 5 sales, the newest 3 months old.").wait_for()
    expect(panel.locator("svg.curve .here")).to_have_count(1)
    expect(panel.locator("svg.curve")).to_have_attribute("aria-label", re.compile(r"Its cost, \$64\.50, is marked\."))
    anna.go(f"/c/{CLASSIC}").button("Show what it cost").click()
    anna.shows("No evidence: no sale of this type is recorded.")


def test_a_want_shows_the_desks_ceiling(known, anna, phone):
    until(lambda: anna.page.evaluate(HELD), what="the estimates to come")
    phone.set_offline(True)
    anna.go(f"/wants/{WANT}").shows("Hidden from a seller who looks on")
    assert anna.page.get_by_text("$150").count() == 0 and anna.page.locator(".worth-panel").count() == 0
    anna.button("Show the ceiling").click()
    anna.shows("No evidence, so no ceiling.").shows("$150.00")
    anna.page.go_back()
    anna.go("/wants").button("Show the ceilings").wait_for()
    expect(anna.page.get_by_text("$150")).to_have_count(0)
    anna.button("Show the ceilings").click()
    anna.shows("$150")


def test_a_helper_has_no_estimates(known, open_screen, phone):
    ben = open_screen(phone).pair("helper")
    ben.go(f"/c/{DRAPED}").sent()
    assert ben.page.locator(".worth-panel").count() == 0 and ben.button("Show what it cost").count() == 0
    assert ben.page.evaluate(HELD) is False
