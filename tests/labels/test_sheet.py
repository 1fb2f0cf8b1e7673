"""Pages: the paper's own size, one dot of the picture for one dot of the printer, part-used sheets, many pages."""

import io
import shutil
import subprocess

import pypdfium2
import pytest
from labels.samples import labels
from PIL import Image, ImageChops

from exergue.labels import formats, layout, pdf, readback, sheet
from exergue.labels.formats import BadFormat
from exergue.labels.marks import cuts
from exergue.labels.symbol import BadSymbol

LETTER, A4, ROLL = formats.get("letter-30"), formats.get("a4-65"), formats.get("roll-29")


def printed(which, format, dpi, **more) -> bytes:
    out = io.BytesIO()
    sheet.print_pdf(which, format, dpi, out=out, **more)
    return out.getvalue()


@pytest.mark.parametrize("dpi", formats.DPI)
@pytest.mark.parametrize("format", formats.all().values(), ids=lambda one: one.key)
def test_a_page_is_the_paper_to_the_point(format, dpi):
    (page,) = pypdfium2.PdfDocument(printed(labels(1), format, dpi))
    wide, high = format.paper or (format.width, format.height or page.get_height() * 25.4 / 72)
    assert page.get_size() == pytest.approx((wide * 72 / 25.4, high * 72 / 25.4), abs=1e-4)


def placed(page: pypdfium2.PdfPage) -> tuple[int, int, tuple[float, ...]]:
    """Dots of the page's picture across and down, and the matrix in points that places it."""
    (image,) = page.get_objects()
    return (*image.get_px_size(), image.get_matrix().get())


@pytest.mark.parametrize("dpi", formats.DPI)
@pytest.mark.parametrize("format", formats.all().values(), ids=lambda one: one.key)
def test_the_picture_hangs_from_the_upper_left_corner_at_true_scale(format, dpi):
    (page,) = pypdfium2.PdfDocument(printed(labels(1), format, dpi))
    across, down, matrix = placed(page)
    wide, high = across * 72 / dpi, down * 72 / dpi
    assert matrix == pytest.approx((wide, 0, 0, high, 0, page.get_height() - high), abs=0.0021)  # a hair: see pdf.py


def same_dots(raster: Image.Image, which, format, dpi) -> None:
    drawn = Image.new("1", raster.size)
    for place, label in enumerate(which):
        drawn.paste(layout.picture(label, format, dpi), format.corner(place, dpi))
    assert ImageChops.difference(raster.point(lambda grey: 255 - grey), drawn.convert("L")).getbbox() is None


@pytest.mark.parametrize("dpi", [300, 600])  # Letter is a whole number of dots only there
def test_a_rasteriser_at_the_same_resolution_gives_the_very_dots_that_were_drawn(dpi):
    which = labels(LETTER.per_page)
    (raster,) = readback.rasters(printed(which, LETTER, dpi), dpi)
    same_dots(raster, which, LETTER, dpi)


@pytest.mark.skipif(not shutil.which("pdftoppm"), reason="needs pdftoppm")
@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("format", [LETTER, A4, ROLL], ids=lambda one: one.key)
def test_a_second_rasteriser_gives_the_very_dots_too(format, dpi, tmp_path):
    which = labels(format.per_page)
    sheet.print_pdf(which, format, dpi, out=tmp_path / "sheet.pdf")
    command = ["pdftoppm", "-gray", "-singlefile", "-r", str(dpi), tmp_path / "sheet.pdf", tmp_path / "sheet"]
    subprocess.run(command, check=True, timeout=60)
    with Image.open(tmp_path / "sheet.pgm") as raster:
        same_dots(raster.copy(), which, format, dpi)


def test_a_part_used_sheet_starts_at_its_first_free_place():
    which = labels(5)
    data = printed(which, LETTER, 203, start=29)
    raster, _ = readback.rasters(data, 203)
    left, top = LETTER.corner(28, 203)
    assert raster.crop((0, 0, raster.width, top)).getextrema() == (255, 255)
    assert raster.crop((0, top, left, raster.height)).getextrema() == (255, 255)
    assert [len(texts) for texts in readback.read(data, 203)] == [2, 3]


