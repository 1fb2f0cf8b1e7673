"""Every page of the desk with axe-core, on a narrow phone and on a desk screen, in light and dark."""

import threading
from importlib.resources import files

import pytest
from support import browser as browsers
from werkzeug.serving import make_server

pytestmark = pytest.mark.browser
WANT, SHOW = "01890000-0000-7000-8000-000000000001", "01890000-0000-7000-8000-000000000002"
SET = "01890000-0000-7000-8000-000000000003"
NARROW = {"viewport": {"width": 320, "height": 640}}


@pytest.fixture
def desk(app, ada, book, buy, phone):
    """A running desk with something on each page; (address, paths)."""
    coin, sold = buy(place="Box A", ask=15_000), buy(year=1807)
    book.act("want.add", {"want": WANT, "set": {"title": "A want", "note": "of some length", "ceiling": 100_000}})
    lot = buy(20_000, pieces=20)
    book.act("purchase", {"bought": [{"coin": lot, "set": {}, "pieces": 10}], "costs": [{"what": "price", "cents": 15_000}], "date": "2026-04-14"})
    book.act("setting", {"key": "lots", "value": "specific"})
    book.act("show.add", {"show": SHOW, "set": {"name": "Harbour Coin Fair", "starts": "2026-05-02", "ends": "2026-05-03"}})
    sale = book.act("sale", {"coin": sold, "price": 15_000, "date": "2026-05-02", "show": SHOW}).fact
    book.act("sale.seen", {"set": {"date": "2026-01-05", "price": 8_800, "title": "A coin", "fee_included": False}})
    book.act("sale.seen", {"set": {"date": "2026-01-05", "price": 12_000, "type": "half-cent/draped-bust", "denom": "half-cent", "grade": "VF-20"}})
    book.act("set.add", {"goal": SET, "set": {"name": "Half cents", "slots": [
        {"key": "d", "title": "Draped Bust", "types": ["half-cent/draped-bust"]}, {"key": "c", "title": "Classic Head", "types": ["half-cent/classic-head"]}]}})
    contact, seen, counted = (f"01890000-0000-7000-8000-00000000000{n}" for n in (3, 4, 5))
    book.act("contact.add", {"contact": contact, "set": {"name": "Ines Calloway", "table": "12"}})
    book.act("sighting.add", {"sighting": seen, "set": {"contact": contact, "want": WANT, "ask": 9_000, "title": "A coin", "date": "2026-05-02"}})
    book.act("pack", {"show": SHOW, "coins": [coin], "box": "Box 1"})
    book.act("count", {"show": SHOW, "count": counted, "place": "Box 1", "seen": [{"coin": sold}]})
    book.act("drawer", {"show": SHOW, "date": "2026-05-02", "pieces": [{"cents": 2_000, "number": 5}]})
    book.act("show.close", {"show": SHOW, "date": "2026-05-03"})
    phone("coin.edit", {"coin": coin, "base": {"place": "x"}, "set": {"place": "Case 2"}})
    phone("note", {"coin": coin, "text": "from the phone"})
    paths = ["/", "/stock", "/stock?state=all&grade_from=x", f"/coins/{coin}", f"/coins/{sold}", f"/coins/{coin}/edit",
             f"/coins/{coin}/sale", f"/coins/{coin}/purchase", "/coins/new", "/coins/none", "/import", "/labels",
             f"/labels?coin={coin}&format=letter-30", "/labels?blank=3&format=letter-30", "/devices", "/looks", "/wants", "/wants/off",
             f"/wants/{WANT}", "/types", "/types/half-cent", "/types/half-cent/classic-head", "/types/half-cent/draped-bust",
             "/shows", f"/shows/{SHOW}", *(f"/shows/{SHOW}/{page}" for page in ("pack", "count", "drawer", "close")), "/counts", "/contacts",
             "/contacts/new", f"/contacts/{contact}", "/sightings", f"/sightings/{seen}", "/evidence", "/evidence/new", "/settings", "/settings/password", "/settings/worth", "/reports",
             "/reports/stock", "/reports/gains", "/reports/dealer", "/reports/cash", "/reports/dealer?from=x",
             "/journal", "/#nav", "/deals", "/deals?who=nobody", "/deals/purchase", f"/deals/sale?coin={coin}", "/deals/trade",
             "/deals/acquired", "/deals/money", "/deals/move/memo", "/deals/move/memo-in", f"/deals/move/cost?coin={coin}",
             "/deals/move/lost", f"/deals/sale?coin={lot}", f"/deals/move/lost?coin={lot}", f"/coins/{lot}", f"/deals/{sale}", f"/deals/{sale}/receipt", f"/deals/{sale}/return", "/sets", "/sets/new", "/sets/new?template=denomination/dime",
             f"/sets/{SET}", f"/sets/{SET}/edit", f"/sets/{SET}/wants", f"/sets/{SET}/slot?slot=d", f"/sets/{SET}/slot", "/plan",
             f"/plan?set={SET}&budget=200&second=100&upgrades=y"]  # fmt: skip
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://localhost:{server.server_port}", paths
    server.shutdown()
    thread.join()


