"""Pages of text, rules and pictures as a PDF that can be searched and copied from. ISO 32000-1."""

import zlib
from dataclasses import dataclass, field

from .face import REGULAR, STRONG, face

WEIGHTS = (REGULAR, STRONG)


@dataclass
class Page:
    """What is drawn on one page; points from its upper left corner. Pictures are indexes that `Document.picture` gave."""

    width: float
    height: float
    texts: list[str] = field(default_factory=list)
    shapes: list[str] = field(default_factory=list)
    pictures: set[int] = field(default_factory=set)
    _pen: tuple = ()

    def text(self, x: float, y: float, words: str, weight: int, size: float, colour: str) -> None:
        """A clean text with its baseline at y."""
        if not words:
            return
        pen = (weight, size, colour)
        if pen != self._pen:
            self.texts.append(f"/F{weight} {size:g} Tf {_rgb(colour)} rg")
            self._pen = pen
        self.texts.append(f"1 0 0 1 {x:.2f} {self.height - y:.2f} Tm <{face(weight).code(words)}> Tj")

    def rule(self, left: float, right: float, y: float, thick: float, colour: str) -> None:
        """A level line."""
        at = self.height - y
        self.shapes.append(f"{_rgb(colour)} RG {thick:g} w {left:.2f} {at:.2f} m {right:.2f} {at:.2f} l S")

    def block(self, left: float, top: float, width: float, height: float, colour: str) -> None:
        """A filled rectangle."""
        self.shapes.append(f"{_rgb(colour)} rg {left:.2f} {self.height - top - height:.2f} {width:.2f} {height:.2f} re f")

    def circle(self, x: float, y: float, radius: float, colour: str) -> None:
        """A filled circle."""
        y, k = self.height - y, radius * 0.5523
        turns = ((radius, 0), (radius, k, k, radius, 0, radius), (-k, radius, -radius, k, -radius, 0),
                 (-radius, -k, -k, -radius, 0, -radius), (k, -radius, radius, -k, radius, 0))  # fmt: skip
        drawn = [" ".join(f"{(y if i % 2 else x) + part:.2f}" for i, part in enumerate(turn)) for turn in turns]
        self.shapes.append(f"{_rgb(colour)} rg {drawn[0]} m {' '.join(f'{one} c' for one in drawn[1:])} f")

    def picture(self, number: int, left: float, top: float, width: float, height: float) -> None:
        """The picture of that number, in a box."""
        self.pictures.add(number)
        self.shapes.append(
            f"q {width:.2f} 0 0 {height:.2f} {left:.2f} {self.height - top - height:.2f} cm /P{number} Do Q"
        )

    def content(self) -> bytes:
        body = "\n".join(self.shapes) + "\nBT\n" + "\n".join(self.texts) + "\nET\n"
        return body.encode("ascii")


class Document:
    """A PDF of pages in the order in which they are added; `bytes` writes it."""

    def __init__(self, title: str):
        self._title = title
        self.pages: list[Page] = []
        self._pictures: list[tuple[bytes, int, int]] = []

    def page(self, width: float, height: float) -> Page:
        """A new page of that size in points."""
        self.pages.append(Page(width, height))
        return self.pages[-1]

    def picture(self, jpeg: bytes, width: int, height: int) -> int:
        """Takes an RGB picture in, `width` × `height` dots; its number."""
        self._pictures.append((jpeg, width, height))
        return len(self._pictures) - 1

    def bytes(self) -> bytes:
        """The document. The same pages give the same bytes."""
        out = _Objects()
        catalog, tree, info = out.next(), out.next(), out.next()
        fonts = " ".join(f"/F{weight} {_font(out, weight)} 0 R" for weight in WEIGHTS)
        pictures = [
            out.stream(
                f"/Type /XObject /Subtype /Image /ColorSpace /DeviceRGB /BitsPerComponent 8 /Width {wide} /Height {high}"
                " /Filter /DCTDecode", jpeg,
            )
            for jpeg, wide, high in self._pictures
        ]  # fmt: skip
        kids = []
        for page in self.pages:
            content = out.packed("", page.content())
            shown = " ".join(f"/P{number} {pictures[number]} 0 R" for number in sorted(page.pictures))
            kids.append(
                out.add(
                    f"<< /Type /Page /Parent {tree} 0 R /MediaBox [0 0 {page.width:g} {page.height:g}] /Contents {content} 0 R"
                    f" /Resources << /Font << {fonts} >> /XObject << {shown} >> >> >>"
                )
            )
        out.add(f"<< /Type /Pages /Count {len(kids)} /Kids [{' '.join(f'{kid} 0 R' for kid in kids)}] >>", tree)
        out.add(f"<< /Type /Catalog /Pages {tree} 0 R /Lang (en) /ViewerPreferences << /DisplayDocTitle true >> >>", catalog)
        title = ("\ufeff" + self._title).encode("utf-16-be").hex()
        out.add(f"<< /Title <{title}> /Producer (Exergue) >>", info)
        return out.whole(catalog, info)


