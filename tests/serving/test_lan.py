"""`exergue serve --lan` as phones meet it: TLS, trust in a real browser, and the end of the day."""

import http.cookiejar
import ipaddress
import shutil
import socket
import ssl
import subprocess
import urllib.request

import pytest
from support import browser as browsers
from support import trusting
from support.desk import Desk
from support.waiting import until

from exergue.records.book import Book
from exergue.serving import addresses, lan
from exergue.serving.authority import Authority


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    folder = tmp_path_factory.mktemp("lan") / "book"
    Book.create(folder, name="Test book")
    with Desk(folder, "--lan") as running:
        yield running


def own_addresses() -> list[str]:
    """IPv4 addresses of this computer that are not loopback, private or not."""
    import ifaddr

    found = [ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if ip.is_IPv4]
    return [address for address in found if not address.startswith("127.")]


def shake(desk, name="localhost", **limits) -> ssl.SSLSocket:
    """A TLS connection that trusts the book's authority alone; `limits` are fields of the SSLContext."""
    context = ssl.create_default_context(cafile=desk.authority)
    context.set_alpn_protocols(["h2", "http/1.1"])
    for field, value in limits.items():
        setattr(context, field, value)
    raw = socket.create_connection(("127.0.0.1", desk.port), timeout=10)
    return context.wrap_socket(raw, server_hostname=name)


@pytest.mark.parametrize("version", [ssl.TLSVersion.TLSv1_2, ssl.TLSVersion.TLSv1_3])
def test_a_phone_that_trusts_the_authority_gets_in(desk, version):
    with shake(desk, minimum_version=version, maximum_version=version) as line:
        assert line.selected_alpn_protocol() == "h2"


@pytest.mark.parametrize("name", ["localhost", "127.0.0.1", addresses.local_name()])
def test_every_name_of_the_desk_is_vouched_for(desk, name):
    with shake(desk, name) as line:
        assert line.version()


def test_another_name_is_not(desk):
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shake(desk, "other.local")


def test_a_phone_without_the_authority_refuses(desk):
    raw = socket.create_connection(("127.0.0.1", desk.port), timeout=10)
    with pytest.raises(ssl.SSLCertVerificationError):
        ssl.create_default_context().wrap_socket(raw, server_hostname="localhost")


@pytest.mark.skipif(not shutil.which("curl"), reason="no curl")
def test_curl_agrees(desk):
    command = ["curl", "--silent", "--fail", "--cacert", str(desk.authority), desk.address + "/healthz"]
    assert subprocess.run(command, capture_output=True).stdout == b"ok\n"


def test_the_terminal_shows_where_to_start_and_the_fingerprint(desk):
    said = desk.said()
    authority = Authority.of(desk.folder / "authority", addresses.look())
    assert f":{desk.port + 1}/" in said
    assert authority.fingerprint in " ".join(said.split())


def test_this_computers_browser_needs_to_trust_nothing(desk):
    """The desk over plain HTTP, on loopback alone, with cookies that plain HTTP keeps."""
    address = f"http://localhost:{desk.port + 2}/desk/set-up?key={desk.set_up_key}"
    assert address in desk.said()
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar := http.cookiejar.CookieJar()))
    with opener.open(address, timeout=20) as answer:
        assert answer.status == 200 and "password" in answer.read().decode()
    assert [cookie.secure for cookie in jar] == [False]


def test_plain_http_is_for_this_computer_alone(desk):
    for host in own_addresses():
        with pytest.raises(OSError):
            socket.create_connection((host, desk.port + 2), timeout=5)


def test_a_silent_peer_does_not_stop_the_others(desk):
    silent = [socket.create_connection(("127.0.0.1", desk.port), timeout=10) for _ in range(40)]
    try:
        assert desk.get("/healthz") == b"ok\n"
    finally:
        for one in silent:
            one.close()


TRUST = """async () => {
  if (!window.isSecureContext) return 'not a secure context';
  const registration = await navigator.serviceWorker.register('/sw.js');
  await navigator.serviceWorker.ready;
  return registration.active ? 'active' : 'not active';
}"""


@pytest.mark.browser
def test_a_browser_that_trusts_the_authority_runs_the_app(desk, playwright, tmp_path):
    browser = browsers.launch(playwright, env=trusting.home(tmp_path, desk.authority))
    try:
        tab = browser.new_page()
        tab.goto(desk.address + "/")
        assert tab.evaluate(TRUST) == "active"
    finally:
        browser.close()


@pytest.mark.browser
def test_a_browser_that_does_not_trust_it_shows_no_page(desk, playwright, tmp_path):
    browser = browsers.launch(playwright, env=trusting.home(tmp_path, None))
    try:
        with pytest.raises(Exception, match="ERR_CERT_AUTHORITY_INVALID"):
            browser.new_page().goto(desk.address + "/")
    finally:
        browser.close()


@pytest.mark.browser
def test_the_trust_page_says_when_trust_has_taken(desk, playwright, tmp_path):
    name = addresses.local_name()
    browser = browsers.launch(playwright, f"--host-resolver-rules=MAP {name} 127.0.0.1",
                              env=trusting.home(tmp_path, desk.authority))  # fmt: skip
    try:
        tab = browser.new_page()
        tab.goto(f"http://127.0.0.1:{desk.port + 1}/")
        tab.get_by_role("button").click()
        tab.locator("#told.good").wait_for()
    finally:
        browser.close()


def test_a_move_to_another_network_renews_the_certificate_once(tmp_path, monkeypatch):
    here = addresses.Here("coins.local", (ipaddress.ip_address("192.168.7.20"),))
    authority = Authority.of(tmp_path, here)
    authority.leaf(here)
    told = []
    monkeypatch.setattr(addresses, "private_addresses", lambda: (ipaddress.ip_address("10.0.0.9"),))
    lan.refresh(authority, here, lambda: told.append(1))
    lan.refresh(authority, here, lambda: told.append(1))
    assert told == [1]


class Hasty(Desk):
    """A desk that looks at its addresses five times a second instead of once a minute."""

    program = ("-c", "from exergue import cli; from exergue.serving import lan; lan.EVERY = 0.2; exit(cli.main())")


def test_a_renewed_certificate_is_served_without_a_restart(tmp_path):
    Book.create(tmp_path / "book", name="Test book")
    with Hasty(tmp_path / "book", "--lan") as desk:
        with shake(desk) as line:
            first = line.getpeercert()["serialNumber"]
        (desk.folder / "authority" / "desk.pem").write_text("of another network")

        def renewed() -> bool:
            try:
                with shake(desk) as line:
                    return line.getpeercert()["serialNumber"] != first
            except ConnectionError:  # the server's own process changes hands
                return False

        until(renewed, what="the new certificate")
        assert desk.get("/healthz") == b"ok\n"
        assert desk.stop() == 0
