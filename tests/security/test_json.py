"""JSON that no phone of ours sends: one clear sentence, never a fault. What JSON is: RFC 8259 (from memory)."""

import json

import pytest

from exergue.labels import ids
from exergue.records.tables import Device, Fact
from exergue.site import jsonbody
from tests.api.conftest import HEADERS, Caller, error_of

DEEP = '{"a":' * 200_000
BAD = {
    "very deep": DEEP,
    "deeper than an entry": '{"facts":' + "[" * 40 + "]" * 40 + "}",
    "not a number": '{"code": NaN}',
    "infinite": '{"code": -Infinity}',
    "too large a number": '{"code": 1e999}',
    "too long a number": '{"code": ' + "9" * 10_000 + "}",
    "half a character": r'{"code": "\ud800", "name": "Phone", "book": "\udfff"}',
    "half a character in a name": r'{"code": "ABCD1234", "name": "Ada \ud83d", "epoch": "\ud83d"}',
    "half a character as a key": r'{"\ud800": 1}',
    "no text": b'{"code": "\xff\xfe"}',
    "a list": "[]",
    "nothing": "",
    "cut off": '{"code": "AB',
}


@pytest.fixture
def owner_phone(app):
    return Caller(app).pair()


@pytest.mark.parametrize("body", BAD.values(), ids=BAD)
@pytest.mark.parametrize("path", ["pair", "sync"])
def test_what_is_no_request_is_refused_in_one_sentence(app, owner_phone, path, body):
    before = Fact.select().count()
    answer = owner_phone.client.post(f"/api/{path}", data=body, headers=HEADERS, content_type="application/json")
    assert error_of(answer, 400) == "bad_request"
    assert Device.select().where(Device.token.is_null(False)).count() == 1 and Fact.select().count() == before


def test_json_that_comes_as_another_kind_of_body_is_not_read(owner_phone):
    """A form of another site can send text/plain."""
    answer = owner_phone.client.post("/api/sync", data=json.dumps({"facts": []}), headers=HEADERS, content_type="text/plain")
    assert error_of(answer, 400) == "bad_request"


def test_every_entry_of_our_own_phones_is_shallow_enough(owner_phone):
    coin = ids.new_id()
    bought = {"bought": [{"coin": coin, "set": {"year": 1806, "publish": ["grade"]}}], "date": "2026-03-14",
              "costs": [{"what": "price", "cents": 1}]}  # fmt: skip
    answer = owner_phone.sync(owner_phone.fact(1, "purchase", **bought))
    assert answer.get_json()["verdicts"][0]["verdict"] == "applied"


@pytest.mark.parametrize("depth, sound", [(32, True), (33, False), (100_000, False)])
def test_how_deep_is_too_deep(depth, sound):
    text = "[" * depth + "]" * depth
    if sound:
        assert jsonbody.parsed(text)
    else:
        with pytest.raises(ValueError, match="JSON"):
            jsonbody.parsed(text)


@pytest.mark.parametrize("seen", [DEEP[:5_000], "[" * 5_000, "NaN", "[1]", '"text"', '{"fields": [1]}', '{"fields": 7}', "nothing"],
                         ids=lambda text: text[:12])  # fmt: skip
def test_a_form_that_brings_back_nonsense_is_read_as_if_nothing_was_seen(ada, buy, seen):
    """Then each field counts as changed by this editor, and nothing fails."""
    coin = buy()
    answer = ada.post(f"/desk/coins/{coin}/edit", {"denom": "half-cent", "type": "half-cent/draped-bust", "year": "1806",
                                                   "grade": "VF-25", "seen": seen})  # fmt: skip
    assert answer.status_code in (200, 302)
