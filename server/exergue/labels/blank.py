"""A blank label: the ID of a coin still to be bought, and lines for the buyer's pen."""

from exergue.labels import card, faces
from exergue.labels.faces import CAP
from exergue.labels.formats import dots
from exergue.labels.pen import Pen
from exergue.labels.shape import BELOW, CARD, Box, Shape
from exergue.labels.words import GAP, ID_EMS, REGULAR, SEMIBOLD, Words

_NAMES = ("Bought", "From", "Price")
_STEP = 5.5  # mm from line to line, at the least
_ID = 13.0  # points


def draw(words: Words, form: Shape, pen: Pen) -> None:
    box = form.text
    if form.kind == CARD:
        size = card.size_of(form, pen)
        pen.write(words.id, SEMIBOLD, size, form.aside, card.foot_of(form, size))
        return _lines(box, pen)
    size = min(pen.points(_ID), box.width / ID_EMS, box.height * 0.4)
    pen.write(words.id, SEMIBOLD, size, box, box.top + (CAP + 0.04) * size, "m" if form.kind == BELOW else "l")
    _lines(Box(box.left, box.top + round(CAP * size), box.right, box.bottom), pen)


def least_height(form: Shape) -> float:
    """Dots that a continuous blank label needs, from edge to edge."""
    lines = (len(_NAMES) + 0.2) * _STEP * form.dpi / 25.4
    size = min(_ID * form.dpi / 72, form.text.width / ID_EMS)
    under = form.zone.bottom if form.kind == BELOW else form.safe
    return max(form.zone.height + 2 * form.edge, under + CAP * size + lines + form.safe)


def _lines(box: Box, pen: Pen) -> None:
    """Lines to write on, named where there is room for more than one."""
    least, thin = dots(_STEP, pen.dpi), max(1, dots(0.12, pen.dpi))
    count = max(1, min(len(_NAMES), box.height // least))
    step = min(box.height // count, 2 * least)
    small = pen.points(6.5)
    indent = round(small * (max(faces.ems(name, REGULAR) for name in _NAMES) + GAP / 2))
    narrow = box.width < 2 * indent
    for at, name in enumerate(_NAMES[-count:]):
        baseline = box.bottom - (count - 1 - at) * step - thin
        if count > 1:
            pen.write(name, REGULAR, small, box, baseline - (step - 1.5 * small if narrow else 0))
        pen.rule(box.left + (0 if narrow or count == 1 else indent), box.right, baseline, thin)
