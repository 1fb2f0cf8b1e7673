"""Cookies, and the secret that signs them."""

import stat

import pytest
from desk.cast import Browser

from exergue.site import create_app


def cookie_of(answer) -> str:
    return answer.headers["Set-Cookie"]


def test_the_desks_cookie_is_out_of_reach_of_scripts_and_other_sites(ada, app):
    cookie = cookie_of(Browser(app.test_client()).get("/desk/sign-in"))
    assert cookie.startswith("exergue-desk=")
    for part in ("HttpOnly", "SameSite=Lax", "Path=/"):
        assert part in cookie
    assert "Domain" not in cookie


def test_over_https_it_is_bound_to_the_host(ada, app, book):
    secure = create_app(book.folder, base_address="https://coins.example").test_client()
    cookie = cookie_of(secure.get("https://coins.example/desk/sign-in"))
    assert cookie.startswith("__Host-exergue-desk=")
    assert "Secure" in cookie and "HttpOnly" in cookie and "Domain" not in cookie


def test_the_phones_cookie_is_bound_likewise(app, book):
    from exergue.records import devices

    secure = create_app(book.folder, base_address="https://coins.example").test_client()
    with book.connected():
        code = devices.new_code("owner")
    answer = secure.post("https://coins.example/api/pair", json={"code": code, "name": "P"}, headers={"X-Exergue": "1"})
    cookie = cookie_of(answer)
    assert cookie.startswith("__Host-exergue-device=")
    for part in ("Secure", "HttpOnly", "SameSite=Strict", "Path=/"):
        assert part in cookie


def test_the_secret_is_kept_in_the_book_for_its_owner_alone(app, book):
    (path,) = [path for path in book.folder.glob("*.key") if path.read_bytes() == app.config["SECRET_KEY"]]
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert len(app.config["SECRET_KEY"]) >= 32
    assert create_app(book.folder).config["SECRET_KEY"] == app.config["SECRET_KEY"]


def test_a_cookie_signed_with_another_secret_opens_nothing(app, ada, book, monkeypatch):
    from flask.sessions import SecureCookieSessionInterface

    from exergue.records import owner

    forged = create_app(book.folder)
    forged.config["SECRET_KEY"] = b"x" * 32
    value = SecureCookieSessionInterface().get_signing_serializer(forged).dumps({"owner": owner.get().session})
    thief = app.test_client()
    thief.set_cookie("exergue-desk", value)
    assert thief.get("/desk/stock").status_code == 302


@pytest.mark.parametrize("address", ["/", "/web/look/tokens.css", "/healthz", "/c/XXXX"])
def test_what_needs_no_session_sets_no_cookie(client, address):
    assert "Set-Cookie" not in client.get(address).headers


DAY_MS = 86_400_000


@pytest.fixture
def in_use(app):
    """A paired phone, and a way to say how many days ago it was paired and last heard of."""
    from exergue.records.clock import now_ms
    from exergue.records.tables import Device
    from tests.api.conftest import Caller

    phone = Caller(app).pair()

    def ago(paired: float, contact: float | None) -> None:
        moments = [None if days is None else now_ms() - int(days * DAY_MS) for days in (paired, contact)]
        Device.update(paired_ms=moments[0], contact_ms=moments[1]).where(Device.token.is_null(False)).execute()

    phone.ago = ago
    return phone


@pytest.mark.parametrize("contact", [31, 200, None])
def test_a_phone_in_use_gets_its_cookie_anew_once_a_month(in_use, contact):
    """Browsers drop a cookie at its Max-Age, at most 400 days (RFC 6265bis, from memory)."""
    in_use.ago(paired=390, contact=contact)
    cookie = cookie_of(in_use.sync())
    assert cookie.startswith("exergue-device=") and "Max-Age=34560000" in cookie and "HttpOnly" in cookie
    assert "Set-Cookie" not in in_use.sync().headers
    assert in_use.get("hello").get_json()["device"]["id"] == in_use.me["device"]["id"]


def test_hello_renews_the_cookie_as_well(in_use):
    in_use.ago(paired=100, contact=50)
    assert "exergue-device=" in cookie_of(in_use.get("hello"))


def test_the_cookie_of_this_month_is_left_alone(in_use):
    in_use.ago(paired=100, contact=95)
    in_use.sync()
    in_use.ago(paired=100, contact=5)
    assert "Set-Cookie" not in in_use.sync().headers and "Set-Cookie" not in in_use.get("hello").headers


def test_a_revoked_phone_and_a_stranger_get_no_cookie(in_use, client):
    from exergue.records import devices

    in_use.ago(paired=390, contact=200)
    devices.revoke(in_use.me["device"]["id"])
    assert "Set-Cookie" not in in_use.sync().headers and "Set-Cookie" not in in_use.get("hello").headers
    assert "Set-Cookie" not in client.get("/api/hello").headers
