"""How wide each column of a printed table is, and how its cells stand in it. Sizes and widths are points."""

from collections.abc import Sequence
from dataclasses import dataclass

from . import model
from .cells import ALIGNED
from .face import REGULAR, STRONG, face

GAP = 10.0  # between columns
PHOTO_SIDE = 66.0
HEADING = 0.9  # size of a heading, of that of the cells
_BROKEN = 8.0  # the least of a column whose words are broken
_EASY = 130.0  # a column of words is comfortable from here on
_TOGETHER = 7.0  # ems: a text up to this long stays on one line


@dataclass(frozen=True)
class Set:
    """A column as it is set: where it begins, its width, and how far its decimals stand from its right edge."""

    key: str
    kind: str
    heading: tuple[str, ...]  # lines
    left: float
    width: float
    tail: float  # room for the decimals

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def aligned(self) -> bool:
        return self.kind in ALIGNED


def split(text: str) -> tuple[str, str]:
    """What stands before the decimal mark and from it on."""
    whole, mark, rest = text.rpartition(".")
    return (whole, mark + rest) if mark and rest.isdigit() else (text, "")


@dataclass(frozen=True)
class Table:
    """What columns ask for, in ems of the type size: the width each wants, the least, and the room of its decimals."""

    columns: Sequence[model.Column]
    wants: list[float]
    leasts: list[float]
    tails: list[float]

    def widths(self, size: float) -> tuple[list[float], list[float]]:
        """(wanted, least) of each column at a type size."""
        photo = [PHOTO_SIDE if column.kind == model.PHOTO else 0.0 for column in self.columns]
        return tuple([max(one * size, side) for one, side in zip(ems, photo, strict=True)] for ems in (self.wants, self.leasts))

    def comfortable(self, size: float, room: float) -> bool:
        """Whether the columns fit into `room` without pressing words into narrow columns."""
        easy = [
            max(least, min(want, _EASY)) if column.kind == model.TEXT else least
            for column, want, least in zip(self.columns, *self.widths(size), strict=True)
        ]
        return sum(easy) + GAP * (len(easy) - 1) <= room

    def fits(self, size: float, room: float) -> bool:
        """Whether they fit at all without a figure or a word being broken."""
        return sum(self.widths(size)[1]) + GAP * (len(self.columns) - 1) <= room

    def arranged(self, size: float, left: float, room: float) -> list[Set]:
        """The columns set into `room` from `left` on."""
        widths = _shared(self.columns, *self.widths(size), room - GAP * (len(self.columns) - 1))
        found, at = [], left
        for column, width, tail in zip(self.columns, widths, self.tails, strict=True):
            lines = tuple(face(STRONG).paragraphs(column.heading, size * HEADING, width + 0.01))
            found.append(Set(column.key, column.kind, lines, at, width, tail * size))
            at += width + GAP
        return found


def measured(columns: Sequence[model.Column], cells: list[dict], strong: list[dict]) -> Table:
    """What the columns ask for; `cells` are printed texts by key, `strong` those of totals."""
    wants, leasts, tails = [], [], []
    for column in columns:
        heading = face(STRONG).clean(column.heading)
        words = [face(STRONG).width(word, HEADING) for word in heading.split()]
        want, least, tail = (0.0, 0.0, 0.0) if column.kind == model.PHOTO else _of_cells(column, cells, strong)
        wants.append(max(want, face(STRONG).width(heading, HEADING)))
        leasts.append(max(least, *words) if words else least)
        tails.append(tail)
    return Table(columns, wants, leasts, tails)


def _of_cells(column, cells, strong) -> tuple[float, float, float]:
    want = least = front = tail = 0.0
    for weight, rows in ((REGULAR, cells), (STRONG, strong)):
        one = face(weight)
        for text in {row.get(column.key, "") for row in rows}:
            text = one.clean(text)
            whole = one.width(text, 1)
            want = max(want, whole)
            if column.kind in ALIGNED:
                head, decimals = split(text)
                if not decimals and not head[-1:].isdigit():
                    continue  # words among figures
                rest = one.width(decimals, 1)
                front, tail = max(front, whole - rest), max(tail, rest)
            elif column.kind == model.DATE or whole < _TOGETHER:
                least = max(least, whole)
            else:
                least = max(least, *(one.width(word, 1) for word in text.split()))
    if column.kind in ALIGNED:
        want = least = max(want, front + tail)
    return want, min(least, want), tail


def _shared(columns, wants, leasts, free) -> list[float]:
    """Widths that add up to at most `free`: each what it wants, or words give way, the widest first."""
    if sum(wants) <= free:
        widths = list(wants)
        words = [at for at, column in enumerate(columns) if column.kind == model.TEXT]
        if words:  # the table spans the page; what is left goes to the words
            spare = (free - sum(wants)) / sum(wants[at] + 1 for at in words)
            for at in words:
                widths[at] += spare * (wants[at] + 1)
        return widths
    words = [column.kind == model.TEXT for column in columns]
    if sum(leasts) >= free:  # narrower than a word: words are broken, figures never
        leasts = [min(least, _BROKEN) if of_words else least for least, of_words in zip(leasts, words, strict=True)]
        wants = [want if of_words else least for want, least, of_words in zip(wants, leasts, words, strict=True)]
    low, high = 0.0, max(wants)
    for _ in range(40):  # the level at which all fit
        level = (low + high) / 2
        if sum(max(least, min(want, level)) for want, least in zip(wants, leasts, strict=True)) <= free:
            low = level
        else:
            high = level
    return [max(least, min(want, low)) for want, least in zip(wants, leasts, strict=True)]
