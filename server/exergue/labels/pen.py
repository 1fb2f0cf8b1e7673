"""Sets words on a 1-bit canvas: each text is made a little smaller where it must be, then cut short."""

from PIL import Image, ImageDraw

from exergue.labels import faces
from exergue.labels.formats import dots
from exergue.labels.shape import Box

REGULAR, SEMIBOLD, BOLD = 400, 600, 700
LEAST = 5.0  # points: smaller print cannot be read at 203 dpi
_SHRINK = 0.78  # a text keeps at least this much of its size before it is cut short


class Pen:
    """Draws on `canvas`, whose dots are `dpi` to the inch. Sizes are dots an em, baselines dots from the top."""

    def __init__(self, canvas: Image.Image, dpi: int):
        self._draw = ImageDraw.Draw(canvas)
        self._draw.fontmode = "1"
        self.dpi = dpi

    def points(self, size: float) -> float:
        """`size` points, in dots."""
        return size * self.dpi / 72

    def fitted(self, ems: float, size: float, room: int) -> int:
        """The largest size up to `size` at which `ems` fit in `room`, within what may be shrunk."""
        floor = min(size, max(self.points(LEAST), size * _SHRINK))
        return int(max(floor, min(size, room / ems if ems else size)))

    def write(self, text: str, weight: int, size: float, box: Box, baseline: float, align: str = "l") -> None:
        """`text` on one line of the box, aligned l, m or r."""
        if not text:
            return
        small = self.fitted(faces.ems(text, weight), size, box.width)
        shown = faces.shorten(text, weight, small, box.width)
        self._put(shown, weight, small, box, baseline, align)

    def pair(self, left: str, right: str, weights: tuple[int, int], size: float, box: Box, baseline: float) -> None:
        """Two texts on one line, at the box's two sides; the left one is cut short first."""
        if not left or not right:
            return self.write(left or right, weights[0] if left else weights[1], size, box, baseline)
        small = self.fitted(pair_ems(left, right, weights), size, box.width)
        right = faces.shorten(right, weights[1], small, int(box.width * 0.6))
        room = box.width - faces.width(right, weights[1], small) - round(GAP * small)
        self._put(faces.shorten(left, weights[0], small, room), weights[0], small, box, baseline, "l")
        self._put(right, weights[1], small, box, baseline, "r")

    def paragraph(self, text: str, size: float, box: Box, baseline: float, step: float, most: int, align="l") -> int:
        """`text` in at most `most` lines, the first at `baseline`; returns the lines used."""
        small = int(size)
        while small > self.fitted(1e9, size, 1):
            if _holds(text, small, box.width, most):
                break
            small -= 1
        lines = faces.broken(text, REGULAR, small, box.width, most)
        for at, one in enumerate(lines):
            self._put(one, REGULAR, small, box, baseline + at * step, align)
        return len(lines)

    def rule(self, left: int, right: int, baseline: float) -> None:
        """A thin line to write on."""
        thick = max(1, dots(0.12, self.dpi))
        self._draw.rectangle((left, round(baseline), right - 1, round(baseline) + thick - 1), fill=1)

    def _put(self, text: str, weight: int, size: int, box: Box, baseline: float, align: str) -> None:
        across = {"l": box.left, "m": (box.left + box.right) // 2, "r": box.right}[align]
        self._draw.text((across, round(baseline)), text, font=faces.face(weight, size), fill=1, anchor=f"{align}s")


GAP = 0.7  # ems between two texts of a line


def pair_ems(left: str, right: str, weights: tuple[int, int]) -> float:
    """Width of two texts on one line, in ems."""
    return faces.ems(left, weights[0]) + faces.ems(right, weights[1]) + GAP


def _holds(text: str, size: int, room: int, most: int) -> bool:
    lines = faces.broken(text, REGULAR, size, room, most)
    return "".join(lines).replace(" ", "") == text.replace(" ", "")
