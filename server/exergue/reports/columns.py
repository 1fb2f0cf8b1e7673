"""How wide each column of a printed table is, and how its cells stand in it. Sizes and widths are points."""

from collections.abc import Sequence
from dataclasses import dataclass

from . import model
from .cells import ALIGNED
from .face import REGULAR, STRONG, face

GAP = 10.0  # between columns
PHOTO_SIDE = 74.0
_EASY = 130.0  # a column of words is comfortable from here on
_LEAST = 30.0


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


def comfortable(columns: Sequence[model.Column], cells: list[dict], strong: list[dict], size: float, room: float) -> bool:
    """Whether the columns fit into `room` without pressing words into narrow columns."""
    wants, leasts, _ = _measured(columns, cells, strong, size)
    easy = [
        max(least, min(want, _EASY)) if column.kind == model.TEXT else least
        for column, want, least in zip(columns, wants, leasts, strict=True)
    ]
    return sum(easy) + GAP * (len(columns) - 1) <= room


def fits(columns: Sequence[model.Column], cells: list[dict], strong: list[dict], size: float, room: float) -> bool:
    """Whether they fit at all without a figure or a word being broken."""
    _, leasts, _ = _measured(columns, cells, strong, size)
    return sum(leasts) + GAP * (len(columns) - 1) <= room


def arranged(
    columns: Sequence[model.Column], cells: list[dict], strong: list[dict], size: float, left: float, room: float
) -> list[Set]:
    """The columns set into `room` from `left` on. `cells` are printed texts by key, `strong` those of totals."""
    wants, leasts, tails = _measured(columns, cells, strong, size)
    free = room - GAP * (len(columns) - 1)
    widths = _shared(columns, wants, leasts, free)
    found, at = [], left
    for column, width, tail in zip(columns, widths, tails, strict=True):
        lines = tuple(face(STRONG).paragraphs(column.heading, size * 0.9, width))
        found.append(Set(column.key, column.kind, lines, at, width, tail))
        at += width + GAP
    return found


def _measured(columns, cells, strong, size) -> tuple[list[float], list[float], list[float]]:
    """For each column: the width that it wants, the least that it can do with, the room of its decimals."""
    wants, leasts, tails = [], [], []
    for column in columns:
        words = face(STRONG).clean(column.heading).split() or [""]
        heading = max(face(STRONG).width(word, size * 0.9) for word in words)
        if column.kind == model.PHOTO:
            want = least = max(PHOTO_SIDE, heading)
            tail = 0.0
        else:
            want, least, tail = _of_cells(column, cells, strong, size)
        wants.append(max(want, heading))
        leasts.append(max(least, heading))
        tails.append(tail)
    return wants, leasts, tails


def _of_cells(column, cells, strong, size) -> tuple[float, float, float]:
    want = least = front = tail = 0.0
    for weight, rows in ((REGULAR, cells), (STRONG, strong)):
        one = face(weight)
        for text in {row.get(column.key, "") for row in rows}:
            text = one.clean(text)
            whole = one.width(text, size)
            want = max(want, whole)
            if column.kind in ALIGNED:
                head, decimals = split(text)
                rest = one.width(decimals, size)
                front, tail = max(front, whole - rest), max(tail, rest)
            elif column.kind == model.DATE or whole < 2 * _LEAST:
                least = max(least, whole)
            else:
                least = max(least, *(one.width(word, size) for word in text.split()))
    if column.kind in ALIGNED:
        want = least = front + tail
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
    if sum(leasts) >= free:  # narrower than a word: every column of words is broken alike
        firm = sum(least for column, least in zip(columns, leasts, strict=True) if column.kind != model.TEXT)
        words = sum(leasts) - firm
        ratio = max(0.1, (free - firm) / words) if words else 1.0
        return [least * (ratio if column.kind == model.TEXT else 1) for column, least in zip(columns, leasts, strict=True)]
    low, high = 0.0, max(wants)
    for _ in range(40):  # the level at which all fit
        level = (low + high) / 2
        if sum(max(least, min(want, level)) for want, least in zip(wants, leasts, strict=True)) <= free:
            low = level
        else:
            high = level
    return [max(least, min(want, low)) for want, least in zip(wants, leasts, strict=True)]
