"""A report set on pages, from top to bottom: headings that come again, rows that keep together, page numbers."""

from collections.abc import Sequence

from . import model
from .columns import HEADING, PHOTO_SIDE, Set, split
from .document import Document, Page
from .face import REGULAR, STRONG, face
from .model import Report, Section
from .thumbnails import thumbnail

INK, SOFT, LINE, ACCENT, PAPER = "#1F1B14", "#5B5345", "#D5CCB8", "#86520E", "#FFFFFF"
MARGIN = 45.0
PAD = 5.0  # above and below the words of a row, together
_FOOT = 22.0
_TOGETHER = 0.3  # a section up to this part of a page high is not broken
_TALL = 0.25  # a row higher than this part of a page may be broken
_READ = 560.0  # points: longer lines are hard to read


class Flow:
    """Sets one report. Sizes and places are points from the upper left corner of a page."""

    def __init__(self, title: str, size: float, page: tuple[float, float]):
        self._document = Document(title)
        self._title = title
        self._size = size
        self._width, self._height = page
        self._room = self._width - 2 * MARGIN
        self._step = size * 1.28
        self._bottom = self._height - MARGIN - _FOOT
        self._page: Page | None = None
        self._y = 0.0
        self._turn()

    def done(self) -> bytes:
        """The PDF, with its feet."""
        self._feet()
        return self._document.bytes()

    def _turn(self) -> None:
        self._page = self._document.page(self._width, self._height)
        self._y = MARGIN

    def _line(self, text: str, weight: int, size: float, colour: str, x: float = MARGIN) -> None:
        self._page.text(x, self._y, text, weight, size, colour)

    def _write(self, text: str, weight: int, size: float, colour: str, indent: float = 0.0) -> None:
        """A text in lines below what is there; goes on over the page."""
        for line in face(weight).paragraphs(text, size, self._room - indent):
            if self._y + size * 1.35 > self._bottom:
                self._turn()
            self._y += size * 1.35
            self._line(line, weight, size, colour, MARGIN + indent)

    def head(self, report: Report, currency: str) -> None:
        """The mark (a holder with its window), title, subtitle and caution."""
        self._page.block(MARGIN, self._y, 15, 15, ACCENT)
        self._page.circle(MARGIN + 7.5, self._y + 7.5, 4.6, PAPER)
        self._page.text(MARGIN + 22, self._y + 11.5, "Exergue", STRONG, 10, ACCENT)
        self._y += 17
        self._write(report.title, STRONG, 20, INK)
        self._y += 2
        under = [report.subtitle, f"Amounts in {currency}."]
        self._write(" · ".join(filter(None, under)), REGULAR, 9.5, SOFT)
        if report.caution:
            self._y += 8
            lines = face(REGULAR).paragraphs(report.caution, 9, min(self._room - 12, _READ))
            self._page.block(MARGIN, self._y + 2.5, 2, 12.2 * len(lines), ACCENT)
            for line in lines:
                self._y += 12.2
                self._line(line, REGULAR, 9, INK, MARGIN + 12)
        self._y += 10

    def section(self, section: Section, rows: list[dict], totals: list[dict], sets: list[Set]) -> None:
        """A section: its printed rows and totals by key, in columns that are set."""
        blocks = [self._block(row, REGULAR, sets) for row in rows]
        sums = [self._block(row, STRONG, sets) for row in totals]
        tail = sum(height for _, height in sums) + (3 if sums else 0)
        opening = self._opening_height(section, sets)
        whole = opening + tail + sum(height for _, height in blocks)
        least = whole if whole < _TOGETHER * self._height else opening + (self._part(blocks[0][1]) if blocks else self._step)
        if self._y + least > self._bottom and self._y > MARGIN + 1:
            self._turn()
        self._open(section, sets)
        for at, (cells, height) in enumerate(blocks):
            if self._y + self._part(height) + (tail if at == len(blocks) - 1 else 0) > self._bottom:
                self._over(section, sets)
            while self._y + height > self._bottom:  # a tall one goes on over the page
                fit = max(1, int((self._bottom - self._y - PAD) // self._step))
                now, cells = _cut(cells, fit)
                self._draw(now, fit * self._step + PAD, REGULAR, sets)
                self._over(section, sets)
                height = _tallest(cells) * self._step + PAD
            self._draw(cells, height, REGULAR, sets)
        if not blocks and not sums:
            self._y += self._step
            self._line("None.", REGULAR, self._size, SOFT)
            self._y += 5
        if sums:
            if self._y + tail > self._bottom:
                self._over(section, sets)
            if blocks:
                self._page.rule(MARGIN, MARGIN + self._room, self._y, 0.8, INK)
            self._y += 1
            for cells, height in sums:
                self._draw(cells, height, STRONG, sets, ruled=False)
        self._y += 14

    def _part(self, height: float) -> float:
        """What of a row must fit on the page on which it begins."""
        return min(height, _TALL * self._height)

    def _opening_height(self, section: Section, sets: list[Set]) -> float:
        note = len(face(REGULAR).paragraphs(section.note, 9, self._room)) * 12.2 if section.note else 0
        return (20 if section.heading else 0) + note + self._heading_height(sets)

    def _heading_height(self, sets: list[Set]) -> float:
        return max(len(one.heading) for one in sets) * self._size * 1.15 + 9

    def _open(self, section: Section, sets: list[Set], again: bool = False) -> None:
        if section.heading:
            self._write(section.heading + (" (continued)" if again else ""), STRONG, 9.5 if again else 12, ACCENT)
            self._y += 3
        if section.note and not again:
            self._write(section.note, REGULAR, 9, SOFT)
            self._y += 3
        height = self._heading_height(sets)
        small = self._size * HEADING
        foot = self._y + height - 5
        for one in sets:
            for up, line in enumerate(reversed(one.heading)):
                right = one.right - face(STRONG).width(line, small)
                x = right if one.aligned else one.left
                self._page.text(x, foot - up * self._size * 1.15, line, STRONG, small, SOFT)
        self._y += height
        self._page.rule(MARGIN, MARGIN + self._room, self._y, 0.8, INK)

    def _over(self, section: Section, sets: list[Set]) -> None:
        self._turn()
        self._open(section, sets, again=True)

    def _block(self, row: dict, weight: int, sets: list[Set]) -> tuple[list, float]:
        """A row's cells ready to draw (lines of text, or a picture), and its height."""
        one, size, cells, most, photo = face(weight), self._size, [], 1, 0.0
        for column in sets:
            value = row.get(column.key)
            if column.kind == model.PHOTO:
                cells.append(self._photo(value))
                photo = max(photo, PHOTO_SIDE if isinstance(cells[-1], tuple) else 0)
            elif not value:
                cells.append(())
            elif column.aligned or column.kind == model.DATE:
                cells.append((one.clean(value),))
            else:
                lines = one.paragraphs(value, size, column.width + 0.01)
                most = max(most, len(lines))
                cells.append(lines)
        return cells, max(most * self._step, photo + 4) + PAD

    def _photo(self, value):
        if not value:
            return []
        made = thumbnail(value, PHOTO_SIDE)
        if made is None:
            return ["The photo", "cannot be read."]
        return (self._document.picture(*made), *made[1:])

    def _draw(self, cells: list, height: float, weight: int, sets: list[Set], ruled: bool = True) -> None:
        page, size, first, one = self._page, self._size, self._y + PAD / 2 + self._size * 0.93, face(weight)
        for column, cell in zip(sets, cells, strict=True):
            if column.kind == model.PHOTO and isinstance(cell, tuple):
                number, wide, high = cell
                scale = PHOTO_SIDE / max(wide, high)
                page.picture(number, column.left, self._y + 5, wide * scale, high * scale)
                continue
            for down, line in enumerate(cell):
                x = column.left
                if column.aligned:
                    head, decimals = split(line)
                    x = column.right - column.tail - one.width(head, size)
                    if not decimals and not head[-1:].isdigit():  # words among figures stand at the right edge
                        x = column.right - one.width(head, size)
                page.text(x, first + down * self._step, line, weight, size, INK)
        self._y += height
        if ruled:
            page.rule(MARGIN, MARGIN + self._room, self._y, 0.35, LINE)

    def notes(self, notes: Sequence[str]) -> None:
        """Numbered notes."""
        if self._y + 40 > self._bottom:
            self._turn()
        self._write("Notes", STRONG, 10, ACCENT)
        self._y += 2
        for number, note in enumerate(notes, 1):
            if self._y + 12.2 > self._bottom:
                self._turn()
            self._page.text(MARGIN, self._y + 8.5 * 1.35, f"{number}.", REGULAR, 8.5, SOFT)
            self._write(note, REGULAR, 8.5, INK, indent=16)
            self._y += 2

    def _feet(self) -> None:
        count = len(self._document.pages)
        title = face(REGULAR).lines(face(REGULAR).clean(self._title), 8, self._room - 80)[0]
        for number, page in enumerate(self._document.pages, 1):
            at = self._height - MARGIN + 8
            page.rule(MARGIN, MARGIN + self._room, at - 12, 0.35, LINE)
            page.text(MARGIN, at, title, REGULAR, 8, SOFT)
            of = f"{number} of {count}"
            page.text(self._width - MARGIN - face(REGULAR).width(of, 8), at, of, REGULAR, 8, SOFT)


def _tallest(cells: list) -> int:
    return max((len(cell) for cell in cells if isinstance(cell, list)), default=0) or 1


def _cut(cells: list, count: int) -> tuple[list, list]:
    """The first lines of each cell, and the rest; what is not words stands on the first page alone."""
    words = [isinstance(cell, list) for cell in cells]
    first = [cell[:count] if cut else cell for cell, cut in zip(cells, words, strict=True)]
    return first, [cell[count:] if cut else () for cell, cut in zip(cells, words, strict=True)]
