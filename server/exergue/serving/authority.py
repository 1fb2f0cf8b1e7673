"""The book's own certificate authority, and the certificate that it gives this desk.

Phones trust it by hand, so it is fenced: its certificate says that it may vouch for `.local` names, `localhost`
and private addresses alone (RFC 5280 section 4.2.1.10). A stolen key is of no use for any other site.
"""

import datetime as dt
import ipaddress
import os
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from exergue.commands import Wrong
from exergue.serving.addresses import PRIVATE, Here

AUTHORITY_DAYS = 3650
LEAF_DAYS = 397  # the most that browsers take from public authorities; Apple takes 825 from one's own
RENEW_DAYS = 45  # before its end
SLACK = dt.timedelta(days=1)  # a phone's clock may be behind
LOOPBACK = (ipaddress.ip_address("127.0.0.1"), ipaddress.ip_address("::1"))


@dataclass(frozen=True)
class Authority:
    """An authority on disk: `ca.pem`, `ca.key` and `desk.pem` (the desk's certificate and key) in `folder`."""

    folder: Path
    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey

    @classmethod
    def of(cls, folder: Path, here: Here) -> "Authority":
        """The authority in `folder`, made on first use. Raises Wrong where it is damaged or has run out."""
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not (folder / "ca.pem").exists():
            _make_authority(folder, here)
        try:
            certificate = x509.load_pem_x509_certificate((folder / "ca.pem").read_bytes())
            key = serialization.load_pem_private_key((folder / "ca.key").read_bytes(), None)
        except (OSError, ValueError) as error:
            raise Wrong(f"The certificate authority in {folder} cannot be read ({error}); put it back from a backup, "
                        "or delete that folder and have each phone trust the new one.") from error  # fmt: skip
        if certificate.not_valid_after_utc < _now() + dt.timedelta(days=RENEW_DAYS):
            raise Wrong(f"The certificate authority in {folder} ends on {certificate.not_valid_after_utc:%Y-%m-%d}; "
                        "delete that folder, and have each phone trust the new one.")  # fmt: skip
        return cls(folder, certificate, key)

    @property
    def name(self) -> str:
        """What a phone's settings call it."""
        return self.certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value

    @property
    def fingerprint(self) -> str:
        """SHA-256 in hex pairs, as phones show it."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(" ").upper()

    def der(self) -> bytes:
        return self.certificate.public_bytes(serialization.Encoding.DER)

    def leaf(self, here: Here) -> Path:
        """PEM file of the desk's certificate and key, made anew where it does not fit `here` or nears its end."""
        if not self._fits(here):
            _write(self.leaf_path, self._issue(here))
        return self.leaf_path

    @property
    def leaf_path(self) -> Path:
        return self.folder / "desk.pem"

    def _fits(self, here: Here) -> bool:
        try:
            leaf = x509.load_pem_x509_certificate(self.leaf_path.read_bytes())
            leaf.verify_directly_issued_by(self.certificate)
        except Exception:  # whatever is wrong with it, another one is made
            return False
        names = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        wanted = {*here.names, *here.addresses, *LOOPBACK}
        covered = {*names.get_values_for_type(x509.DNSName), *names.get_values_for_type(x509.IPAddress)}
        return wanted <= covered and leaf.not_valid_after_utc > _now() + dt.timedelta(days=RENEW_DAYS)

    def _issue(self, here: Here) -> bytes:
        key = ec.generate_private_key(ec.SECP256R1())
        names = [x509.DNSName(name) for name in here.names]
        names += [x509.IPAddress(address) for address in (*LOOPBACK, *here.addresses)]
        start = _now() - SLACK
        end = min(start + dt.timedelta(days=LEAF_DAYS), self.certificate.not_valid_after_utc)
        leaf = (
            _builder(here.name, self.certificate.subject, key.public_key(), start, end)
            .add_extension(x509.SubjectAlternativeName(names), critical=False)
            .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
            .add_extension(_usage(digital_signature=True), critical=True)
            .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
            .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(self.key.public_key()), critical=False)
            .sign(self.key, hashes.SHA256())
        )
        return leaf.public_bytes(serialization.Encoding.PEM) + _key_pem(key)


def _make_authority(folder: Path, here: Here) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    public = key.public_key()
    mark = x509.SubjectKeyIdentifier.from_public_key(public).digest.hex()[:4].upper()
    name = f"Exergue desk {here.name.removesuffix('.local')[:40]} {mark}"
    fence = [x509.DNSName("local"), x509.DNSName("localhost"), *(x509.IPAddress(block) for block in PRIVATE)]
    start = _now() - SLACK
    certificate = (
        _builder(name, None, public, start, start + dt.timedelta(days=AUTHORITY_DAYS))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(x509.NameConstraints(permitted_subtrees=fence, excluded_subtrees=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    _write(folder / "ca.key", _key_pem(key))
    _write(folder / "ca.pem", certificate.public_bytes(serialization.Encoding.PEM))


def _builder(name: str, issuer: x509.Name | None, public, start: dt.datetime, end: dt.datetime):
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer or subject)
        .public_key(public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(end)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public), critical=False)
    )


def _usage(**on: bool) -> x509.KeyUsage:
    every = ("digital_signature", "content_commitment", "key_encipherment", "data_encipherment", "key_agreement",
             "key_cert_sign", "crl_sign", "encipher_only", "decipher_only")  # fmt: skip
    return x509.KeyUsage(**{each: on.get(each, False) for each in every})


def _key_pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _write(path: Path, data: bytes) -> None:
    """Whole or not at all, and readable by its owner alone."""
    new = path.with_name(path.name + ".new")
    new.unlink(missing_ok=True)
    with open(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(data)
    os.replace(new, path)


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)