def test_the_next_sheet_begins_bare():
    many = printed(labels(31), LETTER, 203)
    one = printed(labels(31)[30:], LETTER, 203)
    rasters = [list(readback.rasters(data, 203))[-1] for data in (many, one)]
    assert ImageChops.difference(*rasters).getbbox() is None


def test_labels_may_come_one_by_one():
    out = io.BytesIO()
    assert sheet.print_pdf((one for one in labels(70)), LETTER, 203, out=out) == sheet.Printed(pages=3, labels=70)


def test_a_roll_has_a_page_for_each_label_of_its_own_length():
    data = printed(labels(7), ROLL, 203)
    heights = [page.get_height() * 25.4 / 72 for page in pypdfium2.PdfDocument(data)]
    assert len(heights) == 7 and len({round(one) for one in heights}) > 1 and max(heights) <= ROLL.longest + 0.1


def test_the_same_labels_give_the_same_file():
    assert printed(labels(3), A4, 203) == printed(labels(3), A4, 203)


def test_the_viewer_is_asked_not_to_scale():
    assert b"/PrintScaling /None" in printed(labels(1), A4, 203)


@pytest.mark.parametrize(("format", "start"), [(LETTER, 0), (LETTER, 31), (ROLL, 2)])
def test_a_place_that_is_not_on_the_sheet_is_refused(format, start):
    with pytest.raises(BadFormat, match=f"cannot start at place {start}"):
        printed(labels(1), format, 203, start=start)


def test_no_labels_and_odd_resolutions_are_refused():
    with pytest.raises(BadFormat, match="no labels"):
        printed([], LETTER, 203)
    with pytest.raises(BadFormat, match="not at 72"):
        printed(labels(1), LETTER, 72)


def test_a_path_is_replaced_only_by_a_whole_file(tmp_path):
    path = tmp_path / "labels.pdf"
    path.write_bytes(b"before")
    bad = [*labels(2), layout.Label("0000000000", "https://lower.example/c/0000000000")]
    with pytest.raises(BadSymbol):
        sheet.print_pdf(bad, LETTER, 203, out=path)
    assert path.read_bytes() == b"before" and list(tmp_path.iterdir()) == [path]
    sheet.print_pdf(labels(2), LETTER, 203, out=path)
    assert path.read_bytes().startswith(b"%PDF-") and list(tmp_path.iterdir()) == [path]


def test_group_4_gives_back_the_picture():
    picture = Image.new("1", (37, 20))
    picture.paste(1, (3, 4, 30, 9))
    out = io.BytesIO()
    pages = pdf.Pages(out, "Blätter")
    pages.add(picture, (37.0, 20.0), 72)
    pages.close()
    document = pypdfium2.PdfDocument(out.getvalue())
    (raster,) = readback.rasters(out.getvalue(), 72)
    raster = raster.point(lambda grey: 255 - grey)
    assert ImageChops.difference(raster, picture.convert("L")).getbbox() is None
    assert document.get_metadata_dict()["Title"] == "Blätter"


@pytest.mark.parametrize("key", ["insert-letter", "flip-a4", "strip-a4"])
def test_cut_marks_stand_at_every_cut_and_nowhere_else(key):
    format = formats.get(key)
    (raster,) = readback.rasters(printed(labels(format.per_page), format, 300), 300)
    upright, level = cuts(format, 300)
    margin = raster.crop((0, level[0] - 40, raster.width, level[0] - 39))
    dark = [x for x in range(margin.width) if margin.getpixel((x, 0)) < 128]
    assert all(min(abs(x - cut) for x in dark) <= 1 for cut in upright)
    assert all(min(abs(x - cut) for cut in upright) <= 1 for x in dark)
