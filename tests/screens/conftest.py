"""A desk with a small stock, and phones that have it on their screens."""

import re

import pytest
from playwright.sync_api import expect
from support import browser as browsers
from support.desk import Desk
from support.waiting import until

from exergue.labels import ids
from exergue.records import devices
from exergue.records.book import Book

SHOW = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c11"
WANT = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c22"
PATIENCE = 30_000  # milliseconds; a busy machine may be slow, and only a test that fails waits so long
expect.set_options(timeout=PATIENCE)


def coin_id(body: str) -> str:
    """An ID whose nine characters the test chose; the check character is the book's own rule."""
    return ids.parse(body + ids.check_character(body))


DRAPED, CLASSIC, EAGLE, BLANK = map(coin_id, ("7K3M9QX2B", "A1B2C3D4E", "ZZ0ZZ1ZZ2", "5V5W5X5Y5"))


class Table:
    """A dealer's table: a book with three coins, a want, a show and a blank label, served by a real desk."""

    def __init__(self, folder):
        self.book = Book.create(folder, name="Table nine")
        with self.book.connected():
            self.book.act_all([
                ("show.add", {"show": SHOW, "set": {"name": "Larkmoor Coin Days", "starts": "2026-01-01", "ends": "2099-12-31"}}),
                ("purchase", self.bought(DRAPED, 1806, "draped-bust", ask=12_000, floor=9_000)),
                ("purchase", self.bought(CLASSIC, 1809, "classic-head", ask=8_000)),
                ("coin.add", {"coin": EAGLE, "set": {"title": "Ten dollars, Liberty", "year": 1901, "mint": "S", "place": "Safe"}}),
                ("want.add", {"want": WANT, "set": {"denom": "half-cent", "type": "half-cent/braided-hair", "priority": "high",
                                                    "grade_from": "VF-20", "ceiling": 15_000}}),
                ("labels.blank", {"ids": [BLANK]}),
            ])  # fmt: skip
        self.desk = Desk(folder)

    @staticmethod
    def bought(key, year, slug, **money):
        about = {"denom": "half-cent", "type": f"half-cent/{slug}", "year": year, "grade": "VF-20", "place": "Case 2"}
        return {"bought": [{"coin": key, "set": about | money}], "from": "Ines Calloway", "date": "2026-03-14", "show": SHOW,
                "costs": [{"what": "price", "cents": 6_000}, {"what": "tax", "cents": 450}]}  # fmt: skip

    def code(self, role="owner"):
        with self.book.connected():
            return devices.new_code(role, "")

    def card(self, key):
        with self.book.connected():
            return self.book.card("coin", key)


class Screen:
    """One tab of a phone. It remembers what the page complained of; a test that ends with a complaint fails."""

    def __init__(self, context, table):
        self.context, self.table, self.page = context, table, context.new_page()
        self.complaints: list[str] = []
        self.page.set_default_timeout(PATIENCE)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("console", self.heard)

    def heard(self, message):
        if message.type == "error" and not re.search(r"ERR_INTERNET_DISCONNECTED|Failed to load resource", message.text):
            self.complaints.append(message.text)

    def pair(self, role="owner"):
        """Pair by the link that the desk shows, and wait until the stock is there and kept for use offline."""
        self.page.goto(f"{self.table.desk.address}/#pair={self.table.code(role)}")
        self.button("Pair this phone").click()
        self.page.get_by_role("heading", name="Table nine").wait_for()
        self.page.locator(".coin-row").first.wait_for()
        browsers.worker_ready(self.page)
        return self

    def go(self, path):
        self.page.goto(self.table.desk.address + path)
        self.page.locator(".pane:not([hidden]) h1").first.wait_for()
        return self

    def button(self, name, **more):
        return self.page.get_by_role("button", name=name, **more)

    def link(self, name, **more):
        return self.page.get_by_role("link", name=name, **more)

    def shows(self, text):
        self.page.get_by_text(text).filter(visible=True).first.wait_for()
        return self

    def at(self, path):
        self.page.wait_for_url(f"**{path}")
        return self

    def waits(self, count):
        """Until the head of the screen says that so many entries are to be sent."""
        self.page.locator(".sync", has_text=f"{count} to send").filter(visible=True).first.wait_for()
        return self

    def sent(self):
        """Until nothing waits any more and the desk answered."""
        until(lambda: self.page.evaluate("""import('/web/engine/engine.js').then(({engine}) =>
            engine.state.waiting === 0 && !engine.state.syncing && engine.state.online)"""), what="the entries to be sent")
        return self


@pytest.fixture
def table(tmp_path):
    made = Table(tmp_path / "book")
    with made.desk:
        yield made


@pytest.fixture
def open_screen(table):
    """Makes a Screen of a browser context; looks at its complaints when the test is over."""
    made = []

    def opened(context):
        made.append(Screen(context, table))
        return made[-1]

    yield opened
    assert [one.complaints for one in made if one.complaints] == []


@pytest.fixture
def anna(open_screen, phone):
    """The owner's paired phone."""
    return open_screen(phone).pair()
