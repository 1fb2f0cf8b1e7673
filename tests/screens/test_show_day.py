"""A day at a show: two phones without a network and the desk, ending in equal stock and cash."""

import datetime
import json
import uuid

import pytest
from playwright.sync_api import expect
from screens.conftest import BLANK, CLASSIC, DRAPED, EAGLE, SHOW, Screen, coin_id
from support import browser as browsers
from support.waiting import until

from exergue.records import counting, devices, show_close, show_money
from exergue.records.tables import Show
from exergue.site.desk.floor import clock

pytestmark = pytest.mark.browser
ENGINE = "import('/web/engine/engine.js').then(async ({engine}) => JSON.stringify((await (%s)) ?? null))"
MONEY = ("Promise.all([import('/web/engine/at-show.js'), engine.list('show')]).then(([floor, shows]) => "
         "floor.money(shows.find((one) => one.id === '%s')))" % SHOW)  # fmt: skip
EXPECTED = ("import('/web/engine/at-show.js').then((floor) => floor.coinsAt('%s')).then((coins) => "
            "[...coins].filter(([, coin]) => coin.due).map(([id]) => id).sort())" % SHOW)  # fmt: skip
STRANGER = coin_id("9Q8P7N6M5")
TODAY = datetime.date.today().isoformat()


def run(screen, expression):
    return json.loads(screen.page.evaluate(ENGINE % expression))


def record(screen, kind, **body):
    return run(screen, f"engine.record('{kind}', {json.dumps(body)})")


def take_the_show(screen):
    screen.go("/more/shows").page.get_by_label("Larkmoor Coin Days").check()
    screen.link("Cash, packing and count of this show").click()
    screen.at("/show")


def in_hand(screen, cash, left=None):
    until(lambda: screen.page.locator("#cash-in-hand").inner_text() == cash, what=f"{cash} in hand")
    if left:
        expect(screen.page.locator("#budget-left")).to_have_text(left)


def type_label(screen, key, word, press="Count it"):
    screen.page.get_by_label("Coin ID").fill(key)
    screen.button(press).click()
    screen.page.locator(".scan-said b").get_by_text(word, exact=True).wait_for()


SUMS = ("expected", "seen", "missing", "unexpected")


def kept(done):
    """What the desk and a phone must say alike of each difference."""
    return sorted((one["key"], one["kind"], one["coin"], one["open"], [(action["name"], action["kind"]) for action in one["actions"]])
                  for one in done["differences"])  # fmt: skip


def difference(screen, kind, key):
    return screen.page.locator(f"[data-key$='/{kind}/{key}']")


