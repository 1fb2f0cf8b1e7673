"""A page to print first: rulers, the label grid and QR samples that show what printer and paper can do.

Rulers tell whether the page was scaled, the frame whether the sheet lies straight, the samples how few dots a module
a phone still reads. What a sample says is its own size, so a scan names the smallest that works.
"""

from PIL import Image, ImageDraw

from exergue.labels import symbol
from exergue.labels.faces import face
from exergue.labels.formats import Format, check_dpi, dots
from exergue.labels.pdf import Pages
from exergue.labels.sheet import Printed, paper_dots, writing

_SAMPLES = {203: (1, 2, 3, 4, 5), 300: (1, 2, 3, 4, 6), 600: (2, 4, 6, 8, 12)}  # dots a module
_SIDE = 33  # modules of a sample with its quiet zone: version 2, as most labels have
_THIN = 0.1  # mm


def page(format: Format, dpi: int, out) -> Printed:
    """Writes the calibration PDF of `format` at `dpi` to `out`, a path or a binary file. Raises BadFormat.

    One page; on a roll of cut labels, one label with rulers and one for each sample.
    """
    check_dpi(dpi)
    made = _sheet(format, dpi) if format.paper else _roll(format, dpi)
    with writing(out) as file:
        pdf = Pages(file, f"Calibration, {format.name}, {dpi} dpi")
        for picture, millimetres in made:
            pdf.add(picture, tuple(side * 72 / 25.4 for side in millimetres), dpi)
        pdf.close()
    return Printed(len(made), 0)


