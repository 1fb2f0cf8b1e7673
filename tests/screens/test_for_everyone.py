"""Every screen with axe-core, in light and dark, on a phone and on a desk screen; and targets for a thumb."""

from importlib.resources import files

import pytest
from screens.conftest import CLASSIC, DRAPED, EAGLE, SHOW, WANT
from support import browser as browsers

pytestmark = pytest.mark.browser
PLACES = ["/", f"/c/{DRAPED}", f"/c/{DRAPED}/checks", f"/c/{DRAPED}/sell", f"/c/{DRAPED}/trade", "/deal", f"/c/{CLASSIC}/move", f"/c/{CLASSIC}/note", f"/c/{CLASSIC}/price",
          f"/c/{CLASSIC}/photo", f"/c/{CLASSIC}/cost", f"/c/{CLASSIC}/away", f"/c/{CLASSIC}/memo", f"/c/{CLASSIC}/lost",
          f"/c/{CLASSIC}/held", f"/c/{CLASSIC}/back", f"/c/{CLASSIC}/receipt/{SHOW}", "/memo-in", "/c/0000000000", "/c/0000000001", "/buy", "/scan", "/wants", f"/wants/{WANT}", "/entries",
          "/more", "/more/shows", "/more/ready", "/more/about", "/more/leave", "/types", "/types/half-cent",
          "/types/half-cent/classic-head", "/name", "/sets", "/seen", "/seen/new", "/contacts", "/contacts/new", "/wants/new",
          f"/wants/{WANT}/edit", "/show", "/show/pack", "/show/count", "/show/differences", "/show/drawer", "/show/close", "/plan"]  # fmt: skip
SHEETS = [("/", "State"), (f"/c/{DRAPED}", "More"), ("/buy", "Grade"), ("/buy", "Type"), ("/buy", "Denomination"), ("/name", "Answer another"),
          ("/name", "Settings")]


def at_a_show(screen):
    """A show is chosen on this phone, its budget is set, and a coin was counted that nobody packed."""
    screen.page.evaluate(f"localStorage.setItem('exergue.show', '{SHOW}')")
    screen.page.evaluate(f"""import('/web/engine/engine.js').then(({{engine}}) =>
        engine.record('show.edit', {{show: '{SHOW}', base: {{budget: null}}, set: {{budget: 30000}}}}))""")
    screen.page.evaluate(f"""import('/web/engine/engine.js').then(({{engine}}) =>
        engine.record('count', {{count: crypto.randomUUID(), show: '{SHOW}', place: 'Case 1', seen: [{{coin: '{EAGLE}'}}]}}))""")
    return screen.sent()


def faults(page):
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8"))
    found = page.evaluate("axe.run({resultTypes: ['violations']})")["violations"]
    return [(page.url, one["id"], one["nodes"][0]["target"]) for one in found if one["impact"] in ("serious", "critical")]


@pytest.mark.parametrize(("size", "colours"), [("phone", "dark"), ("desk", "light")])
def test_axe_finds_nothing_serious_on_any_screen(open_screen, browser, size, colours):
    context = browser.new_context(**(browsers.PHONE if size == "phone" else browsers.SCREEN), color_scheme=colours,
                                  reduced_motion="reduce")  # fmt: skip
    screen = open_screen(context)
    screen.page.goto(screen.table.desk.address)
    screen.button("Pair this phone").wait_for()
    found = faults(screen.page)
    at_a_show(screen.pair())
    for path in PLACES:
        screen.go(path)
        found += faults(screen.page)
    screen.go("/plan").button("Show the money").click()
    screen.page.get_by_label("Budget", exact=True).wait_for()
    found += faults(screen.page)
    for path, press in SHEETS:
        screen.go(path).button(press).last.click()
        screen.page.get_by_role("dialog").wait_for()
        found += faults(screen.page)
    assert found == []
    context.close()


def test_nothing_runs_out_of_a_screen_320_pixels_wide(open_screen, browser):
    context = browser.new_context(**(browsers.PHONE | {"viewport": {"width": 320, "height": 640}}))
    screen = at_a_show(open_screen(context).pair())
    wide = []
    for path in PLACES:
        screen.go(path)
        wide += [path] * screen.page.evaluate("[...document.querySelectorAll('.pane')].some((p) => p.scrollWidth > p.clientWidth + 1)")
    assert wide == []
    context.close()


def test_targets_are_large_enough_for_a_thumb(anna):
    small = []
    at_a_show(anna)
    for path in PLACES:
        small += anna.go(path).page.evaluate("""() => [...document.querySelectorAll('button, .button, .bar a, select, input:not([type=file])')]
            .filter((e) => e.offsetParent && !e.closest('label'))
            .map((e) => [location.pathname, e.textContent.trim() || e.id, Math.round(e.getBoundingClientRect().height)])
            .filter(([, , height]) => height < 44)""")
    assert small == []
