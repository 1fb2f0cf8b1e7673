"""The trust page's HTML, with its style and script inside, so that one answer is the whole page."""

import base64
import hashlib
from dataclasses import dataclass
from importlib.resources import files

from jinja2 import Environment


@dataclass(frozen=True)
class Page:
    """`name` and `fingerprint` of the authority; `desk` is the HTTPS base address, `others` work as well."""

    name: str
    fingerprint: str
    desk: str
    others: tuple[str, ...] = ()

    def html(self) -> bytes:
        template = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True).from_string(_part("page.html"))
        parts = {"style": _part("page.css"), "script": _part("page.js")}
        return template.render(page=self, pairs=self.fingerprint.split(), **parts).encode()

    def policy(self) -> str:
        """Content-Security-Policy: its own style and script by their hashes, and one question to the desk."""
        return "; ".join(
            (
                "default-src 'none'",
                f"style-src {_hash(_part('page.css'))}",
                f"script-src {_hash(_part('page.js'))}",
                "font-src 'self'",
                f"connect-src {self.desk}",
                "base-uri 'none'",
                "form-action 'none'",
                "frame-ancestors 'none'",
            )
        )


def _part(name: str) -> str:
    return (files("exergue.serving.trust") / name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return "'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'"
