"""Reading what people type: small letters, plain tokens, the longest known phrase first."""

import re
import unicodedata

_TOKEN = re.compile(r"½|¼|\d+(?:[./]\d+)?|[^\W\d_]+|[^\s\w]|_")
_DASHES = dict.fromkeys(map(ord, "‐‑‒–—―−"), "-")


def plain(text: str) -> str:
    """Small letters, one kind of dash and of space, full-width forms folded; ½ and ¼ stay."""
    kept = text.replace("½", "\0").replace("¼", "\1")
    folded = unicodedata.normalize("NFKC", kept).replace("\0", "½").replace("\1", "¼")
    return " ".join(folded.translate(_DASHES).casefold().split())


def tokens(text: str) -> list[str]:
    """Words, numbers and signs of `text`; "vf20" gives ["vf", "20"], "1/2c" gives ["1/2", "c"]."""
    return _TOKEN.findall(plain(text))


def phrases(entries: dict[str, object]) -> dict[tuple[str, ...], object]:
    """Phrase tokens → meaning, for `longest`."""
    return {tuple(tokens(said)): meaning for said, meaning in entries.items()}


def longest(words: list[str], at: int, known: dict[tuple[str, ...], object]) -> tuple[int, object]:
    """(length, meaning) of the longest known phrase that begins at `at`; (0, None) without one."""
    reach = max(map(len, known), default=0)
    for length in range(min(reach, len(words) - at), 0, -1):
        key = tuple(words[at : at + length])
        if key in known:
            return length, known[key]
    return 0, None
