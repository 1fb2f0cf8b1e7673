"""A plan for a show's budget on the phone, with no network: the desk's own plan, hidden from a seller until the press."""

import re
from datetime import date, timedelta

import pytest
from playwright.sync_api import expect
from screens.conftest import SHOW, WANT
from support import browser as browsers
from support.waiting import until

from exergue.records import owner

pytestmark = pytest.mark.browser
HELD = "import('/web/engine/db.js').then(({get}) => get('meta', 'worth')).then((found) => Boolean(found?.made))"
GOAL = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
LIBERTY = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5d02"
PASSWORD = "a long enough phrase"
SLOTS = [{"key": "d", "title": "Draped Bust", "types": ["half-cent/draped-bust"], "grade_from": "F-12", "grade_to": "EF-40"},
         {"key": "b", "title": "Braided Hair", "types": ["half-cent/braided-hair"], "grade_from": "VF-20"},
         {"key": "l", "title": "Liberty Cap", "types": ["half-cent/liberty-cap-left"], "grade_from": "G-4"}]  # fmt: skip
WANTS = [{"type": "half-cent/draped-bust", "years": "1803", "grade_from": "VF-20", "grade_to": "EF-40"},
         {"type": "half-cent/classic-head", "grade_from": "F-12", "grade_to": "VF-30", "priority": "low"},
         {"type": "half-cent/liberty-cap-left", "grade_from": "G-4", "ceiling": 12_000, "goal": GOAL, "slot": "l"},
         {"type": "large-cent/chain", "grade_from": "G-4"},
         {"type": "half-cent/braided-hair", "grade_from": "VF-20", "ceiling": 100}]  # fmt: skip
SOLD = {"draped-bust": (1803, 9_000, 15_000, 21_000), "classic-head": (1809, 7_000, 9_500, 13_000), "braided-hair": (1851, 6_000, 8_500, 10_000)}


@pytest.fixture
def table(table):
    """A show with a budget, a set, wants, and sales that give them prices."""
    day = (date.today() - timedelta(days=40)).isoformat()
    with table.book.connected():
        owner.create("Ada", PASSWORD)
        table.book.act_all([
            ("show.edit", {"show": SHOW, "base": {"budget": None}, "set": {"budget": 45_000}}),
            ("set.add", {"goal": GOAL, "set": {"name": "Half cents by type", "slots": SLOTS}}),
            *(("want.add", {"want": f"0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5d0{n}", "set": {"denom": want["type"].partition("/")[0], **want}})
              for n, want in enumerate(WANTS)),
            *(("sale.seen", {"set": {"date": day, "price": cents, "denom": "half-cent", "type": f"half-cent/{slug}", "year": year,
                                     "grade": grade, "fee_included": True}})
              for slug, (year, *prices) in SOLD.items() for grade, cents in zip(("F-12", "VF-20", "VF-30"), prices, strict=True)),
        ])  # fmt: skip
    return table


def read(title, buy, grade, price):
    """A line of a plan as both faces have it: title, date, grade, cents."""
    dated = re.search(r"\b1\d{3}\b(-\w+)?|a usual date", buy)
    return title, dated and dated[0], grade, round(float(price.strip("$").replace(",", "")) * 100)


def at_the_desk(browser, table, *addresses):
    """The lines of the desk's plans."""
    context = browser.new_context(**browsers.SCREEN)
    page = context.new_page()
    page.goto(table.desk.address + "/desk/sign-in")
    page.get_by_label("Name").fill("Ada")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "sign-in" not in url)
    found = []
    for address in addresses:
        page.goto(table.desk.address + address)
        rows = page.locator("#plan tbody tr").evaluate_all("""(all) => all.map((row) => [row.querySelector('strong').innerText,
            ...['Buy', 'Grade', 'Price'].map((name) => row.querySelector(`[data-label=${name}]`).innerText)])""")
        found.append([read(title, buy.partition("\n")[0], grade, price) for title, buy, grade, price in rows])
    context.close()
    return found


def on_the_phone(screen):
    rows = screen.page.locator(".plan-rows .coin-row").evaluate_all("""(all) => all.map((row) => [row.querySelector('.title').innerText,
        row.querySelector('.line').innerText, row.querySelector('.line > .figures:last-child').innerText, row.querySelector('.ask').innerText])""")
    return [read(*row) for row in rows]


