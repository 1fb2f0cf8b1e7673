"""A served desk with some stock, and real phones in Chromium that talk to it."""

import json
import random

import pytest
from support import browser as browsers
from support.desk import Desk
from support.waiting import until

from exergue.labels.ids import new_id
from exergue.records import devices
from exergue.records.book import Book

ENGINE = "import('/web/engine/engine.js').then(async ({engine}) => "


class Stocked:
    """A book of `count` half cents, made through its one door, and the desk that serves it."""

    def __init__(self, folder, count=40):
        self.random = random.Random(7)
        self.book = Book.create(folder, name="Test book")
        self.ids = [new_id(self.random.choice) for _ in range(count)]
        with self.book.connected():
            self.book.act_all([("purchase", self.purchase(key, i)) for i, key in enumerate(self.ids)])
        self.desk = Desk(folder)

    @staticmethod
    def purchase(key, i):
        about = {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1803 + i % 6, "grade": "VF-20",
                 "place": f"Box {i % 3}", "ask": 10_000 + i}  # fmt: skip
        return {"bought": [{"coin": key, "set": about}], "costs": [{"what": "price", "cents": 5_000 + i}],
                "date": "2026-03-14"}  # fmt: skip

    def code(self, role="owner"):
        with self.book.connected():
            return devices.new_code(role, "Phone")

    def card(self, key):
        with self.book.connected():
            return self.book.card("coin", key)


class Phone:
    """One tab of the app; `run` evaluates an expression with `engine` at hand."""

    def __init__(self, context, stocked):
        self.context, self.stocked, self.page = context, stocked, context.new_page()

    def open(self, path="/"):
        self.page.goto(self.stocked.desk.address + path)
        self.page.wait_for_selector("main, .app")
        return self

    def run(self, expression):
        return json.loads(self.page.evaluate(ENGINE + f"JSON.stringify((await ({expression})) ?? null))"))

    def try_(self, expression):
        """The code of the error that an expression rejects with, or None."""
        return self.page.evaluate(ENGINE + f"{{ try {{ await ({expression}); return null }} catch (e) {{ return e.code ?? String(e) }} }})")

    def pair(self, role="owner"):
        self.open()
        self.run(f"engine.pair({json.dumps(self.stocked.code(role))}, 'Phone')")
        return self.settled()

    def state(self):
        return self.run("engine.state")

    def settled(self):
        until(lambda: (s := self.state())["cursor"] and not s["syncing"] and s["lastSync"], what="the phone to be in step")
        return self

    def sync(self):
        self.run("engine.sync()")
        return self.settled()

    def buy(self, year=1806, cents=4_200):
        key = self.run("engine.newId()")
        body = Stocked.purchase(key, year - 1803) | {"costs": [{"what": "price", "cents": cents}]}
        self.run(f"engine.record('purchase', {json.dumps(body)})")
        return key

    def sell(self, key, cents=20_000):
        body = {"coin": key, "price": cents, "date": "2026-03-15", "payment": "cash"}
        return self.run(f"engine.record('sale', {json.dumps(body)})")

    def note(self, key, text="seen"):
        return self.run(f"engine.record('note', {json.dumps({'coin': key, 'text': text})})")

    def card(self, key):
        return self.run(f"engine.card('coin', {json.dumps(key)})")

    def kept_offline(self):
        browsers.worker_ready(self.page)
        return self


@pytest.fixture
def stocked(tmp_path):
    made = Stocked(tmp_path / "book")
    with made.desk:
        yield made


@pytest.fixture
def anna(stocked, phone):
    return Phone(phone, stocked).pair()


@pytest.fixture
def ben(stocked, browser):
    context = browser.new_context(**browsers.PHONE)
    yield Phone(context, stocked).pair()
    context.close()
