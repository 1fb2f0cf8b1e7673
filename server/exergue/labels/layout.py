"""Draws one label: symbol, ID, what the coin is, and what the owner switches on. Ink is 1, paper 0, in printer dots."""

import math

from PIL import Image

from exergue.labels import faces, ids, symbol
from exergue.labels.faces import CAP
from exergue.labels.formats import Format, check_dpi, dots
from exergue.labels.label import Label
from exergue.labels.pen import BOLD, GAP, REGULAR, SEMIBOLD, Pen, pair_ems
from exergue.labels.shape import BELOW, CARD, Box, Shape, shape

# Sizes are in units of the label's own type size; steps are from baseline to baseline.
HEAD = 1.5  # date and grade
_TITLE_STEP, _LEADING = 1.3, 1.12
_FOOT_STEP = 1.4  # to the ID, and to the price above it
_COMFORT = 8.0  # points: with this type size there is room for a line of its own for the price
_WRITE = 5.5  # mm between lines to write on


def picture(label: Label, format: Format, dpi: int) -> Image.Image:
    """The label as a 1-bit picture, ink 1 on paper 0. Raises BadSymbol, BadFormat."""
    modules = symbol.matrix(label.address)
    form = shape(format, check_dpi(dpi), len(modules))
    words = _Words(label)
    high = form.height or _height_needed(words, form, format)
    canvas = Image.new("1", (form.width, high))
    pen = Pen(canvas, dpi)
    draw = {BELOW: _below, CARD: _card}.get(form.kind, _beside)
    box = Box(form.text.left, form.text.top, form.text.right, high - form.safe)
    draw(words, form, box, pen)
    if form.height is None and form.kind != BELOW:
        form = form.centred(high)
    canvas.paste(symbol.picture(modules, form.module), form.ink)
    return canvas


class _Words:
    """A label's texts in letters that can be printed."""

    def __init__(self, label: Label):
        self.id = ids.show(label.id)
        self.title, self.date, self.grade = map(faces.printable, (label.title, label.date, label.grade))
        self.ask, self.code = faces.printable(label.ask), faces.printable(label.code)
        self.blank = label.blank


def _beside(words: _Words, form: Shape, box: Box, pen: Pen) -> None:
    """Date and grade, what it is, price and cost code, ID: from top to bottom, right of the symbol."""
    if words.blank:
        return _blank(words, box, pen, "l")
    head = CAP * HEAD
    own_line = (head + _TITLE_STEP + 2 * _FOOT_STEP + 0.1) * pen.points(_COMFORT) <= box.height
    money = own_line or bool(words.ask and words.code)
    foot = _FOOT_STEP * (2 if money else 1)
    rest = box.height / pen.points(_COMFORT) - head - _TITLE_STEP - foot
    lines = 1 if rest < _LEADING else 2
    size = min(box.height / (head + _TITLE_STEP + (lines - 1) * _LEADING + foot), pen.points(_most(form)))
    baseline = box.top + head * size
    both = words.date and words.grade
    stacked = both and pair_ems(words.date, words.grade, (BOLD, BOLD)) * HEAD * size * 0.75 > box.width
    if stacked and lines == 2:
        pen.write(words.date, BOLD, HEAD * size, box, baseline)
        baseline += _TITLE_STEP * size
        pen.write(words.grade, BOLD, 1.1 * size, box, baseline)
        lines = 1
    else:
        pen.pair(words.date, words.grade, (BOLD, BOLD), HEAD * size, box, baseline)
    pen.paragraph(words.title, size, box, baseline + _TITLE_STEP * size, _LEADING * size, lines)
    if money:
        pen.pair(words.ask, words.code, (SEMIBOLD, REGULAR), 1.1 * size, box, box.bottom - _FOOT_STEP * size)
        pen.write(words.id, SEMIBOLD, size, box, box.bottom)
    else:
        pen.pair(words.id, words.ask or words.code, (SEMIBOLD, SEMIBOLD), size, box, box.bottom)


def _below(words: _Words, form: Shape, box: Box, pen: Pen) -> None:
    """Under the symbol and centred: ID, date, grade, what it is, price and cost code."""
    if words.blank:
        return _blank(words, box, pen, "m")
    size = _below_size(form, box, pen)
    baseline = box.top + CAP * size
    pen.write(words.id, SEMIBOLD, size, box, baseline, "m")
    baseline += 0.45 * size
    if words.date:
        baseline += HEAD * size
        pen.write(words.date, BOLD, HEAD * size, box, baseline, "m")
    if words.grade:
        baseline += 1.4 * size
        pen.write(words.grade, BOLD, 1.15 * size, box, baseline, "m")
    foot = _FOOT_STEP * size * (bool(words.ask) + bool(words.code))
    room = box.bottom - foot - baseline - _TITLE_STEP * size
    lines = max(1, min(4, 1 + int(room / (_LEADING * size))))
    pen.paragraph(words.title, size, box, baseline + _TITLE_STEP * size, _LEADING * size, lines, "m")
    if words.ask:
        pen.write(words.ask, SEMIBOLD, 1.15 * size, box, box.bottom - (_FOOT_STEP * size if words.code else 0), "m")
    pen.write(words.code, REGULAR, size, box, box.bottom, "m")


