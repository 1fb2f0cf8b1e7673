"""Sets words on a 1-bit canvas: each text is made a little smaller where it must be, then cut short."""

from PIL import Image

from exergue.labels import faces
from exergue.labels.shape import Box
from exergue.labels.words import GAP, PAIR, REGULAR

LEAST = 5.0  # points: smaller print cannot be read at 203 dpi
_SHRINK = 0.68  # of its size that a paragraph keeps before it is cut short


class Pen:
    """Draws on `canvas`, whose dots are `dpi` to the inch. Sizes are dots an em, baselines dots from the top."""

    def __init__(self, canvas: Image.Image, dpi: int):
        self._canvas = canvas
        self.dpi = dpi

    def points(self, size: float) -> float:
        """`size` points, in dots."""
        return size * self.dpi / 72

    def most(self, height: int) -> float:
        """Largest type size, in points, that looks right on a label `height` dots high."""
        return min(18.0, max(10.0, 0.4 * height * 25.4 / self.dpi))

    def write(self, text: str, weight: int, size: float, box: Box, baseline: float, align: str = "l") -> None:
        """`text` on one line of the box, aligned l, m or r; as small as can be read before it is cut short."""
        if text:
            small = self._fitted(text, weight, size, box.width)
            self._put(faces.shorten(text, weight, small, box.width), weight, small, box, baseline, align)

    def pair(self, left: str, right: str, weights: tuple[int, int], size: float, box: Box, baseline: float) -> None:
        """Two texts on one line, at the box's two sides: both a little smaller, then the right one gives way."""
        if not right:
            return self.write(left, weights[0], size, box, baseline)
        if not left:
            return self.write(right, weights[1], size, box, baseline, "r")
        both = faces.ems(left, weights[0]) + GAP + faces.ems(right, weights[1])
        small = int(max(PAIR * size, min(size, box.width / both)))
        small = self._fitted(left, weights[0], small, int(box.width * 0.7))
        left = faces.shorten(left, weights[0], small, int(box.width * 0.7))
        self._put(left, weights[0], small, box, baseline, "l")
        room = box.width - faces.width(left, weights[0], small) - round(GAP * small * 0.8)
        least = int(self.points(LEAST))
        small = max(least, min(small, int(1.02 * room / faces.ems(right, weights[1]))))
        while small > least and faces.width(right, weights[1], small) > room:
            small -= 1
        self._put(faces.shorten(right, weights[1], small, room), weights[1], small, box, baseline, "r")

    def paragraph(self, text: str, size: float, box: Box, baseline: float, step: float, most: int, align="l") -> None:
        """`text` in at most `most` lines, the first at `baseline`, each `step` below the last."""
        small = int(size)
        least = int(min(size, max(self.points(LEAST), size * _SHRINK)))
        lines = faces.broken(text, REGULAR, small, box.width, most)
        while lines is None and small > least:
            small -= 1
            lines = faces.broken(text, REGULAR, small, box.width, most)
        if lines is None:
            lines = faces.squeezed(text, REGULAR, small, box.width, most)
        for at, one in enumerate(lines):
            self._put(one, REGULAR, small, box, baseline + at * step, align)

    def rule(self, left: int, right: int, baseline: float, thick: int) -> None:
        """A line to write on, `thick` dots."""
        self._canvas.paste(1, (left, round(baseline), right, round(baseline) + thick))

    def _fitted(self, text: str, weight: int, size: float, room: int) -> int:
        """The largest size that can be read, up to `size`, at which `text` fits in `room`."""
        small = int(min(size, 1.02 * room / faces.ems(text, weight)))
        least = int(min(size, self.points(LEAST)))
        while small > least and faces.width(text, weight, small) > room:
            small -= 1
        return max(small, least)

    def _put(self, text: str, weight: int, size: int, box: Box, baseline: float, align: str) -> None:
        if not text:
            return
        tile, top = faces.inked(text, weight, size)
        spare = box.width - tile.width  # by its ink: letters with no side bearing keep out of the quiet zone, too
        start = box.left + {"l": 0, "m": spare // 2, "r": spare}[align]
        self._canvas.paste(1, (start, round(baseline) + top), tile)