class _Objects:
    """Numbered objects of a PDF, written one after the other."""

    def __init__(self):
        self._data = bytearray(b"%PDF-1.5\n%\xe2\xe3\xcf\xd3\n")
        self._at: dict[int, int] = {}
        self._last = 0

    def next(self) -> int:
        self._last += 1
        return self._last

    def add(self, text: str | bytes, number: int | None = None) -> int:
        number = number or self.next()
        self._at[number] = len(self._data)
        body = text.encode("ascii") if isinstance(text, str) else text
        self._data += b"%d 0 obj\n%b\nendobj\n" % (number, body)
        return number

    def stream(self, entries: str, data: bytes) -> int:
        head = f"<< {entries} /Length {len(data)} >>\nstream\n".encode("ascii")
        return self.add(head + data + b"\nendstream")

    def packed(self, entries: str, data: bytes) -> int:
        return self.stream(f"{entries} /Filter /FlateDecode".strip(), zlib.compress(data, 6))

    def whole(self, catalog: int, info: int) -> bytes:
        start, count = len(self._data), self._last + 1
        table = "".join(f"{self._at[number]:010} 00000 n \n" for number in range(1, count))
        self._data += f"xref\n0 {count}\n0000000000 65535 f \n{table}".encode("ascii")
        self._data += f"trailer\n<< /Size {count} /Root {catalog} 0 R /Info {info} 0 R >>\n".encode("ascii")
        self._data += f"startxref\n{start}\n%%EOF\n".encode("ascii")
        return bytes(self._data)


def _font(out: _Objects, weight: int) -> int:
    """The face as a composite font whose codes are its glyph numbers, with the way back to letters."""
    one = face(weight)
    data = one.truetype()
    file = out.packed(f"/Length1 {len(data)}", data)
    (left, low, right, high), ascent, descent, capital = one.box()
    descriptor = out.add(
        f"<< /Type /FontDescriptor /FontName /{one.name} /Flags 32 /FontBBox [{left} {low} {right} {high}] /ItalicAngle 0"
        f" /Ascent {ascent} /Descent {descent} /CapHeight {capital} /StemV 80 /FontFile2 {file} 0 R >>"
    )
    inner = out.add(
        f"<< /Type /Font /Subtype /CIDFontType2 /BaseFont /{one.name} /CIDToGIDMap /Identity /FontDescriptor {descriptor} 0 R"
        " /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>"
        f" /DW 0 /W [0 [{' '.join(map(str, one.advances))}]] >>"
    )
    letters = out.packed("", _letters(one.glyphs))
    return out.add(
        f"<< /Type /Font /Subtype /Type0 /BaseFont /{one.name} /Encoding /Identity-H"
        f" /DescendantFonts [{inner} 0 R] /ToUnicode {letters} 0 R >>"
    )


def _letters(glyphs: dict[str, int]) -> bytes:
    back = {glyph: letter for letter, glyph in sorted(glyphs.items(), reverse=True)}
    pairs = [f"<{glyph:04x}> <{letter.encode('utf-16-be').hex()}>" for glyph, letter in sorted(back.items())]
    blocks = [pairs[at : at + 100] for at in range(0, len(pairs), 100)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"
        f"1 begincodespacerange <0000> <ffff> endcodespacerange\n{body}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    ).encode("ascii")


def _rgb(colour: str) -> str:
    return " ".join(f"{int(colour[at : at + 2], 16) / 255:.3g}" for at in (1, 3, 5))