def _card(words: _Words, form: Shape, box: Box, pen: Pen) -> None:
    """Date, grade and what it is over the whole card; price, cost code and ID beside the symbol."""
    aside = form.aside
    size = min(aside.width / faces.ems(words.id, SEMIBOLD), pen.points(_most(form)))
    if words.blank:
        pen.write(words.id, SEMIBOLD, size, aside, aside.bottom)
        return _lines_to_write(Box(box.left, box.top, box.right, form.zone.top), pen, size)
    box = Box(box.left, box.top, box.right, form.zone.top)
    head = 1.7 * size
    baseline = box.top + CAP * head
    pen.pair(words.date, words.grade, (BOLD, BOLD), head, box, baseline)
    lines = max(1, 1 + int((box.bottom - baseline - (_TITLE_STEP + 0.3) * size) / (_LEADING * size)))
    pen.paragraph(words.title, size, box, baseline + _TITLE_STEP * size, _LEADING * size, min(3, lines))
    pen.write(words.id, SEMIBOLD, size, aside, aside.bottom)
    pen.write(words.code, REGULAR, size, aside, aside.bottom - _FOOT_STEP * size)
    pen.write(words.ask, SEMIBOLD, 1.3 * size, aside, aside.bottom - (2 if words.code else 1) * _FOOT_STEP * size)


def _blank(words: _Words, box: Box, pen: Pen, align: str) -> None:
    size = min(1.1 * pen.points(_COMFORT), box.width / faces.ems(words.id, SEMIBOLD), box.height * 0.4)
    pen.write(words.id, SEMIBOLD, size, box, box.top + CAP * size, align)
    _lines_to_write(Box(box.left, box.top + round(CAP * size), box.right, box.bottom), pen, size)


def _lines_to_write(box: Box, pen: Pen, size: float) -> None:
    """Lines for the buyer's pen, named where there is room for more than one."""
    step = dots(_WRITE, pen.dpi)
    names = ("Bought", "From", "Price")
    count = max(1, min(len(names), box.height // step))
    step = min(box.height // count, 2 * step)
    small = max(pen.points(5.5), 0.75 * min(size, pen.points(10)))
    for at, name in enumerate(names[-count:] if count > 1 else ("",)):
        baseline = box.bottom - (count - 1 - at) * step - max(1, dots(0.12, pen.dpi))
        pen.write(name, REGULAR, small, box, baseline)
        start = box.left + round(small * (faces.ems(name, REGULAR) + GAP / 2) if name else 0)
        pen.rule(start, box.right, baseline)


def _most(form: Shape) -> float:
    """Largest type size, in points, that looks right on a label of this height."""
    return 10.0 if form.height is None else min(14.0, max(7.0, 0.42 * form.height * 25.4 / form.dpi))


def _below_size(form: Shape, box: Box, pen: Pen) -> float:
    most = pen.points(9.0)
    return min(box.width / 6.1, most)


def _height_needed(words: _Words, form: Shape, format: Format) -> int:
    """Dots of a continuous label, a whole number of millimetres. Raises BadSymbol beyond the roll's longest."""
    size = 10 * form.dpi / 72
    if form.kind == BELOW:
        size = min((form.text.right - form.text.left) / 6.1, 9 * form.dpi / 72)
        rows = 3 * _WRITE * form.dpi / 25.4 / size if words.blank else 0
        text = CAP + 0.45 + HEAD + 1.4 + _TITLE_STEP + 2 * _LEADING + _FOOT_STEP * (bool(words.ask) + bool(words.code))
        least = form.text.top + (CAP + 0.3 + rows if words.blank else text + 0.3) * size + form.safe
    else:
        text = CAP * HEAD + _TITLE_STEP + _LEADING + 2 * _FOOT_STEP
        least = max(form.zone.bottom + form.edge, text * size + 2 * form.safe)
    mm = math.ceil(least * 25.4 / form.dpi)
    if mm > format.longest:
        raise symbol.BadSymbol(f"A label of “{format.key}” would be {mm} mm long; its longest is {format.longest:g} mm.")
    return dots(mm, form.dpi)
