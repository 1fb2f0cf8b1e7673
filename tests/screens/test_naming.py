"""Naming the coin in the hand on the phone, with no network."""

import pytest
from playwright.sync_api import expect
from screens.conftest import BLANK, DRAPED, WANT
from support import browser as browsers
from support.waiting import until

from exergue.coins import catalogue
from exergue.records import reading

pytestmark = pytest.mark.browser
KNOWN = catalogue.load()


def first(screen):
    return screen.page.locator(".likely li").first.inner_text()


def answer(screen, feature, words):
    """Take a question from the list of those that are open, and answer it."""
    screen.button("Answer another").click()
    sheet = screen.page.get_by_role("dialog")
    sheet.get_by_role("button", name=KNOWN.features[feature].name).first.click()
    screen.page.locator("#asked", has_text=KNOWN.features[feature].name).wait_for()
    if screen.page.get_by_role("button", name="Another of").count():
        screen.page.get_by_role("button", name="Another of").click()
    screen.page.locator(".answer", has_text=words).first.click()


def denomination(screen, name):
    screen.button("Answer another").click()
    screen.page.get_by_role("dialog").get_by_role("button", name="Denomination").click()
    screen.page.get_by_role("dialog").get_by_role("button", name=name, exact=True).click()


def test_a_coin_is_named_compared_with_the_stock_and_recorded_as_a_purchase_of_that_type(anna):
    with browsers.offline(anna.context):
        anna.go("/types").link("Name a coin in the hand").click()
        anna.at("/name")
        denomination(anna, "Half cent")
        until(lambda: "Half cent" in first(anna), what="the half cents to lead")
        answer(anna, "facing", KNOWN.features["facing"].values["right"])
        until(lambda: anna.page.locator(".chip.on").count() == 2, what="the answer to stand")
        answer(anna, "headgear", KNOWN.features["headgear"].values["bare"])
        until(lambda: "Draped Bust" in first(anna), what="the type to lead")
        anna.page.locator(".likely button").first.click()
        sheet = anna.page.get_by_role("dialog")
        sheet.get_by_role("heading", name="Half cent, Draped Bust").wait_for()
        sheet.locator(f"a[href='/c/{DRAPED}']", has_text="VF-20").wait_for()
        sheet.get_by_role("button", name="Record it as a purchase").click()
        anna.at("/buy")
        anna.page.locator(".picker", has_text="Half cent, Draped Bust").wait_for()


def test_a_named_coin_is_bought_for_the_want_that_it_serves(anna):
    with browsers.offline(anna.context):
        anna.go("/name")
        denomination(anna, "Half cent")
        answer(anna, "headgear", KNOWN.features["headgear"].values["coronet"])
        anna.page.locator(".likely button", has_text="Braided Hair").first.click()
        sheet = anna.page.get_by_role("dialog")
        sheet.get_by_role("heading", name="Wants that it serves").wait_for()
        sheet.get_by_role("button", name="Buy it for this").click()
        anna.at("/buy").shows("Fills the want")
        anna.page.get_by_label("Date", exact=True).first.fill("1851")
        anna.page.get_by_label("Price", exact=True).fill("170")
        anna.shows("it is over the ceiling")
        expect(anna.page.get_by_text("$150")).to_have_count(0)  # the seller looks on
        anna.button("Show the ceiling").click()
        anna.shows("$20.00 over the ceiling").shows("up to $150.00")
        anna.page.get_by_label("Price", exact=True).fill("120")
        until(lambda: not anna.page.locator(".fills li").count(), what="nothing to depart from the want")
        anna.button("Record the purchase").click()
        anna.shows("Bought for $120.00 all in")
        anna.go("/wants").shows("Nothing is wanted yet").waits(1)
    anna.sent()
    with anna.table.book.connected():
        assert [one["id"] for one in reading.found_wants()] == [WANT] and reading.wants() == []


def test_a_purchase_of_a_wanted_type_offers_to_fill_the_want_and_may_leave_it_open(anna):
    anna.go(f"/wants/{WANT}").button("Buy it").click()
    anna.at("/buy").shows("Fills the want")
    anna.button("Leave the want open").click()
    anna.button("Fill the want, VF-20 or better").wait_for()
    anna.page.get_by_label("Price", exact=True).fill("120")
    anna.button("Record the purchase").click()
    anna.shows("Bought for $120.00 all in")
    anna.sent()
    with anna.table.book.connected():
        assert [one["id"] for one in reading.wants()] == [WANT]


