"""A sale with discount, sales tax or exemption and several payments, made offline and sent to the desk."""

import pytest
from playwright.sync_api import expect
from screens.conftest import DRAPED
from support import browser as browsers

pytestmark = pytest.mark.browser
CARD = "(id) => import('/web/engine/engine.js').then(({engine}) => engine.card('coin', id))"


def test_a_sale_with_discount_tax_and_two_payments_waits_offline_and_is_a_ticket_at_the_desk(anna):
    """110.00 at 8.25 per cent is 9.075: half up, 9.08."""
    anna.go(f"/c/{DRAPED}/sell").page.get_by_label("Discount").fill("10")
    with browsers.offline(anna.context):
        anna.page.get_by_role("radiogroup", name="Sales tax").get_by_text("Tax", exact=True).click()
        anna.page.get_by_label("Tax rate").fill("8.25")
        anna.shows("To pay, with $9.08 tax").shows("$119.08")
        anna.button("Paid in several ways").click()
        anna.page.get_by_label("Paid by payment 1").fill("100")
        anna.page.get_by_label("Paid by payment 2").fill("19")
        anna.button("Record the sale").click()
        anna.shows("The payments are $0.08 less than $119.08.")
        anna.page.get_by_label("Paid by payment 2").fill("")
        anna.button("The rest, $19.08").click()
        expect(anna.page.get_by_label("Paid by payment 2")).to_be_focused()  # the button is gone
        anna.button("Record the sale").click()
        anna.at(f"/c/{DRAPED}").waits(1).shows("Sold for")
        expect(anna.page.locator(".money-panel").filter(visible=True)).not_to_contain_text("Asking")
        painted = anna.page.evaluate(CARD, DRAPED)
    anna.sent()
    card = anna.table.card(DRAPED)
    assert (painted["state"], painted["own"]["sale"]) == (card["state"], card["own"]["sale"])
    assert card["state"] == "sold" and card["own"]["sale"]["price"] == 11_000 and card["own"]["sale"]["gain"] == 4_550


def test_a_sale_without_tax_says_why(anna):
    anna.go(f"/c/{DRAPED}/sell").page.get_by_text("Exempt", exact=True).click()
    anna.button("Record the sale").click()
    anna.shows("needs the number of the buyer’s exemption certificate").shows("needs the reason on the certificate")
    anna.page.get_by_label("Certificate number").fill("TX-55")
    anna.page.get_by_label("Reason").fill("Resale")
    anna.button("Record the sale").click()
    anna.at(f"/c/{DRAPED}").sent()
    assert anna.table.card(DRAPED)["state"] == "sold"
