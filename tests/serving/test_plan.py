"""What is asked for on the command line, and where the desk then listens."""

import ipaddress
import socket

import pytest
from support.desk import free_port

from exergue.commands import Wrong
from exergue.serving import addresses, plan, settings
from exergue.serving.plan import Wish
from exergue.serving.settings import Written

HERE = addresses.Here("coins.local", (ipaddress.ip_address("192.168.7.20"),))


def made(wish: Wish, written=Written(), **more):
    return plan.make(wish, written, HERE, **more)


def test_only_this_computer_is_served_unless_asked_otherwise():
    port = free_port()
    settled = made(Wish(port=port))
    assert (settled.host, settled.base_address) == ("127.0.0.1", f"http://localhost:{port}")
    assert not settled.lan and settled.proxy_hops == 0


def test_plain_http_is_never_offered_to_others():
    with pytest.raises(Wrong, match="--lan"):
        made(Wish(host="0.0.0.0", port=free_port()))


def test_lan_is_https_under_the_number_when_the_name_is_not_answered_for(monkeypatch):
    monkeypatch.setattr(addresses, "answers", lambda here: False)
    port = free_port(beside=2)
    assert made(Wish(lan=True, port=port)).base_address == f"https://192.168.7.20:{port}"


def test_lan_prefers_the_name_that_outlives_an_address(monkeypatch):
    monkeypatch.setattr(addresses, "answers", lambda here: True)
    port = free_port(beside=2)
    assert made(Wish(lan=True, port=port)).base_address == f"https://coins.local:{port}"


def test_a_proxy_needs_its_hops_said():
    with pytest.raises(Wrong, match="--proxy-hops"):
        made(Wish(port=free_port(), base_address="https://coins.example"))


def test_a_proxy_is_believed_as_far_as_said():
    settled = made(Wish(port=free_port(), base_address="https://coins.example/", proxy_hops=1))
    assert (settled.base_address, settled.proxy_hops, settled.host) == ("https://coins.example", 1, "127.0.0.1")


def test_the_book_may_name_its_address_and_the_command_line_goes_first():
    written = Written("https://written.example", 2)
    assert made(Wish(port=free_port()), written).base_address == "https://written.example"
    asked = made(Wish(port=free_port(), base_address="https://asked.example", proxy_hops=0), written)
    assert (asked.base_address, asked.proxy_hops) == ("https://asked.example", 0)


@pytest.mark.parametrize("base", [
    "coins.example", "ftp://coins.example", "https://", "https://coins.example/path", "http://coins.example",
    "https://coins.example?x=1",
])  # fmt: skip
def test_a_base_address_that_phones_could_not_use_is_refused(base):
    with pytest.raises(Wrong, match="base address"):
        made(Wish(port=free_port(), base_address=base, proxy_hops=1))


def test_lan_and_a_proxy_do_not_go_together():
    with pytest.raises(Wrong, match="reverse proxy"):
        made(Wish(lan=True, base_address="https://coins.example"))


@pytest.mark.parametrize("port", [0, -1, 65534, 99999])
def test_a_port_outside_the_range_is_refused(port):
    with pytest.raises(Wrong, match="port"):
        made(Wish(port=port))


@pytest.fixture
def taken():
    """A port on which somebody listens, sharing it as granian does where the system can."""
    with socket.socket() as other:
        if hasattr(socket, "SO_REUSEPORT"):
            other.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEPORT, 1)
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


def test_a_busy_port_is_told_before_anything_starts(taken):
    with pytest.raises(Wrong, match=f"Port {taken} is in use"):
        made(Wish(port=taken))


def test_the_demo_moves_to_a_free_port_unless_one_was_named(taken, monkeypatch):
    monkeypatch.setattr(plan, "PORT", taken)
    assert made(Wish(), move=True).port > taken
    with pytest.raises(Wrong, match="in use"):
        made(Wish(port=taken), move=True)


def test_book_toml_may_be_absent(tmp_path):
    assert settings.read(tmp_path) == Written()


def test_book_toml_gives_the_address(tmp_path):
    (tmp_path / "book.toml").write_text('base_address = "https://coins.example"\nproxy_hops = 1\n')
    assert settings.read(tmp_path) == Written("https://coins.example", 1)


@pytest.mark.parametrize("text", ["base_address = ", "baseaddress = 'x'", "base_address = 3", "proxy_hops = true"])
def test_a_slip_in_book_toml_is_told(tmp_path, text):
    (tmp_path / "book.toml").write_text(text)
    with pytest.raises(Wrong, match="book.toml"):
        settings.read(tmp_path)


@pytest.mark.parametrize(("address", "private"), [
    ("10.255.255.255", True), ("11.0.0.0", False), ("172.15.255.255", False), ("172.16.0.0", True),
    ("172.31.255.255", True), ("172.32.0.0", False), ("192.168.0.1", True), ("192.169.0.1", False),
    ("169.254.10.10", True), ("100.64.0.1", False), ("192.0.2.2", False), ("8.8.8.8", False),
    ("fd12::1", True), ("fe80::1", False), ("2001:db8::1", False),
])  # fmt: skip
def test_private_means_what_the_rfcs_say(address, private):
    """RFC 1918 section 3; RFC 3927; RFC 4193."""
    assert addresses.is_private(ipaddress.ip_address(address)) is private


@pytest.mark.parametrize(("host", "name"), [
    ("Coins", "coins.local"), ("coins.home.example", "coins.local"), ("Anna's PC", "anna-s-pc.local"),
    ("_", "desk.local"),
])  # fmt: skip
def test_the_name_suits_multicast_dns(host, name, monkeypatch):
    monkeypatch.setattr(socket, "gethostname", lambda: host)
    monkeypatch.setattr(addresses.sys, "platform", "linux")
    assert addresses.local_name() == name