def tour(browser, ada, desk, **look):
    """Each page of the desk in a browser of its own, signed in."""
    address, paths = desk
    context = browser.new_context(**look)
    cookie = ada.client.get_cookie("exergue-desk")
    context.add_cookies([{"name": "exergue-desk", "value": cookie.value, "url": address}])
    page = context.new_page()
    told = []
    page.on("console", lambda message: told.append(message.text) if "Content Security Policy" in message.text else None)
    for path in paths:
        page.goto(f"{address}/desk{path}")
        yield path, page
    context.close()
    assert told == []


@pytest.mark.parametrize(("size", "colours"), [(NARROW, "dark"), (browsers.SCREEN, "light")], ids=["narrow-dark", "wide-light"])
def test_axe_finds_nothing(browser, ada, desk, size, colours):
    script = files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")
    found = []
    for path, page in tour(browser, ada, desk, color_scheme=colours, **size):
        page.evaluate(script)
        violations = page.evaluate("axe.run({resultTypes: ['violations']})")["violations"]
        found += [(path, one["id"], one["nodes"][0]["target"]) for one in violations]
    assert found == []


def test_nothing_runs_out_of_a_screen_320_pixels_wide(browser, ada, desk):
    wide = [path for path, page in tour(browser, ada, desk, **NARROW)
            if page.evaluate("document.documentElement.scrollWidth > innerWidth")]  # fmt: skip
    assert wide == []


def test_buttons_and_fields_are_large_enough_for_a_thumb(browser, ada, desk):
    small = []
    for path, page in tour(browser, ada, desk, **NARROW):
        small += page.evaluate("""path => [...document.querySelectorAll('button, .button, select, summary, input:not([type=hidden])')]
            .filter((e) => e.offsetParent && !e.closest('label'))
            .map((e) => [path, e.textContent.trim() || e.name, Math.round(e.getBoundingClientRect().height)])
            .filter(([, , height]) => height < 44)""", path)  # fmt: skip
    assert small == []


def test_the_desk_works_without_script(browser, ada, desk):
    address, _ = desk
    context = browser.new_context(java_script_enabled=False, **NARROW)
    cookie = ada.client.get_cookie("exergue-desk")
    context.add_cookies([{"name": "exergue-desk", "value": cookie.value, "url": address}])
    page = context.new_page()
    page.goto(f"{address}/desk/coins/new")
    page.get_by_label("Description").fill("Store card")
    page.get_by_label("I have it").check()
    page.get_by_role("button", name="Enter the coin").click()
    assert page.get_by_role("heading", level=1).inner_text() == "Store card"
    page.get_by_role("link", name="Menu").click()
    page.get_by_role("link", name="Stock").click()
    assert page.get_by_role("link", name="Store card").is_visible()
    context.close()
