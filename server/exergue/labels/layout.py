"""Draws one label: symbol, ID, what the coin is, and what the owner switches on. Ink is 1, paper 0, in printer dots."""

import math

from PIL import Image

from exergue.labels import below, beside, blank, card, symbol
from exergue.labels.formats import BadFormat, Format, check_dpi, dots
from exergue.labels.label import Label
from exergue.labels.pen import Pen
from exergue.labels.shape import BELOW, BESIDE, CARD, Shape, shape
from exergue.labels.words import Words

_DRAW = {BESIDE: beside.draw, BELOW: below.draw, CARD: card.draw}


def picture(label: Label, format: Format, dpi: int) -> Image.Image:
    """The label as a 1-bit picture, ink 1 on paper 0. Raises BadSymbol, BadFormat."""
    modules = symbol.matrix(label.address)
    form = shape(format, check_dpi(dpi), len(modules))
    words = Words(label)
    if form.height is None:
        form = form.cut_at(_length(words, form, format))
    canvas = Image.new("1", (form.width, form.height))
    (blank.draw if label.blank else _DRAW[form.kind])(words, form, Pen(canvas, dpi))
    canvas.paste(symbol.picture(modules, form.module), form.ink)
    return canvas


def _length(words: Words, form: Shape, format: Format) -> int:
    """Dots of a continuous label, a whole number of millimetres. Raises BadFormat beyond the roll's longest."""
    if words.blank:
        least = blank.least_height(form)
    else:
        least = below.least_height(words, form) if form.kind == BELOW else beside.least_height(form)
    mm = math.ceil(least * 25.4 / form.dpi)
    if mm > format.longest:
        raise BadFormat(f"Label format “{format.key}”: a label needs {mm} mm; its longest is {format.longest:g} mm.")
    return dots(mm, form.dpi)
