"""Headers that every answer carries, whatever it is."""

import re

import pytest

from exergue.labels import ids
from exergue.site import create_app

# OWASP ASVS 5.0, chapters 3.4 (browser security mechanism headers): CSP with object-src and base-uri shut (here by
# default-src 'none'), nosniff, frame-ancestors, a referrer policy, HSTS over HTTPS.
WANTED = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
KINDS_OF_ANSWER = ["/healthz", "/web/look/tokens.css", "/desk/sign-in", "/desk/", "/no/such/page", "/c/XXXX", "/api/hello",
                   "/api/no-such-thing", "/web/package.json"]  # fmt: skip


def directives(answer) -> dict[str, list[str]]:
    return {name: values for name, *values in (part.split() for part in answer.headers["Content-Security-Policy"].split(";"))}


@pytest.mark.parametrize("address", KINDS_OF_ANSWER)
def test_every_answer_is_guarded(client, address):
    answer = client.get(address)
    for name, value in WANTED.items():
        assert answer.headers[name] == value
    policy = directives(answer)
    assert policy["default-src"] == ["'none'"]
    assert policy["frame-ancestors"] == ["'none'"]
    assert policy["base-uri"] == ["'none'"]
    assert policy["script-src"] == ["'self'", "'wasm-unsafe-eval'"]
    assert policy["style-src"] == ["'self'"]
    assert "camera=(self)" in answer.headers["Permissions-Policy"]


def test_pages_of_the_desk_are_not_kept_by_any_cache(ada):
    assert ada.get("/desk/stock").headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize("address, told", [
    ("https://coins.example/healthz", True),
    ("https://localhost/healthz", False),
    ("https://127.0.0.1:2646/healthz", False),
])  # fmt: skip
def test_browsers_are_told_to_stay_with_https_but_not_for_all_of_localhost(app, book, address, told):
    secure = create_app(book.folder, base_address="https://coins.example")
    answer = secure.test_client().get(address)
    assert ("Strict-Transport-Security" in answer.headers) == told


def test_a_name_shared_with_other_ports_of_this_computer_is_not_tied_to_https(app, book):
    lan = create_app(book.folder, base_address="https://desk.local:2646", lan=True)
    assert "Strict-Transport-Security" not in lan.test_client().get("https://desk.local:2646/healthz").headers


def test_plain_http_says_nothing_of_https(client):
    assert "Strict-Transport-Security" not in client.get("/healthz").headers


def test_no_page_of_the_desk_needs_inline_script_or_style(app, ada, buy, book):
    """The policy would block them without a word."""
    coin = buy()
    book.act("want.add", {"want": "01890000-0000-7000-8000-000000000001", "set": {"title": "A want"}})
    seen = 0
    with app.test_request_context():
        pages = [rule.build({"coin_id": coin, "want": "01890000-0000-7000-8000-000000000001"}) for rule in app.url_map.iter_rules()
                 if rule.endpoint.startswith("desk.") and "GET" in rule.methods
                 and set(rule.arguments) <= {"coin_id", "want"}]  # fmt: skip
    for _, address in pages:
        answer = ada.get(address)
        if answer.mimetype == "text/html" and answer.status_code == 200:
            seen += 1
            assert not re.search(r"\sstyle\s*=|<style|\son[a-z]+\s*=|javascript:", answer.text), address
            assert all("src=" in tag for tag in re.findall(r"<script[^>]*>", answer.text)), address
    assert seen > 15


def test_a_fault_shows_no_trace(app, client, monkeypatch):
    from exergue.site import public

    def broken(text):
        raise RuntimeError("a secret path")

    monkeypatch.setattr(public, "published", broken)
    answer = client.get(f"/c/{ids.new_id()}")
    assert answer.status_code == 500
    assert "secret" not in answer.text and "Traceback" not in answer.text
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
