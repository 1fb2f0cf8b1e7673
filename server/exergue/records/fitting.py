"""What the journal keeps of an entry that it cannot hold whole: refused by its own verdict, so that the next goes on."""

import json
import re

from .tables import dumps
from .verdicts import Refused

MAX_CHARS = 200_000  # of an entry as JSON
KEPT = 2_000  # characters kept of a field that is too long
_HALF = re.compile("[\ud800-\udfff]")  # half of a UTF-16 pair: no text in UTF-8, and so none in the database


def problem(text: str) -> Refused | None:
    """Why an entry with this JSON text cannot be held whole; None where it can."""
    if len(text) > MAX_CHARS:
        return Refused("too_long", f"This entry is longer than {MAX_CHARS:,} characters; make it several.")
    if not text.isascii() and _HALF.search(text):
        return Refused("half_character", "This entry holds half of a character; enter it again without it.")
    return None


def whole(text: str) -> str:
    """The text with each half of a character written out, as \\ud83e."""
    return _HALF.sub(lambda half: f"\\u{ord(half[0]):x}", text)


def kept(body: dict) -> dict:
    """As much of `body` as the journal can hold: halves of characters written out, fields cut where it is too long."""
    sound = json.loads(_HALF.sub(lambda half: f"\\\\u{ord(half[0]):x}", dumps(body)))
    if len(dumps(sound)) <= MAX_CHARS:
        return sound
    short = {name[:KEPT]: _cut(value) for name, value in sound.items()}
    return short if len(dumps(short)) <= MAX_CHARS else _cut(sound)


def _cut(value):
    text = value if isinstance(value, str) else dumps(value)
    if len(text) <= KEPT:
        return value
    return text[:KEPT] + "…" if isinstance(value, str) else {"begins": text[:KEPT] + "…"}
