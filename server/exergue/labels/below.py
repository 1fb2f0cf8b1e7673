"""A narrow label: ID, date, grade, what it is, price and cost code, centred under the symbol."""

from dataclasses import dataclass

from exergue.labels import faces
from exergue.labels.faces import CAP
from exergue.labels.pen import LEAST, Pen
from exergue.labels.shape import Shape
from exergue.labels.words import (
    BOLD,
    FOOT_STEP,
    GRADE,
    GRADE_STEP,
    HEAD,
    ID_EMS,
    LEADING,
    REGULAR,
    SEMIBOLD,
    TAIL,
    TITLE_STEP,
    Words,
)

_USUAL = 9.0  # points
_NARROW = 4.6  # ems across a narrow label, at the least
_STEPS = (1.0, 0.93, 0.87, 0.81, 0.75, 0.69, 0.63, 0.57)
_SQUEEZE = 1.35  # a single row may be this much too wide: the pen makes it smaller
_OVER = 0.04  # round figures stand taller than flat ones; they keep out of the quiet zone
_LINES = 4  # of what it is


@dataclass(frozen=True)
class _Row:
    text: str
    weight: int
    size: float  # dots an em
    step: float  # dots from the baseline above


def draw(words: Words, form: Shape, pen: Pen) -> None:
    box = form.text
    rows, foot = _rows(words, form)
    baseline = float(box.top)
    for row in rows:
        baseline += row.step
        pen.write(row.text, row.weight, row.size, box, baseline, "m")
    baseline = box.bottom - TAIL * rows[-1].size
    for row in reversed(foot):
        pen.write(row.text, row.weight, row.size, box, baseline, "m")
        baseline -= row.step


def least_height(words: Words, form: Shape) -> float:
    """Dots that a continuous label needs, from edge to edge."""
    rows, foot = _rows(words, form)
    return form.text.top + sum(row.step for row in rows + foot) + 2 * TAIL * rows[-1].size + form.safe


def _rows(words: Words, form: Shape) -> tuple[list[_Row], list[_Row]]:
    """Rows from the top and rows that stand at the bottom, at the largest size at which all fit."""
    room = form.text.width
    usual, least = min(room / _NARROW, _USUAL * form.dpi / 72), LEAST * form.dpi / 72
    for step in _STEPS:
        size = max(least, usual * step)
        lines = faces.broken(words.title, REGULAR, int(size), room, _LINES)
        rows, foot = _at(words, size, room, lines or [])
        tall = sum(row.step for row in rows + foot) + TAIL * size
        wide = max(faces.ems(row.text, row.weight) * row.size for row in rows + foot)
        if lines is not None and wide <= _SQUEEZE * room and (form.height is None or tall <= form.text.height):
            return rows, foot
    spare = _LINES if form.height is None else int((form.text.height - tall) / (LEADING * size)) + len(lines or [])
    return _at(words, size, room, faces.squeezed(words.title, REGULAR, int(size), room, max(1, min(spare, _LINES))))


def _at(words: Words, size: float, room: int, title: list[str]) -> tuple[list[_Row], list[_Row]]:
    small = min(size, room / ID_EMS)
    rows = [_Row(words.id, SEMIBOLD, small, (CAP + _OVER) * small)]
    after = 0.4
    if words.date:
        rows.append(_Row(words.date, BOLD, HEAD * size, (HEAD + after) * size))
        after = 0.0
    wide = faces.ems(words.grade, BOLD) * GRADE * size > 1.1 * room
    for at, part in enumerate(words.grade.split(" ", 1) if wide else [words.grade]):
        if part:
            rows.append(_Row(part, BOLD, GRADE * size, (1.15 if at else GRADE_STEP + after) * size))
            after = 0.0
    for at, line in enumerate(title):
        rows.append(_Row(line, REGULAR, size, (LEADING if at else TITLE_STEP + after) * size))
    foot = []
    if words.ask:
        foot.append(_Row(words.ask, SEMIBOLD, GRADE * size, FOOT_STEP * size))
    if words.code:
        foot.append(_Row(words.code, REGULAR, size, FOOT_STEP * size))
    return rows, foot
