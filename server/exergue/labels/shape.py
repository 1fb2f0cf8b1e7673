"""Where symbol and text stand on a label. All in printer dots, from the label's upper left corner."""

from dataclasses import dataclass, replace
from functools import lru_cache

from exergue.labels.formats import Format, dots
from exergue.labels.symbol import QUIET, BadSymbol, least_dots

BESIDE, BELOW, CARD = "beside", "below", "card"  # the text stands to the right of, under, around the symbol
_USUAL = 0.51  # mm: widest module of a small label; read at arm's length
_LARGEST = 1.0  # mm: of the largest
_GROWTH = 0.022  # mm of module for each mm of a label's shorter side
_TRIM = 0.5  # mm that a cut may stray: the quiet zone keeps clear of cut marks by this much
_TEXT_WIDTH = 0.6  # of a wide label, at the least
_TEXT_HEIGHT = 0.5  # of a tall label, at the least


@dataclass(frozen=True)
class Box:
    left: int
    top: int
    right: int
    bottom: int

    @property
    def width(self) -> int:
        return self.right - self.left

    @property
    def height(self) -> int:
        return self.bottom - self.top


@dataclass(frozen=True)
class Shape:
    """`module` is in dots, `zone` is the symbol with its quiet zone. `height` and text bottoms are None as needed."""

    kind: str
    dpi: int
    width: int
    height: int | None
    safe: int
    edge: int
    module: int
    zone: Box
    text: Box
    aside: Box | None = None  # on a card: the corner beside the symbol

    def cut_at(self, high: int) -> "Shape":
        """A continuous label's shape once its height is known; a symbol beside the text stands half way up."""
        text, zone = replace(self.text, bottom=high - self.safe), self.zone
        if self.kind == BESIDE:
            top = (high - zone.height) // 2
            zone = replace(zone, top=top, bottom=top + zone.height)
        return replace(self, height=high, text=text, zone=zone)

    @property
    def ink(self) -> tuple[int, int]:
        """Upper left corner of the symbol itself."""
        return self.zone.left + QUIET * self.module, self.zone.top + QUIET * self.module


@lru_cache(maxsize=256)
def shape(format: Format, dpi: int, across: int) -> Shape:
    """The shape of a label whose symbol has `across` modules a side. Raises BadSymbol where it cannot be read."""
    wide = int(format.width * dpi / 25.4)
    high = None if format.height is None else int(format.height * dpi / 25.4)
    safe, edge = dots(format.safe, dpi), dots(_TRIM, dpi) if format.cut_marks else 0
    kind = _kind(format)
    shorter = min(format.width, format.height or 0)
    most = int(min(_LARGEST, max(_USUAL, _GROWTH * shorter)) * dpi / 25.4)
    for module in range(most, least_dots(dpi) - 1, -1):
        made = _with_module(kind, dpi, wide, high, safe, edge, module, across)
        if made is not None:
            return made
    least = least_dots(dpi)
    need = (across + 2 * QUIET) * least * 25.4 / dpi
    raise BadSymbol(
        f"The format “{format.key}” is too small for this address: its QR symbol needs {need:.1f} mm with "
        f"{least} dots a module at {dpi} dpi; choose a larger label or a shorter host name."
    )


def _kind(format: Format) -> str:
    if format.height is None:
        return BELOW if format.width < 40 else BESIDE
    ratio = format.width / format.height
    if ratio < 0.8:
        return BELOW
    return CARD if ratio < 1.3 and format.height >= 35 else BESIDE


def _with_module(kind, dpi, wide, high, safe, edge, module, across) -> Shape | None:
    """The shape at `module` dots, or None where symbol or text would not have their room."""
    zone, ink, quiet = (across + 2 * QUIET) * module, across * module, QUIET * module
    near = max(edge, safe - quiet)  # quiet zone may reach past the safe edge: it holds no ink
    if kind == BESIDE:
        if high is not None and (zone > high - 2 * edge or ink > high - 2 * safe):
            return None
        text_left = near + zone
        if wide - text_left < _TEXT_WIDTH * wide:
            return None
        top = near if high is None else (high - zone) // 2
        text = Box(text_left, safe, wide - safe, 0 if high is None else high - safe)
        return Shape(kind, dpi, wide, high, safe, edge, module, Box(near, top, near + zone, top + zone), text)
    if kind == BELOW:
        if zone > wide - 2 * edge or ink > wide - 2 * safe:
            return None
        if high is not None and high - near - zone < _TEXT_HEIGHT * high:
            return None
        left = (wide - zone) // 2
        text = Box(safe, near + zone, wide - safe, 0 if high is None else high - safe)
        return Shape(kind, dpi, wide, high, safe, edge, module, Box(left, near, left + zone, near + zone), text)
    if zone > 0.48 * high or near + zone + safe > 0.52 * wide:
        return None
    top = high - near - zone
    aside = Box(near + zone, top + quiet, wide - safe, high - max(safe, near + quiet))
    text = Box(safe, safe, wide - safe, top)
    return Shape(kind, dpi, wide, high, safe, edge, module, Box(near, top, near + zone, top + zone), text, aside)
