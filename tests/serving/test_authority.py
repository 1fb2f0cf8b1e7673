"""The book's certificate authority, judged by OpenSSL's own verification and by `cryptography`."""

import datetime as dt
import ipaddress
import stat
import subprocess
import sys

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from exergue.commands import Wrong
from exergue.serving import authority as authorities
from exergue.serving.addresses import Here
from exergue.serving.authority import Authority

HERE = Here("coins.local", (ipaddress.ip_address("192.168.7.20"), ipaddress.ip_address("10.1.2.3")))


@pytest.fixture
def authority(tmp_path):
    return Authority.of(tmp_path / "authority", HERE)


def leaf(authority, here=HERE):
    return x509.load_pem_x509_certificate(authority.leaf(here).read_bytes())


def openssl_verify(authority, pem, *more) -> subprocess.CompletedProcess:
    ca = authority.folder / "ca.pem"
    command = ["openssl", "verify", "-x509_strict", "-purpose", "sslserver", *more, "-CAfile", str(ca), str(pem)]
    return subprocess.run(command, capture_output=True, text=True)


@pytest.mark.parametrize("name", ["coins.local", "localhost"])
def test_openssl_accepts_the_desk_under_its_names(authority, name):
    assert openssl_verify(authority, authority.leaf(HERE), "-verify_hostname", name).returncode == 0


@pytest.mark.parametrize("address", ["192.168.7.20", "10.1.2.3", "127.0.0.1", "::1"])
def test_openssl_accepts_the_desk_under_its_addresses(authority, address):
    assert openssl_verify(authority, authority.leaf(HERE), "-verify_ip", address).returncode == 0


def test_openssl_refuses_the_desk_under_another_name(authority):
    assert openssl_verify(authority, authority.leaf(HERE), "-verify_hostname", "other.local").returncode != 0


def forged(authority, name: x509.GeneralName):
    """A certificate for `name` by someone who stole the authority's key."""
    key = ec.generate_private_key(ec.SECP256R1())
    now = dt.datetime.now(dt.UTC)
    certificate = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "forged")]))
        .issuer_name(authority.certificate.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + dt.timedelta(days=30))
        .add_extension(x509.SubjectAlternativeName([name]), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key()), critical=False
        )
        .sign(authority.key, hashes.SHA256())
    )
    path = authority.folder / "forged.pem"
    path.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    return path


@pytest.mark.parametrize("name", [
    x509.DNSName("bank.example"),
    x509.DNSName("local.example"),
    x509.DNSName("notlocal"),
    x509.IPAddress(ipaddress.ip_address("198.51.100.7")),
    x509.IPAddress(ipaddress.ip_address("172.32.0.1")),
    x509.IPAddress(ipaddress.ip_address("2001:db8::1")),
])  # fmt: skip
def test_a_stolen_key_is_of_no_use_elsewhere(authority, name):
    """RFC 5280, section 4.2.1.10, as OpenSSL applies it."""
    verdict = openssl_verify(authority, forged(authority, name))
    assert verdict.returncode != 0
    assert "permitted subtree violation" in verdict.stderr


@pytest.mark.parametrize("name", [
    x509.DNSName("another.local"),
    x509.IPAddress(ipaddress.ip_address("172.31.255.255")),
    x509.IPAddress(ipaddress.ip_address("fd00::1")),
])  # fmt: skip
def test_the_fence_leaves_the_home_network_in(authority, name):
    assert openssl_verify(authority, forged(authority, name)).returncode == 0


def test_the_authority_signs_no_further_authority(authority):
    constraints = authority.certificate.extensions.get_extension_for_class(x509.BasicConstraints)
    assert constraints.critical and constraints.value.ca and constraints.value.path_length == 0


def test_the_desk_serves_and_does_nothing_else(authority):
    certificate = leaf(authority)
    usage = certificate.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert not certificate.extensions.get_extension_for_class(x509.BasicConstraints).value.ca


def test_the_desk_is_vouched_for_no_longer_than_browsers_allow(authority):
    """CA/Browser Forum Baseline Requirements 6.3.2: at most 398 days (from memory)."""
    certificate = leaf(authority)
    assert certificate.not_valid_after_utc - certificate.not_valid_before_utc <= dt.timedelta(days=397)


def test_a_fitting_certificate_is_kept(authority):
    first = authority.leaf(HERE).read_bytes()
    assert Authority.of(authority.folder, HERE).leaf(HERE).read_bytes() == first


def test_another_address_brings_another_certificate(authority):
    first = leaf(authority)
    moved = Here(HERE.name, (ipaddress.ip_address("192.168.99.4"),))
    second = leaf(authority, moved)
    assert first.serial_number != second.serial_number
    assert openssl_verify(authority, authority.leaf_path, "-verify_ip", "192.168.99.4").returncode == 0


def test_a_certificate_near_its_end_is_renewed(authority, monkeypatch):
    first = leaf(authority)
    later = first.not_valid_after_utc - dt.timedelta(days=authorities.RENEW_DAYS - 1)
    monkeypatch.setattr(authorities, "_now", lambda: later)
    second = leaf(authority)
    assert second.not_valid_after_utc > first.not_valid_after_utc


def test_a_damaged_certificate_is_replaced(authority):
    authority.leaf(HERE).write_text("rubbish")
    assert openssl_verify(authority, authority.leaf(HERE)).returncode == 0


def test_a_certificate_of_another_authority_is_replaced(authority, tmp_path):
    other = Authority.of(tmp_path / "other", HERE)
    authority.leaf_path.write_bytes(other.leaf(HERE).read_bytes())
    assert openssl_verify(authority, authority.leaf(HERE)).returncode == 0


def test_a_damaged_authority_is_told_and_left_alone(authority):
    (authority.folder / "ca.key").write_text("rubbish")
    with pytest.raises(Wrong, match="cannot be read"):
        Authority.of(authority.folder, HERE)
    assert (authority.folder / "ca.key").read_text() == "rubbish"


def test_an_authority_at_its_end_is_told(authority, monkeypatch):
    monkeypatch.setattr(authorities, "_now", lambda: authority.certificate.not_valid_after_utc)
    with pytest.raises(Wrong, match="trust the new one"):
        Authority.of(authority.folder, HERE)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such file modes")
def test_keys_are_for_their_owner_alone(authority):
    authority.leaf(HERE)
    for name in ("ca.key", "desk.pem"):
        assert stat.S_IMODE((authority.folder / name).stat().st_mode) == 0o600
    assert stat.S_IMODE(authority.folder.stat().st_mode) == 0o700


def test_the_fingerprint_is_the_one_that_openssl_prints(authority):
    said = subprocess.run(["openssl", "x509", "-in", authority.folder / "ca.pem", "-noout", "-fingerprint", "-sha256"],
                          capture_output=True, text=True, check=True).stdout  # fmt: skip
    assert said.strip().split("=")[1].replace(":", " ") == authority.fingerprint
