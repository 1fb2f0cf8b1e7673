"""Only paired devices get in, only this desk's pages may ask for changes, and every error has one shape."""

import pytest

from exergue.records import devices
from tests.api.conftest import HEADERS, error_of

PHOTO = "photo/01890000-0000-7000-8000-000000000001"
GUARDED = [("GET", "snapshot"), ("GET", "reference"), ("GET", PHOTO), ("PUT", PHOTO), ("POST", "sync"), ("POST", "leave")]


@pytest.mark.parametrize("method, path", GUARDED)
def test_a_stranger_gets_nothing(stranger, method, path):
    answer = stranger.client.open(f"/api/{path}", method=method, headers=HEADERS, json={} if method == "POST" else None)
    assert error_of(answer, 401) == "not_paired"


@pytest.mark.parametrize("method, path", GUARDED)
def test_a_revoked_phone_is_told_to_wipe_itself(owner_phone, method, path):
    devices.revoke(owner_phone.me["device"]["id"])
    body = {} if method == "POST" else None
    answer = owner_phone.client.open(f"/api/{path}", method=method, headers=HEADERS, json=body)
    assert error_of(answer, 401) == "revoked"


def test_a_stranger_learns_neither_book_nor_device(stranger):
    answer = stranger.get("hello").get_json()
    assert answer["book"] is None and answer["device"] is None and "bookName" not in answer


@pytest.mark.parametrize("headers", [
    {}, {"X-Exergue": "1", "Origin": "https://elsewhere.example"}, {"X-Exergue": "1", "Sec-Fetch-Site": "cross-site"},
    {"X-Exergue": "1", "Origin": "null"},
])  # fmt: skip
def test_another_site_cannot_ask_for_a_change(owner_phone, headers):
    answer = owner_phone.post("sync", {}, headers=headers)
    assert error_of(answer, 403) == "not_same_origin"


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(app, stranger):
    answer = stranger.post("pair", {"code": devices.new_code("owner"), "name": "Phone"})
    cookie = answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie and "SameSite=Strict" in cookie and "Path=/" in cookie


def test_over_https_the_cookie_is_bound_to_the_host(book):
    from exergue.site import create_app

    app = create_app(str(book.folder), base_address="https://coins.example")
    with book.connected():
        answer = app.test_client().post("/api/pair", json={"code": devices.new_code("owner"), "name": "Phone"},
                                        headers=HEADERS, base_url="https://coins.example")  # fmt: skip
    assert answer.headers["Set-Cookie"].startswith("__Host-exergue-device=") and "Secure" in answer.headers["Set-Cookie"]


@pytest.mark.parametrize("body, status, code", [
    ({"code": "00000000", "name": "x"}, 400, "code_wrong"),
    ({"code": 5, "name": "x"}, 400, "bad_request"),
    ([], 400, "bad_request"),
    (None, 400, "bad_request"),
])  # fmt: skip
def test_pairing_with_nonsense_is_refused_in_the_one_shape(stranger, body, status, code):
    assert error_of(stranger.post("pair", body), status) == code


def test_guessing_codes_is_slowed_down(stranger):
    for _ in range(10):
        stranger.post("pair", {"code": "00000000", "name": "x"})
    answer = stranger.post("pair", {"code": "00000000", "name": "x"})
    assert error_of(answer, 429) == "slow_down" and int(answer.headers["Retry-After"]) > 0


def test_leaving_ends_the_pairing(owner_phone):
    assert owner_phone.post("leave").get_json() == {"left": True}
    assert owner_phone.get("hello").get_json()["device"] is None
