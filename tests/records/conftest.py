"""A phone that makes facts the way a real one does: id, running number and time before it sends."""

import random

import pytest

from exergue.labels.ids import new_id
from exergue.records import devices
from exergue.records.uuid7 import uuid7

START = 1_790_000_000_000  # a fixed moment in 2026, milliseconds


class Phone:
    def __init__(self, book, name, role="owner", seed=1):
        self.book, self.random = book, random.Random(f"{name}{seed}")
        self.device, self.token = devices.pair(devices.new_code(role), name)
        self.n, self.made = 0, []

    def fact(self, kind, /, when=None, **body):
        self.n += 1
        when = START + self.n * 1000 if when is None else when
        made = {"id": uuid7(when, self.random.getrandbits), "n": self.n, "kind": kind, "when": when, "body": body}
        self.made.append(made)
        return made

    def send(self, *facts):
        return self.book.accept(self.device.id, list(facts))

    def say(self, kind, /, **body):
        """Make one entry and send it."""
        return self.send(self.fact(kind, **body))[0]

    def new_id(self):
        return new_id(self.random.choice)

    def buy(self, coin=None, cents=10_000, **more):
        coin = coin or self.new_id()
        about = {"denom": "half-cent", "year": 1806, "grade": "VF-20", "place": "Case 1"} | more.pop("set", {})
        verdict = self.say("purchase", bought=[{"coin": coin, "set": about}],
                           costs=[{"what": "price", "cents": cents}], date="2026-03-14", **more)  # fmt: skip
        return coin, verdict

    def sell(self, coin, price=15_000, date="2026-03-15"):
        return self.say("sale", coin=coin, price=price, date=date, payment="cash")


@pytest.fixture
def anna(book):
    return Phone(book, "Anna's phone")


@pytest.fixture
def ben(book):
    return Phone(book, "Ben's phone")
