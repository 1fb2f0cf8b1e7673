"""The catalogue on the phone, with no network: a series as a timeline, a type's page."""

import pytest
from playwright.sync_api import expect
from screens.conftest import WANT
from support import browser as browsers

from exergue.coins import catalogue

pytestmark = pytest.mark.browser
KNOWN = catalogue.load()


def test_a_series_is_drawn_in_the_order_of_its_years_with_what_is_owned_and_leads_to_its_types(anna):
    with browsers.offline(anna.context):
        anna.go("/types")
        anna.link("Half cent").click()
        anna.at("/types/half-cent").shows("2 of them in your stock")
        rows = anna.page.locator(".timeline li")
        names = [name.split("\n")[0] for name in rows.locator(".who b").all_inner_texts()]
        assert names == [t.name for t in sorted(KNOWN.of("half-cent"), key=lambda t: t.years[0])]
        expect(rows.filter(has_text="Draped Bust").locator("circle.held")).to_have_count(1)
        expect(rows.filter(has_text="Braided Hair").locator("rect.proof").first).to_be_attached()
        expect(rows.filter(has_text="Liberty Cap, facing left").locator("circle.held")).to_have_count(0)
        rows.filter(has_text="Draped Bust").get_by_role("link").click()
        anna.at("/types/half-cent/draped-bust").shows("1 coin in your stock")


def test_each_bar_of_a_timeline_stands_where_its_years_are(anna):
    anna.go("/types/half-cent")
    boxes = anna.page.evaluate("""() => Object.fromEntries([...document.querySelectorAll('.timeline li')].map((row) => {
      const track = row.querySelector('.track').getBoundingClientRect();
      return [row.querySelector('b').textContent, [...row.querySelectorAll('rect')].map((bar) => {
        const box = bar.getBoundingClientRect();
        return [(box.left - track.left) / track.width, (box.right - track.left) / track.width];
      })];
    }))""")
    # Half cents run from 1793 to 1857: 65 years. Draped Bust: 1800, and 1802 to 1808.
    drawn = [[1793 + 65 * edge for edge in bar] for bar in boxes["Draped Bust"]]
    assert drawn == [pytest.approx([1800, 1801], abs=0.1), pytest.approx([1802, 1809], abs=0.1)]


def test_a_types_page_tells_its_looks_its_dates_and_the_wants_that_it_serves(anna):
    with browsers.offline(anna.context):
        anna.go("/types/half-cent/braided-hair").shows("None in your stock")
        anna.shows("Proofs only: 1840–1848, 1852")
        known = KNOWN.type("half-cent/braided-hair")
        text = anna.page.locator(".pane.place").inner_text()
        assert all(look.fits in text for look in known.looks)
        assert all(str(year) in text for year in known.years)
        anna.page.locator(f"a[href='/wants/{WANT}']").click()
        anna.at(f"/wants/{WANT}")


def test_a_type_that_nobody_knows_is_told_so(anna):
    anna.go("/types/half-cent/no-such").shows("The catalogue has no such type.")
    anna.go("/types/no-such").shows("The catalogue has no types of this denomination.")