def test_a_day_of_two_phones_and_the_desk_ends_in_equal_stock_and_cash(anna, open_screen, browser, table):
    other = browser.new_context(**browsers.PHONE)
    ben = open_screen(other).pair()

    # Before the doors open: the show, its cash and budget, and what goes there.
    take_the_show(anna)
    anna.button("Opening cash, budget").click()
    anna.page.get_by_label("Opening cash", exact=True).fill("500")
    anna.page.get_by_label("Budget for coins").fill("1000")
    anna.button("Keep").click()
    in_hand(anna, "$500.00", "$871.00")  # two half cents were bought at this show before, at 64.50 each
    anna.link("Pack").click()
    anna.button("Pack all of Safe").click()
    anna.shows("1 coin packed.").sent()
    run(ben, "engine.sync()")
    take_the_show(ben)
    in_hand(ben, "$500.00", "$871.00")

    with browsers.offline(anna.context), browsers.offline(ben.context):
        # An expense in two taps, a sale, a purchase: the cash is right at once.
        anna.go("/show").button("Food").click()
        anna.page.get_by_label("Amount", exact=True).fill("12.50")
        anna.button("Record").click()
        in_hand(anna, "$487.50")
        anna.go(f"/c/{CLASSIC}/sell").page.get_by_label("Price", exact=True).fill("150")
        expect(anna.page.get_by_label("Show").locator("option:checked")).to_have_text("Larkmoor Coin Days")  # the show is carried
        anna.button("Record the sale").click()
        anna.at(f"/c/{CLASSIC}")
        record(anna, "purchase", bought=[{"coin": BLANK, "set": {"title": "Token", "place": "Tray"}}], costs=[{"what": "price", "cents": 4_000}],
               date=TODAY, show=SHOW, payment="cash")  # fmt: skip
        anna.go("/show")
        in_hand(anna, "$597.50", "$831.00")

        # Each counts a part, not knowing of the other. A tab is killed right after a scan.
        anna.go("/show/count").shows("0 of 3 seen").button("Type").click()
        type_label(anna, DRAPED, "Expected")
        anna.page.close(run_before_unload=False)
        again = Screen(anna.context, table).go("/show/count").shows("1 of 3 seen")
        again.button("Type").click()
        type_label(again, DRAPED, "Already counted")
        ben.go("/show/count").button("Type").click()
        type_label(ben, EAGLE, "Expected")
        type_label(ben, CLASSIC, "Expected")  # for this phone nobody sold it
        type_label(ben, STRANGER, "Unknown label")
        ben.button("Camera", exact=True).click()
        ben.button("to see").click()
        ben.button(f"Seen: {DRAPED[:5]}-{DRAPED[5:]}").click()
        ben.shows("3 of 3 seen")
        for phone in (again, ben):
            until(lambda: run(phone, "import('/web/floor/queue.js').then((queue) => queue.held().length)") == 0, what="the scans to be in entries")

    # Both meet the desk, and each other's scans: one round, though neither knew of it.
    run(ben, "engine.sync()")
    again.sent()
    ben.sent()
    run(again, "engine.sync()")
    run(ben, "engine.sync()")
    with table.book.connected():
        (only,) = counting.rounds(SHOW)
        assert only["seen"] == 4
    ben.go("/show/differences")
    told, own = (run(ben, f"import('/web/floor/differences.js').then((it) => {ask})") for ask in (
        f"it.differencesOf(engine, '{SHOW}', true)", f"it.ofPhone(engine, '{SHOW}', '{only['id']}', null)"))  # fmt: skip
    assert told["sure"] and [told[name] for name in SUMS] == [own[name] for name in SUMS]
    assert kept(told) == kept(own)  # offline the phone would tell the same differences, with the same actions
    ben.page.get_by_text("As the desk tells it").wait_for()
    expect(difference(ben, "gone", CLASSIC)).to_contain_text("Sold at")  # the desk knows when, and on which phone
    difference(ben, "gone", CLASSIC).get_by_role("button", name="Explain it in words").click()
    ben.page.get_by_label("What happened").fill("The buyer fetches it at noon")
    ben.button("Keep this").click()
    difference(ben, "unknown", STRANGER).get_by_role("button", name="Explain it in words").click()
    ben.page.get_by_label("What happened").fill("Another dealer’s label")
    ben.button("Keep this").click()
    difference(ben, "missing", BLANK).get_by_role("button", name="It is missing").click()
    ben.shows("Every difference is explained.").sent()

    # The drawer, and the close.
    run(again, "engine.sync()")
    again.go("/show/drawer")
    until(lambda: again.page.locator("#drawer-due").inner_text() == "$597.50", what="the cash that should be there")
    for label, number in (("$100", 5), ("$50", 1), ("$20", 2), ("$5", 1), ("$2", 1), ("50", 1)):
        again.page.get_by_label(f"How many of {label}" if label != "50" else "How many of $0.50, coins", exact=True).fill(str(number))
    again.shows("agrees").button("Record the count").click()
    again.page.locator("#drawer-last", has_text="$597.50").wait_for()
    again.sent().go("/show/close").shows("Every coin agrees or is explained.")
    again.button("Show the result").click()
    again.page.locator("#result").wait_for()
    again.button("Close the show").click()
    again.shows("Closed on").sent()
    run(ben, "engine.sync()")

    with table.book.connected():
        show = Show.get_by_id(SHOW)
        done = show_close.done(table.book, show, TODAY, clock)
        due = sorted(key for key, coin in counting.coins(SHOW, set(), devices.names()).items() if coin.due)
        paid = show_money.paid(SHOW, show.ends)
        cash = show.float + show_money.cash(paid)
    assert (done.open, done.closed, done.drawer.off) == (0, TODAY, 0)
    assert cash == 59_750 and due == sorted([DRAPED, EAGLE])
    for phone in (again, ben):
        assert run(phone, EXPECTED) == due
        now = run(phone, MONEY)
        assert (now["cash"], now["spent"], now["left"], now["drawer"]["cents"]) == (cash, show_money.spent(paid), done.left, 59_750)
        assert all(run(phone, f"engine.card('coin', '{key}')") == table.card(key) for key in (DRAPED, CLASSIC, EAGLE, BLANK))
    assert again.complaints == []
    other.close()


def test_a_helper_packs_and_counts_and_sees_no_money(open_screen, phone, table):
    helper = open_screen(phone).pair("helper")
    take_the_show(helper)
    helper.shows("Pack").shows("Count")
    expect(helper.page.locator("#cash-in-hand")).to_have_count(0)
    expect(helper.link("Close of show")).to_have_count(0)
    assert run(helper, EXPECTED) == sorted([CLASSIC, DRAPED])  # bought at this show, by whom and for how much is not said
    helper.link("Pack").click()
    helper.page.get_by_label("Into box").fill("Tray 4")
    helper.button("Scan coins out").click()
    helper.button("Type").click()
    for word in ("Packed", "Already packed"):
        type_label(helper, EAGLE, word, "Pack it")
    helper.button("Camera", exact=True).click()
    helper.button("Done").click()
    helper.page.get_by_text("Tray 4: 1 coin").click()
    until(lambda: table.card(EAGLE).get("packed") == {"show": SHOW, "box": "Tray 4"}, what="the desk to know what was packed")
    helper.button(f"Take out {EAGLE[:5]}").click()
    helper.shows("0 coins packed")
    until(lambda: "packed" not in table.card(EAGLE), what="the desk to know that it was taken out")

    for seen in (DRAPED, EAGLE):  # begun apart, by phones whose clocks do not agree on the day
        record(helper, "count", count=str(uuid.uuid4()), show=SHOW, seen=[{"coin": seen}])
    helper.sent().go("/show/differences").button("Count the round of").click()
    until(lambda: helper.page.locator("#count-sums dd").last.inner_text() == "2", what="both rounds to be one")

    helper.go("/count").shows("0 of 3 seen").button("Type").click()  # of the whole stock
    type_label(helper, EAGLE, "Expected")
    helper.shows("1 of 3 seen").go("/count/differences").shows("2 differences to settle")
    expect(helper.button("It is missing")).to_have_count(2)
    expect(helper.button("Explain it in words")).to_have_count(0)
    helper.go("/show/close").shows("Only the owner closes a show.")
    said = json.loads(helper.page.evaluate("fetch('/api/floor/%s').then((answer) => answer.text())" % SHOW))
    assert set(said) == {"count"}
