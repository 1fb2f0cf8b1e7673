"""Entries that the desk refused are put right in their forms: what they said is filled in, and nothing is lost."""

import json
import re

import pytest
from playwright.sync_api import expect
from support.waiting import until

from exergue.labels import ids
from tests.screens.conftest import DRAPED, Table

pytestmark = pytest.mark.browser
ENGINE = "import('/web/engine/engine.js').then(async ({engine}) => JSON.stringify((await (%s)) ?? null))"


def run(screen, expression):
    return json.loads(screen.page.evaluate(ENGINE % expression))


def record(screen, kind, body):
    return run(screen, f"engine.record('{kind}', {json.dumps(body)})")


def states(screen) -> dict:
    return {one["fact"]["id"]: one for one in run(screen, "engine.entries()")}


@pytest.fixture
def refused(anna):
    """A half cent of 1801, when none were struck, bought and sold again on this phone: the desk takes neither."""
    coin = ids.new_id()
    bought = Table.bought(coin, 1801, "draped-bust", ask=12_000, floor=9_000) | {"note": "From the junk box", "payment": "check"}
    made = {
        "purchase": record(anna, "purchase", bought),
        "note": record(anna, "note", {"coin": coin, "text": "Sell it soon"}),
        "sale": record(anna, "sale", {"coin": coin, "price": 15_000, "date": "2026-03-15", "payment": "card", "to": "Bram Oduya",
                                      "note": "Paid at once", "costs": [{"what": "shipping", "cents": 550}]}),
    }  # fmt: skip
    anna.sent()
    assert {one["state"] for one in states(anna).values()} == {"refused"}
    return coin, made


def entry(screen, words):
    return screen.page.locator(".entry", has_text=words)


def test_a_refused_purchase_is_edited_and_takes_its_place(anna, refused):
    coin, made = refused
    anna.go("/entries")
    entry(anna, "Purchase for $64.50").get_by_role("button", name="Edit").click()
    # The list of entries tells the reason, too: what is waited for is the form.
    anna.at(f"/c/{coin}/buy").shows("Put it right here").shows("none were made between those of 1800 and those of 1802")
    said = {"Date": ["1801", "2026-03-14"], "Price": ["60"], "Tax": ["4.50"], "From": ["Ines Calloway"], "Note": ["From the junk box"],
            "Place": ["Case 2"], "Asking price": ["120"], "Floor": ["90"]}  # fmt: skip
    for name, values in said.items():
        fields = anna.page.get_by_label(name, exact=True)
        expect(fields).to_have_count(len(values))
        for field, value in zip(fields.all(), values, strict=True):
            expect(field).to_have_value(value)
    expect(anna.page.get_by_role("radio", name="Check")).to_be_checked()
    anna.page.get_by_label("Date", exact=True).first.fill("1800")
    anna.button("Record the purchase").click()
    anna.at(f"/c/{coin}").sent()
    card = anna.table.card(coin)
    assert (card["year"], card["own"]["cost"], card["own"]["floor"]) == (1800, 6_450, 9_000)
    before = states(anna)[made["purchase"]["id"]]
    assert before["state"] == "dropped" and before["fact"]["by"] in states(anna)
    anna.go("/entries").shows("Refused, then put right").shows("See what stands in its place")
    assert run(anna, "engine.state.refused") == 2  # the note and the sale still wait for a decision


def test_an_entry_whose_coin_nobody_knows_has_no_form(anna, refused):
    anna.go("/entries")
    sale = entry(anna, "Sale for $150.00")
    sale.get_by_role("button", name="Send again").wait_for()
    expect(sale.get_by_role("button", name="Edit")).to_have_count(0)


@pytest.fixture
def known(anna, refused):
    """The coin came into the book after all, so that its entries have their forms."""
    coin, made = refused
    with anna.table.book.connected():
        anna.table.book.act("purchase", Table.bought(coin, 1800, "draped-bust"))
    run(anna, "engine.sync()")
    anna.go("/entries")
    return coin, made


def test_a_refused_sale_is_filled_in_with_all_that_it_said(anna, known):
    coin, made = known
    entry(anna, "Sale for $150.00").get_by_role("button", name="Edit").click()
    anna.at(f"/c/{coin}/sell").shows("Refused by the desk.")
    label = anna.page.get_by_label
    said = {"Price": "150", "Buyer": "Bram Oduya", "Date": "2026-03-15", "Note": "Paid at once", "Amount": "5.50", "Cost of selling": "shipping"}
    for name, value in said.items():
        expect(label(name, exact=True)).to_have_value(value)
    expect(anna.page.get_by_role("radio", name="Card")).to_be_checked()
    label("Price", exact=True).fill("140")
    anna.button("Record the sale").click()
    anna.at(f"/c/{coin}").sent()
    sale = anna.table.card(coin)["own"]["sale"]
    assert (sale["price"], sale["costs"], sale["to"]) == (14_000, [{"what": "shipping", "cents": 550}], "Bram Oduya")
    assert states(anna)[made["sale"]["id"]]["fact"]["by"] == sale["fact"]


def test_a_form_that_is_left_leaves_the_refused_entry_as_it_was(anna, known):
    coin, made = known
    entry(anna, "Sell it soon").get_by_role("button", name="Edit").click()
    anna.at(f"/c/{coin}/note")
    expect(anna.page.get_by_role("textbox", name="Note")).to_have_value("Sell it soon")
    anna.page.reload()
    until(lambda: anna.page.get_by_role("textbox", name="Note").input_value() == "Sell it soon", what="the form after a reload")
    anna.button(re.compile("^(Back|Close)$")).or_(anna.link(re.compile("^(Back|Close)$"))).first.click()
    until(lambda: not anna.page.url.endswith("/note"), what="the form to be left")
    assert states(anna)[made["note"]["id"]]["state"] == "refused"
    anna.go(f"/c/{coin}/note")
    expect(anna.page.get_by_role("textbox", name="Note")).to_have_value("")


@pytest.mark.parametrize("body, form, field, value", [
    ({"base": {"place": ""}, "set": {"place": "Case 9"}}, "move", "New place", "Case 9"),
    ({"base": {"ask": 1, "floor": 1}, "set": {"ask": 13_050, "floor": 9_900}}, "price", "Floor", "99"),
])  # fmt: skip
def test_a_refused_change_of_place_or_price_is_filled_in(anna, body, form, field, value):
    """Nothing refuses one of a coin that is there, so the refusal is written on the phone as the desk would say it."""
    fact = record(anna, "coin.edit", {"coin": DRAPED} | body)
    anna.sent()
    anna.page.evaluate("""(id) => import('/web/engine/db.js').then(({write}) => write(['facts'], async (tx) => {
        const fact = await tx.store.get(id);
        await tx.store.put({...fact, state: 'refused', verdict: {verdict: 'refused', code: 'fault', message: 'It was not taken.'}}) }))""", fact["id"])
    anna.go("/entries")
    anna.button("Edit").click()
    anna.at(f"/c/{DRAPED}/{form}").shows("It was not taken.")
    until(lambda: anna.page.get_by_label(field, exact=True).input_value() == value, what="the field to be filled in")
