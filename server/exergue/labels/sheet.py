"""Labels on pages: a PDF at true scale, one dot of the picture for one dot of the printer."""

import os
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageDraw

from exergue.labels import layout, marks
from exergue.labels.formats import BadFormat, Format, check_dpi
from exergue.labels.label import Label
from exergue.labels.pdf import Pages


@dataclass(frozen=True)
class Printed:
    pages: int
    labels: int


def print_pdf(labels: Iterable[Label], format: Format, dpi: int, start: int = 1, out=None) -> Printed:
    """Writes the PDF of `labels` to `out`, which must be a path or a binary file.

    `dpi` is 203, 300 or 600. `start` is the place, from 1 along the rows, where the first sheet's first unused label
    is. A path is replaced only when the PDF is whole. Raises BadFormat (also without any label) and BadSymbol.
    """
    check_dpi(dpi)
    if not 1 <= start <= format.per_page:
        places = "a roll starts at 1" if format.roll else f"the sheet has places 1 to {format.per_page}"
        raise BadFormat(f"A sheet cannot start at place {start}: {places}.")
    waiting = iter(labels)
    first = next(waiting, None)
    if first is None:
        raise BadFormat("There are no labels to print.")
    count = 0

    def counted() -> Iterator[Label]:
        nonlocal count
        for label in _chain(first, waiting):
            count += 1
            yield label

    pages = 0
    with writing(out) as file:
        pdf = Pages(file, "Coin labels")
        for page in (_roll if format.roll else _sheets)(counted(), format, dpi, start):
            pdf.add(page, page_points(format, page, dpi), dpi)
            pages += 1
        pdf.close()
    return Printed(pages, count)


def page_points(format: Format, page: Image.Image, dpi: int) -> tuple[float, float]:
    """Size of the page in points: the paper's own, or on a continuous roll as long as its label."""
    if format.paper:
        return format.paper[0] * 72 / 25.4, format.paper[1] * 72 / 25.4
    height = page.height * 72 / dpi if format.height is None else format.height * 72 / 25.4
    return format.width * 72 / 25.4, height


def paper_dots(format: Format, dpi: int) -> tuple[int, int]:
    """Dots that cover the paper; the last row or column may reach past its edge."""
    return tuple(-int(-side * dpi / 25.4 // 1) for side in format.paper)


def _chain(first: Label, rest: Iterator[Label]) -> Iterator[Label]:
    yield first
    yield from rest


def _roll(labels: Iterator[Label], format: Format, dpi: int, start: int) -> Iterator[Image.Image]:
    for label in labels:
        yield layout.picture(label, format, dpi)


def _sheets(labels: Iterator[Label], format: Format, dpi: int, start: int) -> Iterator[Image.Image]:
    page = Image.new("1", paper_dots(format, dpi))
    place = start - 1
    for label in labels:
        if place == format.per_page:
            yield _marked(page, format, dpi)
            page.paste(0, (0, 0, *page.size))
            place = 0
        page.paste(layout.picture(label, format, dpi), format.corner(place, dpi))
        place += 1
    yield _marked(page, format, dpi)


def _marked(page: Image.Image, format: Format, dpi: int) -> Image.Image:
    if format.cut_marks:
        marks.cut_marks(ImageDraw.Draw(page), format, dpi)
    return page


@contextmanager
def writing(out):
    """A binary file to write to: `out` itself, or a new file that takes the place of path `out` when it is whole."""
    if hasattr(out, "write"):
        yield out
        return
    path = Path(out)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
        os.chmod(name, 0o644)
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
