"""A fixed cast: Ada owns the book and is signed in at the desk; Charlie is a stranger who must see nothing."""

import re

import pytest

from exergue.labels import ids
from exergue.records import owner

PASSWORD = "a long enough phrase"
HALF_CENT = {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20"}


def token_in(html: str) -> str:
    """The CSRF token of a page."""
    return re.search(r'name="csrf_token"[^>]*value="([^"]+)"', html).group(1)


class Browser:
    """A browser at the desk: keeps cookies, and sends each form with the token of its session."""

    def __init__(self, client):
        self.client = client
        self.token = None

    def get(self, address: str, **more):
        return self.client.get(address, **more)

    def post(self, address: str, data: dict | None = None, **more):
        return self.client.post(address, data={"csrf_token": self.token, **(data or {})}, **more)

    def sign_in(self, name: str = "Ada", password: str = PASSWORD):
        token = token_in(self.get("/desk/sign-in").text)
        answer = self.client.post("/desk/sign-in", data={"csrf_token": token, "name": name, "password": password})
        if answer.status_code == 302:
            self.token = token_in(self.get("/desk/settings").text)
        return answer


@pytest.fixture
def ada(app):
    """The owner's browser, signed in."""
    owner.create("Ada", PASSWORD)
    browser = Browser(app.test_client())
    assert browser.sign_in().status_code == 302
    return browser


@pytest.fixture
def charlie(app):
    """A stranger's browser."""
    return Browser(app.test_client())


@pytest.fixture
def buy(book):
    """Puts a coin in the book with its purchase; gives its ID."""

    def buy(cents: int = 10_000, date: str = "2026-03-14", want: str | None = None, **fields) -> str:
        coin = ids.new_id()
        book.act("purchase", {"bought": [{"coin": coin, "set": {**HALF_CENT, **fields}}], "date": date,
                              "costs": [{"what": "price", "cents": cents}], "want": want})  # fmt: skip
        return coin

    return buy


@pytest.fixture
def phone(book):
    """A paired phone that records entries: phone(kind, body) → verdict."""
    from exergue.records import devices
    from exergue.records.clock import now_ms
    from exergue.records.uuid7 import uuid7

    device, token = devices.pair(devices.new_code("owner", "Phone"), "Phone")
    count = 0

    def record(kind: str, body: dict):
        nonlocal count
        count += 1
        moment = now_ms()
        fact = {"id": uuid7(moment), "n": count, "kind": kind, "when": moment, "body": body}
        return book.accept(device.id, [fact])[0]

    record.device, record.token = device, token
    return record
