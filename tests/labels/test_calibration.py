"""The calibration page: true rulers, the label grid, and samples that say their own size."""

import io

import pytest

from exergue.labels import calibration, formats, readback
from exergue.labels.formats import dots

FORMATS = list(formats.all().values())


def printed(format, dpi) -> bytes:
    out = io.BytesIO()
    calibration.page(format, dpi, out)
    return out.getvalue()


@pytest.mark.parametrize("dpi", formats.DPI)
@pytest.mark.parametrize("format", FORMATS, ids=lambda one: one.key)
def test_the_samples_read_and_say_what_they_are(format, dpi):
    texts = {text for page in readback.read(printed(format, dpi), 600) for text in page}
    least = {203: "2 DOTS A MODULE: 0.250 MM", 300: "3 DOTS A MODULE: 0.254 MM", 600: "6 DOTS A MODULE: 0.254 MM"}
    assert least[dpi] in texts and len(texts) >= 3


@pytest.mark.parametrize("dpi", [300, 600])  # Letter is a whole number of dots there
def test_the_rulers_are_true_to_the_dot(dpi):
    (raster,) = readback.rasters(printed(formats.get("letter-30"), dpi), dpi)
    row = dots(92, dpi)  # through the long marks of the level ruler, from 88 mm down
    dark = [x for x in range(dots(24, dpi), dots(166, dpi)) if raster.getpixel((x, row)) < 128]
    assert [x for x in dark if x - 1 not in dark] == [dots(25 + 10 * centimetre, dpi) for centimetre in range(15)]
    column = dots(215.9 - 19 - 14 + 4, dpi)  # through those of the upright ruler, from 35 mm down
    dark = [y for y in range(dots(34, dpi), dots(136, dpi)) if raster.getpixel((column, y)) < 128]
    assert [y for y in dark if y - 1 not in dark] == [dots(35 + 10 * centimetre, dpi) for centimetre in range(11)]


def test_the_frames_lie_on_the_labels():
    format = formats.get("letter-30")
    (raster,) = readback.rasters(printed(format, 300), 300)
    for place in (0, format.per_page - 1):
        left, top = format.corner(place, 300)
        assert raster.getpixel((left, top)) < 128 and raster.getpixel((left - 2, top - 2)) > 128


def test_a_roll_of_cut_labels_gets_a_label_for_each_sample():
    pages = readback.read(printed(formats.get("roll-57x32"), 203), 600)
    assert pages[0] == [] and all(len(texts) == 1 for texts in pages[1:])
