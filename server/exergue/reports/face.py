"""The face of printed reports, Source Sans 3: widths, glyphs, and words broken into lines."""

import io
import unicodedata
from functools import lru_cache

from fontTools.ttLib import TTFont

from exergue import asset_dir

from ..labels.faces import printable

REGULAR, STRONG = 400, 600
_KEPT = 100_000  # widths of texts


class Face:
    """One weight of the face. Sizes are points; widths come out in points."""

    def __init__(self, weight: int):
        folder = asset_dir("web") / "vendor" / "@fontsource" / "source-sans-3" / "files"
        self._font = TTFont(folder / f"source-sans-3-latin-{weight}-normal.woff", recalcTimestamp=False)
        self.name = f"SourceSans3-{weight}"
        names, metrics = self._font.getBestCmap(), self._font["hmtx"]
        self.glyphs = {chr(code): self._font.getGlyphID(name) for code, name in names.items()}
        self.advance = {chr(code): metrics[name][0] for code, name in names.items()}
        self.advances = [metrics[name][0] for name in self._font.getGlyphOrder()]
        self._hex = {letter: f"{glyph:04x}" for letter, glyph in self.glyphs.items()}
        self._letters = frozenset(self.glyphs)
        self._widths: dict[str, int] = {}

    def width(self, text: str, size: float) -> float:
        """Width of a text that `clean` gave."""
        units = self._widths.get(text)
        if units is None:
            if len(self._widths) > _KEPT:
                self._widths.clear()
            units = self._widths[text] = sum(map(self.advance.__getitem__, text))
        return units * size / 1000

    def code(self, text: str) -> str:
        """The text as hexadecimal glyph numbers."""
        return "".join(map(self._hex.__getitem__, text))

    def clean(self, text: str) -> str:
        """The text in letters that the face has, one paragraph."""
        if self._letters.issuperset(text) and "  " not in text:
            return text
        plain = printable(unicodedata.normalize("NFC", text))
        return "".join(letter if letter in self._letters else "?" for letter in plain)

    def lacks(self, text: str) -> bool:
        """Whether `clean` has to put a question mark for a letter."""
        if self._letters.issuperset(text):
            return False
        return "?" in self.clean(text.replace("?", " "))

    def lines(self, text: str, size: float, room: float) -> list[str]:
        """A clean text in lines no wider than `room`; a word that is wider is broken where it must be."""
        if self.width(text, size) <= room:
            return [text]
        found, line = [], ""
        for word in text.split():
            longer = f"{line} {word}" if line else word
            if self.width(longer, size) <= room:
                line = longer
                continue
            if line:
                found.append(line)
            line = word
            while self.width(line, size) > room and len(line) > 1:
                cut = len(line) - 1
                while cut > 1 and self.width(line[:cut], size) > room:
                    cut -= 1
                found.append(line[:cut])
                line = line[cut:]
        return [*found, line] if line or not found else found

    def paragraphs(self, text: str, size: float, room: float) -> list[str]:
        """Any text in lines: its own line breaks are kept."""
        return [line for part in text.splitlines() for line in self.lines(self.clean(part), size, room)]

    def truetype(self) -> bytes:
        """The whole face as a TrueType file."""
        out = io.BytesIO()
        self._font.flavor = None
        self._font.save(out, reorderTables=False)
        return out.getvalue()

    def box(self) -> tuple[list[int], int, int, int]:
        """Bounding box, ascent, descent and height of capitals, in thousandths of an em."""
        head, lines = self._font["head"], self._font["hhea"]
        return [head.xMin, head.yMin, head.xMax, head.yMax], lines.ascent, lines.descent, self._font["OS/2"].sCapHeight


@lru_cache(maxsize=4)
def face(weight: int) -> Face:
    """The face of weight REGULAR or STRONG."""
    return Face(weight)
