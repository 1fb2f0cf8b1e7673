"""The page that takes a phone through trusting the book's certificate authority, over plain HTTP.

It has to be plain HTTP: a phone that does not trust the desk yet cannot open an HTTPS page of it. So the page
holds no secret, and tells people to compare the fingerprint in their phone's settings with the terminal's.
"""

import plistlib
import socket
import socketserver
import threading
import uuid
from dataclasses import dataclass
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

from exergue import asset_dir
from exergue.serving.trust.page import Page

ASKED = "/trusted"  # at the HTTPS desk
FACES = {
    "/serif.woff2": "@fontsource/source-serif-4/files/source-serif-4-latin-600-normal.woff2",
    "/sans.woff2": "@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2",
    "/bold.woff2": "@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2",
}


@dataclass(frozen=True)
class Answer:
    """Body, its media type and further headers."""

    body: bytes
    type: str
    headers: tuple[tuple[str, str], ...] = ()


def answers(authority, page: Page) -> dict[str, Answer]:
    """Every address that this small server knows."""
    file = (("Content-Disposition", 'attachment; filename="exergue-authority.crt"'),)
    known = {
        "/": Answer(page.html(), "text/html; charset=utf-8", (("Content-Security-Policy", page.policy()),)),
        # The media types by which Android and iOS know what they are given.
        "/authority.crt": Answer(authority.der(), "application/x-x509-ca-cert", file),
        "/authority.mobileconfig": Answer(profile(authority), "application/x-apple-aspen-config"),
    }
    for address, face in FACES.items():
        known[address] = Answer((asset_dir("web") / "vendor" / face).read_bytes(), "font/woff2")
    return known


def profile(authority) -> bytes:
    """An Apple configuration profile that holds the authority's certificate and nothing else."""
    mark = uuid.uuid5(uuid.NAMESPACE_OID, authority.fingerprint)

    def payload(kind: str, part: str, **more) -> dict:
        return {
            "PayloadType": kind,
            "PayloadVersion": 1,
            "PayloadIdentifier": f"exergue.{mark}.{part}",
            "PayloadUUID": str(uuid.uuid5(mark, part)).upper(),
            "PayloadDisplayName": authority.name,
            **more,
        }

    root = payload("com.apple.security.root", "root", PayloadContent=authority.der(),
                   PayloadCertificateFileName="exergue-authority.crt")  # fmt: skip
    about = "Lets this device reach your Exergue desk over HTTPS on your own network."
    return plistlib.dumps(
        payload("Configuration", "profile", PayloadContent=[root], PayloadDescription=about,
                PayloadRemovalDisallowed=False)
    )  # fmt: skip


def told():
    """The desk's answer to the trust page's question: that it came over HTTPS at all says enough."""
    return "", 204, {"Cross-Origin-Resource-Policy": "cross-origin"}


class TrustServer(ThreadingHTTPServer):
    """Serves `known` on `host` (`::` means IPv4 too) in a thread of this process until it ends."""

    daemon_threads = True

    def __init__(self, host: str, port: int, known: dict[str, Answer]):
        self.known = known
        self.address_family = socket.AF_INET6 if ":" in host else socket.AF_INET
        super().__init__((host, port), Handler)

    def server_bind(self) -> None:
        if self.address_family == socket.AF_INET6:
            self.socket.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 0)
        # HTTPServer's own would look this host up in the DNS, which can take seconds on a network without one.
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = self.server_address[:2]

    def start(self) -> None:
        threading.Thread(target=self.serve_forever, daemon=True).start()


class Handler(BaseHTTPRequestHandler):
    server_version, sys_version = "exergue", ""
    timeout = 10  # seconds; a silent phone lets go of its thread
    server: TrustServer

    def do_GET(self) -> None:
        answer = self.server.known.get(self.path.partition("?")[0])
        if answer is None:
            self.send_error(404)
            return
        self.send_response(200)
        self.send_header("Content-Type", answer.type)
        self.send_header("Content-Length", str(len(answer.body)))
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-store")
        for name, value in answer.headers:
            self.send_header(name, value)
        self.end_headers()
        if self.command == "GET":
            self.wfile.write(answer.body)

    do_HEAD = do_GET

    def log_message(self, *_) -> None:
        """Silent: the terminal belongs to the desk's own lines."""
