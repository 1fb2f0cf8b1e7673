"""Printed labels are read by an independent decoder, at the printer's resolution and at others."""

import io

import pytest
from labels.samples import labels

from exergue.labels import calibration, formats, readback, sheet

FORMATS = list(formats.all().values())


def printed(which, format, dpi) -> bytes:
    out = io.BytesIO()
    sheet.print_pdf(which, format, dpi, out=out)
    return out.getvalue()


@pytest.mark.parametrize("format", FORMATS, ids=lambda one: one.key)
@pytest.mark.parametrize(("dpi", "rasters"), [(203, [203]), (300, [300]), (600, formats.DPI)])
def test_every_label_of_a_full_page_is_read_by_an_independent_decoder(format, dpi, rasters):
    which = labels(max(format.per_page, 7 if format.roll else 0))
    data = printed(which, format, dpi)
    for raster in rasters:
        assert readback.check(data, [one.id for one in which], raster).sentence() == f"All {len(which)} labels read."


def test_a_longer_address_is_read_from_every_format():
    for format in FORMATS:
        which = labels(format.per_page, base="https://my-coin-table.exergue.example")
        assert readback.check(printed(which, format, 203), [one.id for one in which], 203).good


def test_what_does_not_read_is_named():
    which = labels(6)
    data = printed([which[0], which[1], which[1], which[2]], formats.get("letter-30"), 300)
    found = readback.check(data, [one.id for one in which[:2] + which[3:5]])
    assert found.read == (which[0].id, which[1].id)
    assert found.missing == (which[3].id, which[4].id)
    assert found.strange == (which[2].id,) and found.twice == (which[1].id,)
    assert not found.good and "2 labels do not read" in found.sentence()


def test_a_symbol_that_is_no_label_is_told(tmp_path):
    path = tmp_path / "calibration.pdf"
    calibration.page(formats.get("a4-24"), 203, path)
    assert "3 DOTS A MODULE: 0.375 MM" in readback.check(path, []).strange
