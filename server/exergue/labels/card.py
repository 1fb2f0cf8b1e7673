"""A square card: date, grade and what it is over its whole width; price, cost code and ID beside the symbol."""

from exergue.labels.faces import CAP
from exergue.labels.pen import Pen
from exergue.labels.shape import Shape
from exergue.labels.words import (
    BOLD,
    FOOT_STEP,
    GRADE_STEP,
    ID_EMS,
    LEADING,
    REGULAR,
    SEMIBOLD,
    TAIL,
    TITLE_STEP,
    Words,
)

_HEAD, _TITLE = 1.7, 1.15
_LINES = 3


def draw(words: Words, form: Shape, pen: Pen) -> None:
    box, aside = form.text, form.aside
    size = size_of(form, pen)
    baseline = box.top + CAP * _HEAD * size
    if words.crowd(box.width / (_HEAD * size)):
        pen.write(words.date, BOLD, _HEAD * size, box, baseline)
        baseline += GRADE_STEP * size
        pen.write(words.grade, BOLD, 1.2 * size, box, baseline)
    else:
        pen.pair(*words.head, (BOLD, BOLD), _HEAD * size, box, baseline)
    large = _TITLE * size
    lines = max(1, 1 + int((box.bottom - baseline - (TITLE_STEP + 0.3) * large) / (LEADING * large)))
    pen.paragraph(words.title, large, box, baseline + TITLE_STEP * large, LEADING * large, min(_LINES, lines))
    foot = foot_of(form, size)
    pen.write(words.id, SEMIBOLD, size, aside, foot)
    pen.write(words.code, REGULAR, size, aside, foot - FOOT_STEP * size)
    pen.write(words.ask, SEMIBOLD, 1.3 * size, aside, foot - (2 if words.code else 1) * FOOT_STEP * size)


def size_of(form: Shape, pen: Pen) -> float:
    """Dots an em: as large as the ID's place beside the symbol allows."""
    return min(form.aside.width / ID_EMS, pen.points(pen.most(form.height)))


def foot_of(form: Shape, size: float) -> float:
    """Baseline of the ID: the symbol's lower edge where the safe edge allows."""
    return min(form.aside.bottom, form.height - form.safe - TAIL * size)
