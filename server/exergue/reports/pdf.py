"""A report printed as a PDF: paper and ink, hairlines, one accent; text that can be searched.

Letter or A4, upright or across as the columns need; headings come again on every page, rows keep together, long texts
are wrapped and never cut.
"""

from collections.abc import Sequence

from . import model
from .cells import shown
from .columns import HEADING, PHOTO_SIDE, Set, Table, measured, split
from .document import Document, Page
from .face import REGULAR, STRONG, face
from .model import BadReport, Report, Section
from .thumbnails import thumbnail

PAPERS = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}
INK, SOFT, LINE, ACCENT, PAPER = "#1F1B14", "#5B5345", "#D5CCB8", "#86520E", "#FFFFFF"
MARGIN = 45.0
PAD = 5.0  # above and below the words of a row, together
SIZES = (8.5, 8.0, 7.5, 7.0, 6.5)
_FOOT = 30.0
LACKING = "Letters that the printed face lacks stand as “?”; the CSV file of this report has them."


def write_pdf(report: Report, currency: str, paper: str = "letter") -> bytes:
    """The report as a PDF on `paper` "letter" or "a4"; amounts in `currency`. Raises BadReport for another paper."""
    if paper not in PAPERS:
        raise BadReport(f"“{paper}” is not a paper known here; choose {' or '.join(PAPERS)}.")
    return _Print(report, currency, PAPERS[paper]).done()


