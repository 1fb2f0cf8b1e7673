"""The dealer's question on the coin's card: how far can the price come down?"""

import pytest
from playwright.sync_api import expect
from screens.conftest import CLASSIC, DRAPED
from support import browser as browsers

pytestmark = pytest.mark.browser


def test_the_card_answers_offline_how_far_the_price_can_come_down(anna):
    """Cost 60.00 + 4.50, ask 120.00, floor 90.00: by hand."""
    anna.go(f"/c/{DRAPED}")
    anna.page.wait_for_load_state("networkidle")
    with browsers.offline(anna.context):
        anna.go(f"/c/{DRAPED}").button("Show what it cost").click()
        anna.shows("Down to break even")
        said = anna.page.locator(".bargain").inner_text().replace("\n", " ")
        for text in ("Gain at the ask +$55.50", "Margin 46.25%", "Markup 86.05%", "Break-even price $64.50",
                     "Down to break even 46.2%", "Down to the floor 25.0%"):  # fmt: skip
            assert text in said
        anna.page.get_by_text("Cost lines").click()
        anna.shows("$60.00").shows("$4.50")


def test_an_offer_tells_its_gain_and_margin_and_that_it_is_below_the_floor(anna):
    anna.go(f"/c/{DRAPED}").button("Show what it cost").click()
    slider = anna.page.get_by_label("Offer")
    slider.fill("8000")
    anna.shows("Below the floor of $90.00.").shows("33.3%").shows("+$15.50").shows("19.38%")
    slider.fill("6000")
    anna.shows("−$4.50").shows("−7.50%")


def test_a_coin_without_a_floor_says_nothing_of_one(anna):
    anna.go(f"/c/{CLASSIC}").button("Show what it cost").click()
    anna.shows("Down to break even")
    expect(anna.page.get_by_text("Down to the floor")).to_have_count(0)
