"""Answers for phones go packed to those that can unpack them. Accept-Encoding, Vary and ETag: RFC 9110 (from memory)."""

import gzip
import json

import pytest

from exergue.labels import ids
from tests.api.conftest import HEADERS, Caller

TAKES = {"Accept-Encoding": "gzip, deflate, br"}


@pytest.fixture
def phone(app):
    one = Caller(app).pair()
    facts = [one.fact(n, "coin.add", coin=ids.new_id(), set={"title": "Half cent", "year": 1806}) for n in range(1, 60)]
    assert one.sync(*facts).status_code == 200
    return one


def test_a_sync_is_packed_and_says_the_same(phone):
    plain = phone.sync()
    packed = phone.post("sync", {"book": phone.me["book"], "epoch": phone.me["epoch"], "cursor": 0, "facts": []}, HEADERS | TAKES)
    assert "Content-Encoding" not in plain.headers and packed.headers["Content-Encoding"] == "gzip"
    told = json.loads(gzip.decompress(packed.data))
    assert told | {"now_ms": 0} == plain.get_json() | {"now_ms": 0}
    assert len(packed.data) * 4 < len(plain.data)
    assert "Accept-Encoding" in plain.headers["Vary"] and "Accept-Encoding" in packed.headers["Vary"]


def test_a_short_answer_is_not_packed(phone):
    cursor = phone.sync().get_json()["cursor"]
    answer = phone.post("sync", {"book": phone.me["book"], "epoch": phone.me["epoch"], "cursor": cursor, "facts": []}, HEADERS | TAKES)
    assert "Content-Encoding" not in answer.headers and answer.get_json()["cards"] == []


@pytest.mark.parametrize("accepts", ["", "identity", "br", "gzip;q=0", "identity, gzip;q=0.0"])
@pytest.mark.parametrize("path", ["reference", "snapshot"])
def test_who_cannot_unpack_gets_it_plain(phone, path, accepts):
    answer = phone.get(path, headers={"Accept-Encoding": accepts})
    assert "Content-Encoding" not in answer.headers and answer.data[:1] == b"{"
    assert "Accept-Encoding" in answer.headers["Vary"]


def test_the_reference_is_packed_once_and_has_a_tag_of_its_own(phone):
    plain, packed = phone.get("reference"), phone.get("reference", headers=TAKES)
    assert packed.headers["Content-Encoding"] == "gzip" and gzip.decompress(packed.data) == plain.data
    assert plain.headers["ETag"] != packed.headers["ETag"]  # a strong tag names bytes
    again = phone.get("reference", headers=TAKES | {"If-None-Match": packed.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"") and again.headers["ETag"] == packed.headers["ETag"]
    assert phone.get("reference", headers={"If-None-Match": packed.headers["ETag"]}).data == plain.data
