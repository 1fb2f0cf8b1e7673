"""A wide label: date and grade, what it is, price and cost code, ID, from top to bottom to the right of the symbol."""

from exergue.labels import faces
from exergue.labels.faces import CAP
from exergue.labels.pen import Pen
from exergue.labels.shape import Shape
from exergue.labels.words import (
    BOLD,
    FOOT_STEP,
    GRADE,
    GRADE_STEP,
    HEAD,
    LEADING,
    REGULAR,
    SEMIBOLD,
    TAIL,
    TITLE_STEP,
    Words,
)

_COMFORT = 8.0  # points: at this type size there is room for a line of its own for the price
_DENSE = 6.0  # points: a long grade gets its own line down to this type size
_ROLL = 10.0  # points, where the length is as needed


def draw(words: Words, form: Shape, pen: Pen) -> None:
    box = form.text
    comfort = box.height / pen.points(_COMFORT)
    needed = CAP * HEAD + TITLE_STEP + FOOT_STEP + TAIL
    money = bool(words.ask and words.code) or needed + FOOT_STEP <= comfort
    needed += FOOT_STEP * money
    lines = 2 if needed + LEADING <= comfort else 1
    size = min(box.height / (needed + LEADING * (lines - 1)), pen.points(pen.most(form.height)))
    if stacked := words.crowd(box.width / (HEAD * size)):
        if lines == 2 and faces.broken(words.title, REGULAR, int(0.85 * size), box.width, 1) is not None:
            lines = 1
        tight = min(size, box.height / (needed + GRADE_STEP + LEADING * (lines - 1)))
        stacked = tight >= pen.points(_DENSE)
        size = tight if stacked else size
    baseline = box.top + CAP * HEAD * size
    if stacked:
        pen.write(words.date, BOLD, HEAD * size, box, baseline)
        baseline += GRADE_STEP * size
        pen.write(words.grade, BOLD, GRADE * size, box, baseline)
    else:
        pen.pair(*words.head, (BOLD, BOLD), HEAD * size, box, baseline)
    pen.paragraph(words.title, size, box, baseline + TITLE_STEP * size, LEADING * size, lines)
    foot = box.bottom - TAIL * size
    if money:
        pen.pair(words.ask, words.code, (SEMIBOLD, REGULAR), 1.1 * size, box, foot - FOOT_STEP * size)
        pen.write(words.id, SEMIBOLD, size, box, foot)
    else:
        pen.pair(words.id, words.ask or words.code, (SEMIBOLD, SEMIBOLD), size, box, foot)


def least_height(form: Shape) -> float:
    """Dots that a continuous label needs, from edge to edge."""
    rows = CAP * HEAD + TITLE_STEP + LEADING + 2 * FOOT_STEP + TAIL
    return max(form.zone.height + 2 * form.edge, rows * _ROLL * form.dpi / 72 + 2 * form.safe)
