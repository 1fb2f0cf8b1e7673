"""Rows added to a form of a deal in the browser, with no trip to the desk."""

import pytest
from desk.test_for_everyone import NARROW, desk  # noqa: F401 - a fixture

pytestmark = pytest.mark.browser


def test_a_payment_more_stands_at_once_empty_and_under_its_own_name(browser, ada, desk):  # noqa: F811
    address, _ = desk
    context = browser.new_context(**NARROW)
    context.add_cookies([{"name": "exergue-desk", "value": ada.client.get_cookie("exergue-desk").value, "url": address}])
    page = context.new_page()
    page.goto(f"{address}/desk/deals/purchase")
    page.get_by_label("Description").fill("Store card")
    page.get_by_label("Price", exact=True).fill("30")
    for at, (how, cents) in enumerate((("cash", "10"), ("check", "15"), ("card", ""))):
        if at:
            page.get_by_role("button", name="Another payment").click()
        page.locator(f"[name=payments-{at}-how]").select_option(how)
        assert page.locator(f"[name=payments-{at}-cents]").input_value() == ""
        page.locator(f"[name=payments-{at}-cents]").fill(cents)
    page.get_by_role("button", name="Look it over").last.click()
    assert "$5.00" in page.get_by_role("row", name="Paid, card").inner_text()
    assert page.get_by_label("Description").input_value() == "Store card"
    page.get_by_role("button", name="Record the purchase").click()
    assert "The purchase was recorded." in page.get_by_role("status").inner_text()
    context.close()