class _Board:
    """A page to draw on in millimetres."""

    def __init__(self, size: tuple[int, int], dpi: int):
        self.picture = Image.new("1", size)
        self.dpi = dpi
        self._draw = ImageDraw.Draw(self.picture)
        self._thin = max(1, dots(_THIN, dpi))

    def line(self, left: float, top: float, right: float, bottom: float) -> None:
        """A thin upright or level line."""
        x0, y0, x1, y1 = (dots(one, self.dpi) for one in (left, top, right, bottom))
        self._draw.rectangle((x0, y0, max(x1, x0 + self._thin - 1), max(y1, y0 + self._thin - 1)), fill=1)

    def frame(self, left: int, top: int, right: int, bottom: int) -> None:
        """A rectangle, in dots."""
        self._draw.rectangle((left, top, right - 1, bottom - 1), outline=1, width=self._thin)

    def clear(self, left: float, top: float, right: float, bottom: float) -> None:
        self.picture.paste(0, tuple(dots(one, self.dpi) for one in (left, top, right, bottom)))

    def text(self, left: float, baseline: float, text: str, points: float, weight: int = 400, anchor="ls") -> None:
        font = face(weight, round(points * self.dpi / 72))
        self._draw.text((dots(left, self.dpi), dots(baseline, self.dpi)), text, font=font, fill=1, anchor=anchor)

    def sample(self, left: float, top: float, count: int) -> None:
        """A symbol of `count` dots a module whose quiet zone starts at `left`, `top`; its text says its size."""
        modules = symbol.matrix(f"{_dots(count).upper()} A MODULE: {_module(count, self.dpi):.3f} MM")
        quiet = symbol.QUIET * count
        corner = dots(left, self.dpi) + quiet, dots(top, self.dpi) + quiet
        self.picture.paste(symbol.picture(modules, count), corner)

    def ruler(self, left: float, top: float, count: int, inch: bool, down: bool) -> None:
        """A ruler of `count` cm or inches from `left`, `top`, to the right or down."""
        unit, parts = (25.4, 16) if inch else (10.0, 10)
        for step in range(count * parts + 1):
            at = step * unit / parts
            deep = 4.5 if step % parts == 0 else 3.0 if step % (parts // 2) == 0 else 1.8
            if down:
                self.line(left, top + at, left + deep, top + at)
            else:
                self.line(left + at, top, left + at, top + deep)
            if step % parts == 0 and step:
                mark = str(step // parts) if inch else str(step)
                place = (left + 5.5, top + at) if down else (left + at, top + 7.6)
                self.text(*place, mark, 7, anchor="lm" if down else "ms")
        if down:
            self.line(left, top, left, top + count * unit)
            self.text(left + 5.5, top + 0.8, "inches" if inch else "mm", 7)
        else:
            self.line(left, top, left + count * unit, top)
            self.text(left, top + 7.6, "inches" if inch else "mm", 7)


def _sheet(format: Format, dpi: int) -> list[tuple[Image.Image, tuple[float, float]]]:
    board = _Board(paper_dots(format, dpi), dpi)
    wide, high = format.paper
    size = dots(format.width, dpi), dots(format.height, dpi)
    for place in range(format.per_page):
        left, top = format.corner(place, dpi)
        board.frame(left, top, left + size[0], top + size[1])
    for x in (10.0, wide - 10.0):
        for y in (10.0, high - 10.0):
            board.line(x - 4, y, x + 4, y)
            board.line(x, y - 4, x, y + 4)
    left, top, right, bottom = 19.0, 22.0, wide - 19.0, 144.0
    board.clear(left, top, right, bottom)
    left += 6
    board.text(left, top + 13, "Calibration page", 22, 700)
    board.text(left, top + 20, f"{format.name}  ·  {dpi} dots an inch", 11, 600)
    for at, line in enumerate(_HOW):
        board.text(left, top + 31 + 5.4 * at, line, 10)
    board.ruler(left, top + 66, 14, inch=False, down=False)
    board.ruler(left, top + 78, 5, inch=True, down=False)
    board.ruler(right - 14, top + 13, 10, inch=False, down=True)
    foot = top + 112
    for count in _SAMPLES[dpi]:
        side = _SIDE * _module(count, dpi)
        column = max(side, 17.0)
        board.sample(left + (column - side) / 2, foot - side, count)
        board.text(left + column / 2, foot + 2.5, _dots(count), 9, 600, "ms")
        board.text(left + column / 2, foot + 6.3, f"{_module(count, dpi):.2f} mm", 8, 400, "ms")
        left += column + 7
    return [(board.picture, format.paper)]


_HOW = (
    "Print at 100 %, also called actual size; never “fit to page” or “shrink”.",
    "1  Lay a ruler on the scales. If they are off by more than 0.5 mm in 100 mm, the page was scaled.",
    "2  Hold the print and a label sheet against a light: the frames should lie on the labels’ edges.",
    "3  The crosses stand 10 mm from the paper’s edges. If not, set the printer’s offset by the difference.",
    "4  Scan the samples with the phone you will use, and note the smallest that it reads at once.",
    "    Choose labels whose modules are a dot larger: a hall is dimmer than your desk.",
)


def _roll(format: Format, dpi: int) -> list[tuple[Image.Image, tuple[float, float]]]:
    edge, ruled = format.safe + 1, 22.0
    sides = [(count, _SIDE * _module(count, dpi)) for count in _SAMPLES[dpi]]
    sides = [(count, side) for count, side in sides if side <= min(format.width - 2 * edge - 5, format.height or 100)]
    long = format.height or edge + ruled + sum(side + 1 for _, side in sides) + edge
    size = (format.width, long)
    cover = tuple(int(side * dpi / 25.4) for side in size)

    def board() -> _Board:
        one = _Board(cover, dpi)
        one.frame(0, 0, *cover)
        return one

    made = [board()]
    made[0].ruler(edge, edge, int((format.width - 2 * edge) // 10), inch=False, down=False)
    made[0].text(edge, edge + 12, f"{dpi} dots an inch", 8, 600)
    made[0].text(edge, edge + 15.5, "Print at 100 %.", 8)
    made[0].text(edge, edge + 19, f"Frame: {format.width:g} mm wide", 8)
    top = edge + ruled
    for count, side in sides:
        if format.height is not None:
            made.append(board())
            top = (format.height - side) / 2
        made[-1].sample(edge, top, count)
        named = _dots(count) if format.width - 2 * edge - side > 10 else str(count)
        made[-1].text(edge + side, top + side / 2, named, 9, 600, "lm")
        if format.height is not None:
            made[-1].text(edge + side, top + side / 2 + 4, f"{_module(count, dpi):.2f} mm", 8, 400, "lm")
        top += side + 1
    return [(one.picture, size) for one in made]


def _module(count: int, dpi: int) -> float:
    return count * 25.4 / dpi


def _dots(count: int) -> str:
    return "1 dot" if count == 1 else f"{count} dots"