def test_the_owner_plans_a_shows_budget_offline_as_the_desk_does(browser, table, anna):
    desk, over = at_the_desk(browser, table, "/desk/plan", f"/desk/plan?set={GOAL}&budget=90&second=500&upgrades=y")
    assert len(desk) > 1 and len(over) > 1
    anna.page.evaluate(f"localStorage.setItem('exergue.show', '{SHOW}')")
    until(lambda: anna.page.evaluate(HELD), what="the prices to come")
    with browsers.offline(anna.context):
        # From the show, with what its purchases left of 450; nothing that a seller may read stands there before the press.
        anna.go("/show").link("Plan the budget").click()
        anna.at("/plan").shows("What to buy").shows("Prices as the desk worked them out on")
        assert "$" not in anna.page.locator(".plan").inner_text().replace("What one more $100 buys", "") and anna.page.locator("#f-budget").count() == 0
        anna.button("Show the money").click()
        expect(anna.page.get_by_label("Budget", exact=True)).to_have_value("321")
        anna.shows("$321.00 left at Larkmoor Coin Days.")
        assert on_the_phone(anna) == desk
        for told, title in (("Above your ceiling", "Half cent, Braided Hair"), ("No evidence", "Large cent, Flowing Hair, Chain")):
            part = anna.page.locator("details", has_text=told)
            part.locator("summary").click()
            expect(part).to_contain_text(title)
        # A line leads to its want, and what was typed is there on coming back.
        anna.page.get_by_label("Budget", exact=True).fill("130")
        anna.page.locator("#more-money a").first.wait_for()
        anna.page.locator(".plan-rows a", has_text="Braided Hair").click()
        anna.at(f"/wants/{WANT}").shows("The most to pay")
        anna.page.go_back()
        anna.button("Show the money").click()
        expect(anna.page.get_by_label("Budget", exact=True)).to_have_value("130")
        # The set, over two shows, a better coin for the filled slot among them.
        anna.page.get_by_label("What for").select_option("Half cents by type")
        anna.at(f"/plan/{GOAL}").button("Show the money").click()
        anna.page.get_by_text("Over several shows").click()
        anna.page.get_by_label("Budget", exact=True).fill("90")
        anna.page.get_by_label("Second show").fill("500")
        anna.page.get_by_label("Better coins for filled slots, too").check()
        anna.shows("Show by show").shows("betters the VF-20")
        assert on_the_phone(anna) == over
        anna.page.get_by_label("Second show").fill("much")
        anna.shows("That is not an amount of money.").shows("Put the amounts right")
        anna.page.get_by_label("Second show").fill("")
        anna.button("Use what is left at the show").click()
        expect(anna.page.get_by_label("Budget", exact=True)).to_have_value("321")
        # A slot that was bought for here is not bought again.
        anna.page.evaluate(f"""import('/web/engine/engine.js').then(({{engine}}) => engine.record('purchase', {{want: '{LIBERTY}', date: '2026-03-14',
            bought: [{{coin: engine.newId(), set: {{denom: 'half-cent', type: 'half-cent/liberty-cap-left', year: 1793}}}}], costs: [{{what: 'price', cents: 9000}}]}}))""")
        anna.go("/sets").link("Half cents by type").click()
        anna.link("Plan for a budget").click()
        anna.at(f"/plan/{GOAL}").shows("1 slot bought for on this phone is left out.")
        assert not anna.page.locator(".plan-rows", has_text="Liberty Cap").count()
        # Old prices tell their age, and none at all are told, too.
        old = (date.today() - timedelta(days=9)).isoformat()
        anna.page.evaluate(f"""import('/web/engine/db.js').then(({{get, write}}) => get('meta', 'worth').then((held) =>
            write(['meta'], (tx) => tx.store.put({{...held, made: '{old}'}}, 'worth'))))""")
        anna.go("/plan").shows("9 days ago.")
        anna.page.evaluate("import('/web/engine/db.js').then(({write}) => write(['meta'], (tx) => tx.store.delete('worth')))")
        anna.go("/plan").shows("No prices on this phone yet; they come with the next sync.")


def test_plans_stay_with_the_owner(table, open_screen, phone):
    ben = open_screen(phone).pair("helper")
    ben.go("/plan").shows("Plans stay with the owner")
    assert ben.page.locator("input, select").count() == 0
    ben.go("/wants")
    assert ben.link("Plan", exact=True).count() == 0