def test_what_cannot_be_told_is_not_asked_again_and_answers_outlive_a_look_elsewhere(anna):
    anna.go("/name")
    asked = anna.page.locator("#asked").inner_text()
    anna.button("Cannot tell").click()
    until(lambda: anna.page.locator("#asked").inner_text() != asked, what="another question")
    anna.go("/more").go("/name")
    expect(anna.page.locator(".chip.on")).to_have_text(f"{asked}: cannot tell")
    expect(anna.page.locator("#asked")).not_to_have_text(asked)


def test_an_answer_can_be_taken_back(anna):
    anna.go("/name")
    denomination(anna, "Half cent")
    until(lambda: "Half cent" in first(anna), what="the half cents to lead")
    answer(anna, "facing", KNOWN.features["facing"].values["left"])
    anna.page.locator(".chip.on", has_text="left").click()
    until(lambda: anna.page.locator(".chip.on").count() == 1, what="the answer to go")
    anna.button("Start over").click()
    until(lambda: anna.page.locator(".chip.on").count() == 0, what="all answers to go")


def test_a_weight_that_the_law_does_not_allow_is_said_plainly_with_the_caution(anna):
    anna.go("/name")
    denomination(anna, "Half cent")
    answer(anna, "facing", KNOWN.features["facing"].values["right"])
    answer(anna, "headgear", KNOWN.features["headgear"].values["bare"])
    anna.button("Answer another").click()
    anna.page.get_by_role("dialog").get_by_role("button", name="Weight").first.click()
    anna.page.get_by_role("textbox", name="Weight").fill("3.60")
    anna.button("Use it").click()
    anna.page.locator(".likely button", has_text="Draped Bust").first.click()
    warning = anna.page.get_by_role("dialog").get_by_role("alert")
    warning.wait_for()
    expect(warning).to_contain_text("under the lawful 5.44 g")
    expect(warning).to_contain_text("A right weight proves nothing")


def test_a_circle_is_drawn_at_true_scale_once_a_bank_card_was_held_against_the_screen(anna):
    anna.go("/name")
    anna.button("Settings").click()
    anna.button("Set the true scale of the screen").click()
    slider = anna.page.get_by_role("slider")
    slider.fill("6.5")
    assert anna.page.locator(".card-drawn svg").bounding_box()["width"] == pytest.approx(53.98 * 6.5, abs=0.5)  # ISO/IEC 7810 ID-1
    anna.button("The card fits").click()
    anna.button("Answer another").click()
    anna.page.get_by_role("dialog").get_by_role("button", name="Diameter").first.click()
    anna.page.locator(".true-circle circle").wait_for()
    anna.page.get_by_role("slider").fill("23.5")
    circle = anna.page.locator(".true-circle circle")
    until(lambda: abs(circle.bounding_box()["width"] - 23.5 * 6.5) <= 2.5, what="the circle to follow")
    anna.button("It fits the circle").click()
    anna.page.locator(".chip.on", has_text="23.50 mm").wait_for()


def test_readings_that_no_coin_gives_are_told_and_nothing_is_taken(anna):
    anna.go("/name")
    anna.button("Settings").click()
    anna.page.get_by_text("Water and a thread").click()
    anna.page.keyboard.press("Escape")
    anna.button("Answer another").click()
    anna.page.get_by_role("dialog").get_by_role("button", name="Specific gravity").first.click()
    anna.page.get_by_label("Dry").fill("5.00")
    anna.page.get_by_label("Hung in water").fill("5.20")
    anna.shows("A coin is lighter in water than in air")
    expect(anna.button("Use this reading")).to_be_disabled()
    anna.page.get_by_label("Hung in water").fill("4.52")
    anna.shows("10.3")
    anna.button("Use this reading").click()
    anna.page.locator(".chip.on", has_text="10.3").wait_for()


def test_a_purchase_begun_on_a_blank_label_is_named_and_goes_on_with_what_was_typed(anna):
    with browsers.offline(anna.context):
        anna.go(f"/c/{BLANK}/buy").page.get_by_label("From", exact=True).fill("Varrow Brothers")
        anna.link("Name it by what it shows").click()
        anna.at("/name")
        denomination(anna, "Half cent")
        until(lambda: "Half cent" in first(anna), what="the half cents to lead")
        answer(anna, "facing", KNOWN.features["facing"].values["right"])
        answer(anna, "headgear", KNOWN.features["headgear"].values["bare"])
        until(lambda: "Draped Bust" in first(anna), what="the type to lead")
        anna.page.locator(".likely button").first.click()
        anna.button("Record it as a purchase").click()
        anna.at(f"/c/{BLANK}/buy")
        anna.page.locator(".picker", has_text="Half cent, Draped Bust").wait_for()
        expect(anna.page.get_by_label("From", exact=True)).to_have_value("Varrow Brothers")
