"""The protocol as a phone meets it."""

import gzip
import hashlib
import json

from exergue.labels.ids import new_id
from exergue.records import devices
from tests.api.conftest import HEADERS, error_of
from tests.records.test_backup import PHOTO, picture


def test_an_entry_goes_up_and_its_card_comes_down(owner_phone):
    coin = new_id()
    fact = owner_phone.fact(1, "coin.add", coin=coin, set={"year": 1806})
    answer = owner_phone.sync(fact).get_json()
    assert answer["verdicts"][0]["verdict"] == "applied"
    assert coin in [key for _, _, key, _ in answer["cards"]]
    again = owner_phone.sync(fact, cursor=answer["cursor"]).get_json()
    assert again["verdicts"] == answer["verdicts"] and again["cards"] == []


def test_every_verdict_says_code_and_sentence(owner_phone):
    answer = owner_phone.sync(owner_phone.fact(1, "sale", coin=new_id(), price=1, date="2026-03-14")).get_json()
    (verdict,) = answer["verdicts"]
    assert verdict["verdict"] == "refused" and verdict["code"] == "no_such_coin" and verdict["message"].endswith(".")


def test_a_cloned_phone_gets_an_identity_of_its_own(owner_phone, app):
    owner_phone.sync(owner_phone.fact(1, "note", coin=new_id(), text="one"))
    other = owner_phone.fact(1, "note", coin=new_id(), text="two") | {"id": "01990001-0000-7000-8000-00000000000f"}
    answer = owner_phone.sync(other)
    assert error_of(answer, 409) == "cloned"
    fresh = answer.get_json()["error"]["device"]
    assert fresh["id"] != owner_phone.me["device"]["id"]
    assert owner_phone.get("hello").get_json()["device"]["id"] == fresh["id"]
    assert owner_phone.sync(other).get_json()["verdicts"][0]["n"] == 1
    assert [n.kind for n in devices.notices()] == ["cloned"]


def test_a_gap_says_where_to_go_on(owner_phone):
    answer = owner_phone.sync(owner_phone.fact(3, "note", coin=new_id(), text="x"))
    assert error_of(answer, 409) == "number_gap" and answer.get_json()["error"]["next_n"] == 1


def test_the_first_sync_is_compressed_on_its_way(owner_phone):
    coin = new_id()
    owner_phone.sync(owner_phone.fact(1, "coin.add", coin=coin, set={}))
    answer = owner_phone.get("snapshot", headers={"Accept-Encoding": "gzip"})
    assert answer.headers["Content-Encoding"] == "gzip"
    lines = [json.loads(line) for line in gzip.decompress(answer.get_data()).splitlines()]
    assert lines[-1] == {"end": True} and coin in json.dumps(lines)
    plain = owner_phone.get("snapshot", headers={"Accept-Encoding": "identity"})
    assert [json.loads(line) for line in plain.get_data().splitlines()] == lines


def test_nonsense_in_after_is_refused(owner_phone):
    assert error_of(owner_phone.get("snapshot?after=../../etc"), 400) == "bad_request"


def test_what_both_must_know_is_fetched_once(owner_phone):
    answer = owner_phone.get("reference")
    pack = answer.get_json()
    assert pack["hash"] == owner_phone.get("hello").get_json()["reference"]
    assert {"kinds", "words", "grades", "denominations", "types"} <= set(pack)
    again = owner_phone.get("reference", headers={"If-None-Match": answer.headers["ETag"]})
    assert again.status_code == 304 and not again.get_data()


def put_photo(phone, data, digest=None):
    digest = digest or hashlib.sha256(data).hexdigest()
    return phone.client.put(f"/api/photo/{PHOTO}", data=data, headers=HEADERS | {"X-Digest": digest})


def test_a_photo_goes_up_and_comes_back_as_a_jpeg(owner_phone):
    assert put_photo(owner_phone, picture((3000, 2000))).status_code == 201
    assert put_photo(owner_phone, picture((3000, 2000))).status_code == 201
    for size in ("full", "thumb"):
        answer = owner_phone.get(f"photo/{PHOTO}?size={size}")
        assert answer.mimetype == "image/jpeg" and answer.get_data()[:2] == b"\xff\xd8"


def test_a_damaged_photo_is_asked_for_again(owner_phone):
    assert error_of(put_photo(owner_phone, picture(), "0" * 64), 400) == "digest"
    assert owner_phone.get(f"photo/{PHOTO}").status_code == 404


def test_a_photo_that_is_none_or_too_large_is_refused(owner_phone):
    assert error_of(put_photo(owner_phone, b"%PDF-1.7"), 400) == "not_a_photo"
    assert error_of(put_photo(owner_phone, picture() + bytes(13_000_000)), 413) == "too_large"


def test_a_request_that_is_too_large_is_refused(owner_phone):
    answer = owner_phone.client.post("/api/sync", data=b"x" * (17 << 20), headers=HEADERS,
                                     content_type="application/json")  # fmt: skip
    assert error_of(answer, 413) == "too_large"


def test_an_unknown_address_answers_in_the_one_shape(owner_phone):
    assert error_of(owner_phone.get("nothing"), 404) == "not_found"


def test_an_entry_that_cannot_be_held_whole_does_not_block_the_phones_queue(owner_phone):
    """JSON says half of a UTF-16 pair as an escape (RFC 8259, section 8.2); no database keeps it as UTF-8."""
    coin = new_id()
    texts = ["\ud83e", "x" * 250_000, "kept"]
    facts = [owner_phone.fact(1, "coin.add", coin=coin, set={})]
    facts += [owner_phone.fact(n, "note", coin=coin, text=text) for n, text in enumerate(texts, 2)]
    verdicts = owner_phone.sync(*facts).get_json()["verdicts"]
    assert [v["code"] for v in verdicts] == [None, "half_character", "too_long", None]
    assert owner_phone.sync(*facts).get_json()["verdicts"] == verdicts
