"""Reads a printed PDF as a phone would: each page rasterised, every QR symbol decoded by an independent reader."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import zxingcpp
from PIL import Image

from exergue.labels import ids


@dataclass(frozen=True)
class Check:
    """What a PDF's labels say: IDs that were read, that were not, that nobody asked for, that stand there twice."""

    read: tuple[str, ...]
    missing: tuple[str, ...]
    strange: tuple[str, ...]
    twice: tuple[str, ...]

    @property
    def good(self) -> bool:
        return not (self.missing or self.strange or self.twice)

    def sentence(self) -> str:
        """One sentence for people."""
        if self.good:
            return f"All {len(self.read)} labels read."
        named = (("do not read", self.missing), ("were not asked for", self.strange), ("stand there twice", self.twice))
        return "; ".join(f"{len(which)} labels {what}: {_some(which)}" for what, which in named if which) + "."


def read(pdf: Path | str | bytes, dpi: int) -> list[list[str]]:
    """The text of every QR symbol, page by page, of `pdf` (a path or its bytes) rasterised at `dpi`."""
    return [_texts(page) for page in rasters(pdf, dpi)]


def check(pdf: Path | str | bytes, expected: Iterable[str], dpi: int = 300) -> Check:
    """Compares the labels of `pdf` with the IDs `expected`."""
    wanted = list(dict.fromkeys(expected))
    counts: Counter[str] = Counter()
    for texts in read(pdf, dpi):
        for text in texts:
            try:
                counts[ids.parse(text)] += 1
            except ids.BadLabel:
                counts[text] += 1
    return Check(
        read=tuple(one for one in wanted if counts[one]),
        missing=tuple(one for one in wanted if not counts[one]),
        strange=tuple(one for one in counts if one not in set(wanted)),
        twice=tuple(one for one in wanted if counts[one] > 1),
    )


def rasters(pdf: Path | str | bytes, dpi: int) -> Iterator[Image.Image]:
    """Each page in grey, as a printer of `dpi` dots an inch would rasterise it."""
    import pypdfium2  # not at the desk's start

    document = pypdfium2.PdfDocument(pdf)
    try:
        for page in document:
            # a hair less: a page of exactly 3300 dots must not be stretched to 3301 by a rounding error
            yield page.render(scale=dpi / 72 * (1 - 1e-6), grayscale=True).to_pil()
            page.close()
    finally:
        document.close()


def _texts(picture) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCodeModel2)]


def _some(which: tuple[str, ...]) -> str:
    shown = ", ".join(ids.show(one) if len(one) == ids.LENGTH else one for one in which[:5])
    return shown + (f" and {len(which) - 5} more" if len(which) > 5 else "")
