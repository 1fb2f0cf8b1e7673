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
