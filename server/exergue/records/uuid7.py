"""UUID version 7 (RFC 9562): 48 bits of milliseconds, then random bits."""

import re
import secrets
import uuid

_FORM = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")


def uuid7(ms: int, random_bits=secrets.randbits) -> str:
    """A UUIDv7 for the moment `ms` (milliseconds since 1970 UTC)."""
    rand = random_bits(74)
    value = (ms & (1 << 48) - 1) << 80 | 7 << 76 | (rand >> 62) << 64 | 2 << 62 | rand & (1 << 62) - 1
    return str(uuid.UUID(int=value))


def is_uuid(text) -> bool:
    """A UUID in its lower-case form, any version."""
    return isinstance(text, str) and _FORM.fullmatch(text) is not None