class _Print:
    """One print: pages from top to bottom."""

    def __init__(self, report: Report, currency: str, paper: tuple[float, float]):
        self._report, self._currency = report, currency
        self._document = Document(report.title)
        self._lacking = False
        self._tables = [self._texts(section) for section in report.sections]
        groups = self._measured()
        self._size, (self._width, self._height) = self._chosen(paper, groups.values())
        self._room = self._width - 2 * MARGIN
        self._step = self._size * 1.28
        self._bottom = self._height - MARGIN - _FOOT + 8
        sets = {columns: table.arranged(self._size, MARGIN, self._room) for columns, table in groups.items()}
        self._sets = [sets[tuple(report.columns_of(section))] for section in report.sections]
        self._page: Page | None = None
        self._y = 0.0

    def done(self) -> bytes:
        self._turn()
        self._head()
        for section, (rows, totals), sets in zip(self._report.sections, self._tables, self._sets, strict=True):
            self._section(section, rows, totals, sets)
        notes = [*self._report.notes, *([LACKING] if self._lacking else [])]
        if notes:
            self._notes(notes)
        self._feet()
        return self._document.bytes()

    # --- choosing ---------------------------------------------------------------------------------

    def _texts(self, section: Section) -> tuple[list[dict], list[dict]]:
        """The printed cells of a section's rows and of its totals, by key; a photo stays what it is."""
        columns = self._report.columns_of(section)
        return self._printed(columns, section.rows), self._printed(columns, section.totals)

    def _printed(self, columns, rows) -> list[dict]:
        known, currency = face(REGULAR).glyphs.keys(), self._currency
        pairs = [(column.key, column.kind) for column in columns]
        found = []
        for row in rows:
            cells = {}
            for key, kind in pairs:
                value = row.get(key)
                cells[key] = value if kind == model.PHOTO else shown(value, kind, currency)
                if kind == model.TEXT and not self._lacking and not known >= set(cells[key]):
                    self._lacking = "?" in face(REGULAR).clean(cells[key].replace("?", "").replace("\n", " "))
            found.append(cells)
        return found

    def _measured(self) -> dict[tuple, Table]:
        """Sections of the same columns are measured as one, so that they stand under one another."""
        groups: dict[tuple, tuple[list, list]] = {}
        for section, (rows, totals) in zip(self._report.sections, self._tables, strict=True):
            both = groups.setdefault(tuple(self._report.columns_of(section)), ([], []))
            both[0].extend(rows)
            both[1].extend(totals)
        return {columns: measured(columns, *both) for columns, both in groups.items()}

    def _chosen(self, paper, tables) -> tuple[float, tuple[float, float]]:
        """Type size and page: upright where it is comfortable, else across, else in smaller type."""
        across = (paper[1], paper[0])
        for test, tries in (
            (Table.comfortable, [(SIZES[0], paper), (SIZES[0], across), (SIZES[1], across)]),
            (Table.fits, [(size, across) for size in SIZES]),
        ):
            for size, page in tries:
                if all(test(table, size, page[0] - 2 * MARGIN) for table in tables):
                    return size, page
        return SIZES[-1], across

    # --- pages ------------------------------------------------------------------------------------

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

    def _head(self) -> None:
        """The mark (a holder with its window), title, subtitle and caution."""
        self._page.block(MARGIN, self._y, 15, 15, ACCENT)
        self._page.circle(MARGIN + 7.5, self._y + 7.5, 4.6, PAPER)
        self._page.text(MARGIN + 22, self._y + 11.5, "Exergue", STRONG, 10, ACCENT)
        self._y += 17
        self._write(self._report.title, STRONG, 20, INK)
        self._y += 2
        under = [self._report.subtitle, f"Amounts in {self._currency}."]
        self._write(" · ".join(filter(None, under)), REGULAR, 9.5, SOFT)
        if self._report.caution:
            self._y += 8
            lines = face(REGULAR).paragraphs(self._report.caution, 9, min(self._room - 12, 560))
            self._page.block(MARGIN, self._y + 2.5, 2, 12.2 * len(lines), ACCENT)
            for line in lines:
                self._y += 12.2
                self._line(line, REGULAR, 9, INK, MARGIN + 12)
        self._y += 10

    def _section(self, section: Section, rows: list[dict], totals: list[dict], sets: list[Set]) -> None:
        blocks = [self._block(row, REGULAR, sets) for row in rows]
        sums = [self._block(row, STRONG, sets) for row in totals]
        opening = self._opening_height(section, sets) + (blocks[0][1] if blocks else self._step)
        if self._y + opening > self._bottom and self._y > MARGIN + 1:
            self._turn()
        self._open(section, sets)
        tail = sum(height for _, height in sums) + (3 if sums else 0)
        last = len(blocks) - 1
        for at, (cells, height) in enumerate(blocks):
            wanted = height + (tail if at == last else 0)
            if self._y + wanted > self._bottom:
                self._over(section, sets)
            while self._y + height > self._bottom:  # taller than a page: it goes on over the page
                fit = max(1, int((self._bottom - self._y - PAD) // self._step))
                cells, rest = _cut(cells, fit)
                self._draw(cells, fit * self._step + PAD, REGULAR, sets)
                self._over(section, sets)
                cells, height = rest, max(self._step, (_tallest(rest)) * self._step) + PAD
            self._draw(cells, height, REGULAR, sets)
        if not blocks:
            self._y += self._step
            self._line("None.", REGULAR, self._size, SOFT)
            self._y += 5
        if sums:
            if self._y + tail > self._bottom:
                self._over(section, sets)
            self._page.rule(MARGIN, MARGIN + self._room, self._y, 0.8, INK)
            self._y += 1
            for cells, height in sums:
                self._draw(cells, height, STRONG, sets, ruled=False)
        self._y += 14

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

    def _notes(self, notes: Sequence[str]) -> None:
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
        title = face(REGULAR).lines(face(REGULAR).clean(self._report.title), 8, self._room - 80)[0]
        for number, page in enumerate(self._document.pages, 1):
            at = self._height - MARGIN + 8
            page.rule(MARGIN, MARGIN + self._room, at - 12, 0.35, LINE)
            page.text(MARGIN, at, title, REGULAR, 8, SOFT)
            of = f"{number} of {count}"
            page.text(self._width - MARGIN - face(REGULAR).width(of, 8), at, of, REGULAR, 8, SOFT)


def _tallest(cells: list) -> int:
    return max((len(cell) for cell in cells if not isinstance(cell, tuple) or len(cell) < 2), default=1)


def _cut(cells: list, count: int) -> tuple[list, list]:
    """The first lines of each cell, and the rest."""
    return [cell if _fixed(cell) else cell[:count] for cell in cells], [() if _fixed(cell) else cell[count:] for cell in cells]


def _fixed(cell) -> bool:
    return isinstance(cell, tuple)
