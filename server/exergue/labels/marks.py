"""Thin marks on a page of plain paper that is cut to labels afterwards."""

from PIL import ImageDraw

from exergue.labels.formats import Format, dots

_LONG = 5.0  # mm of a mark in the margin
_GAP = 1.0  # mm between mark and label
_THIN = 0.1  # mm
_DASH = 1.2  # mm from dot to dot along a cut


def cuts(format: Format, dpi: int) -> tuple[list[int], list[int]]:
    """Columns and rows of dots, from the page's upper left corner, at which the paper is cut."""
    upright, level = set(), set()
    for column in range(format.across):
        left = format.first[0] + column * format.pitch[0]
        upright |= {dots(left, dpi), dots(left + format.width, dpi)}
    for row in range(format.down):
        top = format.first[1] + row * format.pitch[1]
        level |= {dots(top, dpi), dots(top + format.height, dpi)}
    return sorted(upright), sorted(level)


def cut_marks(draw: ImageDraw.ImageDraw, format: Format, dpi: int) -> None:
    """Draws a mark in the margin at both ends of every cut, and fine dots along it between the labels."""
    upright, level = cuts(format, dpi)
    thin, gap, long, dash = (max(1, dots(mm, dpi)) for mm in (_THIN, _GAP, _LONG, _DASH))
    for x in upright:
        left, right = x - thin // 2, x - thin // 2 + thin - 1
        draw.rectangle((left, level[0] - gap - long, right, level[0] - gap), fill=1)
        draw.rectangle((left, level[-1] + gap, right, level[-1] + gap + long), fill=1)
        for y in range(level[0], level[-1], dash):
            draw.rectangle((left, y, right, y + thin - 1), fill=1)
    for y in level:
        top, bottom = y - thin // 2, y - thin // 2 + thin - 1
        draw.rectangle((upright[0] - gap - long, top, upright[0] - gap, bottom), fill=1)
        draw.rectangle((upright[-1] + gap, top, upright[-1] + gap + long, bottom), fill=1)
        for x in range(upright[0], upright[-1], dash):
            draw.rectangle((x, top, x + thin - 1, bottom), fill=1)
