"""Pages of 1-bit pictures as a PDF whose dots fall on the printer's dots.

Pillow's own PDF makes each page as large as its picture; a sheet of paper is hardly ever a whole number of dots.
Here the page box is the paper to the point, the picture hangs from its upper left corner at true scale, and the
document asks the viewer not to fit it to the page. Pages leave memory one by one. ISO 32000-1.
"""

import io
import math

from PIL import Image


# Points by which a picture is drawn inside its dots. Rasterisers widen a picture to whole dots, and one that ends at
# 2550.00001 would be stretched to 2551: each of its dots would blend with the next.
_HAIR = 0.001


class Pages:
    """A PDF being written to the binary file `out`, page by page; `close` completes it."""

    def __init__(self, out, title: str):
        self._out = out
        self._at = 0
        self._offsets: dict[int, int] = {}
        self._pages: list[int] = []
        self._write(b"%PDF-1.5\n%\xe2\xe3\xcf\xd3\n")
        self._title = title

    def add(self, picture: Image.Image, size: tuple[float, float], dpi: int) -> None:
        """Adds a page of `size` points that shows `picture` (1-bit, ink 1) at `dpi` dots an inch."""
        data = group4(picture)
        wide, high = (side * 72 / dpi - 2 * _HAIR for side in picture.size)
        image, content, page = (self._next(step) for step in range(3))
        self._stream(
            image,
            "/Type /XObject /Subtype /Image /ColorSpace /DeviceGray /BitsPerComponent 1 "
            f"/Width {picture.width} /Height {picture.height} /Filter /CCITTFaxDecode "
            f"/DecodeParms << /K -1 /Columns {picture.width} /Rows {picture.height} /BlackIs1 false >>",
            data,
        )
        placed = f"q {_point(wide)} 0 0 {_point(high)} {_point(_HAIR)} {_point(size[1] - high - _HAIR)} cm /P Do Q\n"
        self._stream(content, "", placed.encode("ascii"))
        box = f"[0 0 {_point(size[0])} {_point(size[1])}]"
        self._object(
            page,
            f"<< /Type /Page /Parent 2 0 R /MediaBox {box} /Contents {content} 0 R "
            f"/Resources << /XObject << /P {image} 0 R >> >> >>",
        )
        self._pages.append(page)

    def close(self) -> None:
        """Writes what a PDF ends with."""
        self._object(1, "<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>")
        kids = " ".join(f"{page} 0 R" for page in self._pages)
        self._object(2, f"<< /Type /Pages /Count {len(self._pages)} /Kids [{kids}] >>")
        title = ("\ufeff" + self._title).encode("utf-16-be").hex()
        self._object(3, f"<< /Title <{title}> /Producer (Exergue) >>")
        start, count = self._at, len(self._offsets) + 1
        table = "".join(f"{self._offsets[number]:010} 00000 n \n" for number in range(1, count))
        self._write(f"xref\n0 {count}\n0000000000 65535 f \n{table}".encode("ascii"))
        self._write(f"trailer\n<< /Size {count} /Root 1 0 R /Info 3 0 R >>\n".encode("ascii"))
        self._write(f"startxref\n{start}\n%%EOF\n".encode("ascii"))

    def _next(self, step: int) -> int:
        return 4 + 3 * len(self._pages) + step

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._at += len(data)

    def _object(self, number: int, text: str) -> None:
        self._offsets[number] = self._at
        self._write(f"{number} 0 obj\n{text}\nendobj\n".encode("ascii"))

    def _stream(self, number: int, entries: str, data: bytes) -> None:
        self._offsets[number] = self._at
        self._write(f"{number} 0 obj\n<< {entries} /Length {len(data)} >>\nstream\n".encode("ascii"))
        self._write(data)
        self._write(b"\nendstream\nendobj\n")


def group4(picture: Image.Image) -> bytes:
    """The picture as one CCITT group 4 strip (ITU-T T.6); set dots are black."""
    whole = math.ceil(picture.width / 8) * picture.height
    held = io.BytesIO()
    picture.save(held, "TIFF", compression="group4", strip_size=whole)
    held.seek(0)
    tags = Image.open(held).tag_v2
    (offset,), (length,) = tags[273], tags[279]
    return held.getvalue()[offset : offset + length]


def _point(value: float) -> str:
    return f"{value:.5f}".rstrip("0").rstrip(".")
