"""What phone and desk must both know: kinds of fact, grades, denominations, types with diagnostics, coins and notes."""

import gzip
import hashlib
from functools import lru_cache

from ..money import cents
from ..records import kinds, knowledge
from ..records.tables import dumps
from ..shows import drawer


@lru_cache(maxsize=2)
def _pack(mark: str) -> tuple[str, str]:
    body = {"kinds": kinds.spec()["kind"], "fields": kinds.spec()["fields"], "rows": kinds.spec()["rows"],
            "words": kinds.spec()["words"], "cash": drawer.table(), "currencies": list(cents.CURRENCIES),
            **knowledge.catalogue().pack()}  # fmt: skip
    tag = hashlib.sha256(dumps(body).encode()).hexdigest()[:20]
    return dumps(body | {"hash": tag}), tag


def text() -> str:
    """The pack as JSON text."""
    return _pack(knowledge.mark())[0]


@lru_cache(maxsize=2)
def _packed(mark: str) -> bytes:
    return gzip.compress(_pack(mark)[0].encode(), mtime=0)


def packed() -> bytes:
    """The same as gzip; made once for each catalogue."""
    return _packed(knowledge.mark())


def tag() -> str:
    """Its hash: another one means that the phone must fetch it anew."""
    return _pack(knowledge.mark())[1]
