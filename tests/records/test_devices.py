"""Pairing: one-time codes, hashed tokens, revoking; and the owner's sign-in."""

import pytest

from exergue.records import devices, owner, throttle
from exergue.records.tables import Device, PairCode


def test_a_code_pairs_once(book):
    code = devices.new_code("helper")
    device, token = devices.pair(code.lower()[:4] + "-" + code[4:], "Till")
    assert (device.role, device.name) == ("helper", "Till")
    assert devices.by_token(token).id == device.id
    with pytest.raises(devices.PairError) as problem:
        devices.pair(code, "Another")
    assert problem.value.code == "code_used"


def test_a_code_is_good_for_ten_minutes(book):
    code = devices.new_code("owner")
    PairCode.update(expires_ms=PairCode.expires_ms - devices.CODE_MS - 1).execute()
    with pytest.raises(devices.PairError) as problem:
        devices.pair(code, "Late")
    assert problem.value.code == "code_expired"


def test_neither_code_nor_token_stands_in_the_database(book):
    code = devices.new_code("owner")
    _, token = devices.pair(code, "Phone")
    data = b"".join(path.read_bytes() for path in book.folder.glob("book.sqlite3*"))
    assert code.encode() not in data and token.encode() not in data


def test_guessing_codes_is_slowed_down(book):
    for _ in range(10):
        with pytest.raises(devices.PairError):
            devices.pair("WRONG123", "x", "10.0.0.9")
    with pytest.raises(throttle.TooMany) as problem:
        devices.pair("WRONG123", "x", "10.0.0.9")
    assert 1 <= problem.value.seconds <= 60
    assert devices.pair(devices.new_code("owner"), "x", "10.0.0.10")


def test_a_revoked_device_is_known_as_such_and_no_more(book):
    device, token = devices.pair(devices.new_code("owner"), "Lost phone")
    devices.revoke(device.id)
    assert devices.by_token(token) is None and devices.was_revoked(token)
    assert not devices.was_revoked("made up")


def test_the_desk_itself_cannot_be_revoked(book):
    devices.revoke("desk")
    assert Device.get_by_id("desk").revoked_ms is None


def test_the_bucket_fills_evenly(book):
    for _ in range(3):
        throttle.spend("k", capacity=3, per_ms=30_000, at_ms=0)
    with pytest.raises(throttle.TooMany) as problem:
        throttle.spend("k", capacity=3, per_ms=30_000, at_ms=1_000)
    assert problem.value.seconds == 9
    throttle.spend("k", capacity=3, per_ms=30_000, at_ms=10_000)


def test_the_owner_signs_in_with_name_and_password(book):
    with pytest.raises(owner.BadPassword):
        owner.create("Anna", "short")
    owner.create("Anna", "a long enough one")
    assert owner.check("anna ", "a long enough one")
    assert owner.check("Anna", "another") is None and owner.check("Ben", "a long enough one") is None
    with pytest.raises(ValueError):
        owner.create("Ben", "a long enough one")


def test_sign_in_is_slowed_down_and_a_new_password_ends_older_sessions(book):
    first = owner.create("Anna", "a long enough one").session
    for _ in range(10):
        owner.check("Anna", "wrong", "10.0.0.9")
    with pytest.raises(owner.TooMany):
        owner.check("Anna", "a long enough one", "10.0.0.9")
    owner.change_password("quite another one")
    assert owner.get().session != first and owner.check("Anna", "quite another one", "10.0.0.1")
