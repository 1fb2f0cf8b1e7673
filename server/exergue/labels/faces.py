"""The label's type: Source Sans 3 set in whole dots, measured, broken into lines and cut short where it must be."""

import unicodedata
from functools import lru_cache

from PIL import ImageFont

from exergue import asset_dir

CAP = 0.66  # height of capitals and figures, in ems
_REFERENCE = 512  # dots an em at which widths are measured
_NOWHERE = "\uffff"


@lru_cache(maxsize=256)
def face(weight: int, size: int) -> ImageFont.FreeTypeFont:
    """The face of `weight` (400, 600 or 700) at `size` dots an em."""
    folder = asset_dir("web") / "vendor" / "@fontsource" / "source-sans-3" / "files"
    path = folder / f"source-sans-3-latin-{weight}-normal.woff"
    return ImageFont.truetype(str(path), max(size, 4), layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=16384)
def ems(text: str, weight: int) -> float:
    """Width of `text`, in ems."""
    return face(weight, _REFERENCE).getlength(text) / _REFERENCE


def width(text: str, weight: int, size: int) -> int:
    """Width of `text` as it is drawn, in dots."""
    return round(face(weight, size).getlength(text)) if text else 0


@lru_cache(maxsize=4096)
def printable(text: str) -> str:
    """`text` in the letters that the face has: others lose their accent, or become a question mark."""
    return " ".join("".join(_letter(one) for one in unicodedata.normalize("NFC", text)).split())


@lru_cache(maxsize=4096)
def _letter(letter: str) -> str:
    if letter.isspace():
        return " "
    if unicodedata.category(letter)[0] == "C":
        return ""
    if _has(letter):
        return letter
    base = "".join(one for one in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(one))
    if base and base != letter and all(_has(one) for one in base):
        return base
    return "" if unicodedata.combining(letter) else "?"


def _has(letter: str) -> bool:
    font = face(400, 64)
    return bytes(font.getmask(letter)) != bytes(font.getmask(_NOWHERE))


def shorten(text: str, weight: int, size: int, room: int) -> str:
    """`text`, cut with an ellipsis where it is wider than `room` dots."""
    if width(text, weight, size) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width(text[:middle].rstrip(" ,;(") + "…", weight, size) <= room:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip(" ,;(") + "…" if low else ""


def broken(text: str, weight: int, size: int, room: int, most: int) -> list[str]:
    """`text` in at most `most` lines of `room` dots, broken at spaces; what is left over is cut short."""
    lines, line = [], ""
    words = text.split()
    for at, word in enumerate(words):
        longer = f"{line} {word}" if line else word
        if not line or width(longer, weight, size) <= room:
            line = longer
        elif len(lines) == most - 1:
            line = " ".join([line, *words[at:]])
            break
        else:
            lines.append(line)
            line = word
    if line:
        lines.append(line)
    return [shorten(one, weight, size, room) for one in lines]
