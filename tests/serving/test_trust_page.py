"""The page that takes a phone through trusting the desk, and the files it hands out."""

import hashlib
import ipaddress
import plistlib
import urllib.error
import urllib.request

import pytest
from support.desk import free_port

from exergue.serving import lan
from exergue.serving.addresses import Here
from exergue.serving.authority import Authority
from exergue.serving.plan import Plan

HERE = Here("coins.local", (ipaddress.ip_address("192.168.7.20"),))


@pytest.fixture
def authority(tmp_path):
    return Authority.of(tmp_path / "authority", HERE)


@pytest.fixture
def page(authority):
    """Address of the running trust page of a desk that is to be at https://localhost:PORT."""
    port = free_port(beside=1)
    plan = Plan("127.0.0.1", port, True, f"https://localhost:{port}", 0)
    server = lan.show_trust(plan, authority, HERE)
    yield f"http://127.0.0.1:{plan.trust_port}"
    server.shutdown()
    server.server_close()


def get(address):
    return urllib.request.urlopen(address, timeout=10)


def test_android_is_given_the_certificate_as_its_type(page, authority):
    """application/x-x509-ca-cert, DER: what Android and iOS take for an authority (common practice, no source)."""
    with get(page + "/authority.crt") as answer:
        assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
        assert "attachment" in answer.headers["Content-Disposition"]
        assert hashlib.sha256(answer.read()).hexdigest() == authority.fingerprint.replace(" ", "").lower()


def test_an_iphone_is_given_a_profile_with_the_certificate_alone(page, authority):
    """Payload keys: Apple's Configuration Profile Reference (from memory)."""
    with get(page + "/authority.mobileconfig") as answer:
        assert answer.headers["Content-Type"] == "application/x-apple-aspen-config"
        profile = plistlib.loads(answer.read())
    assert profile["PayloadType"] == "Configuration"
    (root,) = profile["PayloadContent"]
    assert root["PayloadType"] == "com.apple.security.root"
    assert hashlib.sha256(root["PayloadContent"]).hexdigest() == authority.fingerprint.replace(" ", "").lower()


def test_nothing_else_is_handed_out(page):
    for path in ("/authority/ca.key", "/ca.key", "/../ca.key", "/desk.pem", "/healthz"):
        with pytest.raises(urllib.error.HTTPError) as refusal:
            get(page + path)
        assert refusal.value.code == 404


def test_the_page_names_the_authority_its_fingerprint_and_every_address(page, authority):
    with get(page + "/") as answer:
        html = answer.read().decode()
    assert authority.name in html
    assert all(f"<span>{pair}</span>" in html for pair in authority.fingerprint.split())
    assert f"https://192.168.7.20:{int(page.rsplit(':')[-1]) - 1}/" in html


@pytest.mark.browser
def test_the_page_runs_under_its_own_strict_policy(page, phone):
    tab = phone.new_page()
    said = []
    tab.on("console", lambda message: said.append(message.text))
    tab.goto(page)
    assert tab.locator("#android").get_attribute("open") is not None
    assert tab.locator("#apple").get_attribute("open") is None
    faces = tab.evaluate("document.fonts.ready.then(fonts => [...fonts].filter(f => f.status === 'loaded').length)")
    assert faces == 3
    assert said == []


@pytest.mark.browser
def test_the_page_says_when_trust_has_not_taken(page, phone):
    tab = phone.new_page()
    tab.goto(page)
    tab.get_by_role("button").click()
    tab.locator("#told.warn").wait_for()
    assert "Not yet" in tab.locator("#told").inner_text()
