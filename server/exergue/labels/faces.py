"""The label's type: Source Sans 3 set in whole dots, measured, broken into lines and cut short where it must be."""

import math
import unicodedata
from functools import lru_cache
from itertools import combinations, pairwise

from PIL import Image, ImageDraw, ImageFont

from exergue import asset_dir

CAP = 0.66  # height of capitals and figures, in ems
_MOST_WORDS = 14  # beyond, an even break is not worth its search
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


@lru_cache(maxsize=16384)
def width(text: str, weight: int, size: int) -> int:
    """Width of `text` as it is drawn, in dots."""
    return math.ceil(face(weight, size).getlength(text, mode="1")) if text else 0


@lru_cache(maxsize=256)
def inked(text: str, weight: int, size: int) -> tuple[Image.Image, int]:
    """`text` as a 1-bit picture of its ink, and its top from the baseline.

    Kept, for the same words recur on a sheet and drawing them takes most of a label's time after its symbol.
    """
    font = face(weight, size)
    left, top, right, bottom = map(round, font.getbbox(text, mode="1", anchor="ls"))
    tile = Image.new("1", (max(1, right - left), max(1, bottom - top)))
    ImageDraw.Draw(tile).text((-left, -top), text, font=font, fill=1, anchor="ls")
    return tile, top


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


def broken(text: str, weight: int, size: int, room: int, most: int) -> list[str] | None:
    """`text` in as few lines as `room` dots allow, of lengths as even as can be; None where it needs over `most`."""
    words = text.split()
    if len(words) > _MOST_WORDS:
        return None
    wide = [width(word, weight, size) for word in words]
    space = width(" ", weight, size)
    for count in range(1, min(most, len(words)) + 1):
        best = None
        for inner in combinations(range(1, len(words)), count - 1):
            cuts = (0, *inner, len(words))
            widest = max(sum(wide[a:b]) + space * (b - a - 1) for a, b in pairwise(cuts))
            if widest <= room and (best is None or widest < best[0]):
                best = widest, cuts
        if best:
            return [" ".join(words[a:b]) for a, b in pairwise(best[1])]
    return None if words else []


def squeezed(text: str, weight: int, size: int, room: int, most: int) -> list[str]:
    """`text` in at most `most` lines, each as full as can be; what is left over is cut short."""
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
    return [shorten(one, weight, size, room) for one in [*lines, line] if one]
