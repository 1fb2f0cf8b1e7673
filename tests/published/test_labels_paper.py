"""Paper and label grids, against ISO 216, ANSI/ASME Y14.1 and closure: margins, pitches and labels add up."""

import pytest

from exergue.labels import formats

INCH = 25.4  # exact, international yard and pound agreement of 1959
LETTER = (8.5 * INCH, 11 * INCH)  # ANSI/ASME Y14.1, size A
A4 = (210.0, 297.0)  # ISO 216: A0 of 841 × 1189, halved four times and rounded down


def test_paper_sizes():
    wide, high = 841, 1189
    for _ in range(4):
        wide, high = high // 2, wide
    assert (wide, high) == A4
    for one in formats.all().values():
        if one.paper:
            assert one.paper == pytest.approx(LETTER if "Letter" in one.name else A4)


# common practice, no source: sheets of these grids are sold everywhere; in inches, or in millimetres for A4
GRIDS = {
    "letter-30": ((2.625, 1.0), (3, 10), (0.1875, 0.5), (2.75, 1.0), INCH),
    "letter-80": ((1.75, 0.5), (4, 20), (0.3, 0.5), (2.05, 0.5), INCH),
    "letter-10": ((4.0, 2.0), (2, 5), (0.15625, 0.5), (4.1875, 2.0), INCH),
    "a4-24": ((70.0, 37.0), (3, 8), (0.0, 0.5), (70.0, 37.0), 1.0),
    "a4-65": ((38.1, 21.2), (5, 13), (4.67, 10.7), (40.64, 21.2), 1.0),
}


@pytest.mark.parametrize("key", GRIDS)
def test_the_grids_of_sold_label_sheets_close(key):
    label, grid, first, pitch, unit = GRIDS[key]
    format = formats.get(key)
    for side in (0, 1):
        closed = 2 * first[side] + (grid[side] - 1) * pitch[side] + label[side]
        assert closed * unit == pytest.approx(format.paper[side], abs=0.01)
        assert (format.width, format.height)[side] == pytest.approx(label[side] * unit)
        assert (format.across, format.down)[side] == grid[side]
        assert format.first[side] == pytest.approx(first[side] * unit)
        assert format.pitch[side] == pytest.approx(pitch[side] * unit)


def test_left_edges_of_the_letter_grid():
    """2 × 0.1875 + 2 × 2.75 + 2.625 = 8.5 inches: left edges at 4.7625, 74.6125 and 144.4625 mm."""
    format = formats.get("letter-30")
    edges = [format.first[0] + column * format.pitch[0] for column in range(format.across)]
    assert edges == pytest.approx([4.7625, 74.6125, 144.4625])


def test_a_grid_without_sheet_margin_keeps_ink_off_the_printers_blank_edge():
    """Common practice, no source: office printers leave 3 to 5 mm blank at the paper's edge."""
    for one in formats.all().values():
        if one.paper:
            assert min(one.first) + one.safe >= 3 or one.key == "a4-24" and one.safe >= 5


@pytest.mark.parametrize("key", [one.key for one in formats.all().values() if one.cut_marks])
def test_sheets_to_cut_are_centred_and_leave_room_for_their_marks(key):
    format = formats.get(key)
    for side, count, label in ((0, format.across, format.width), (1, format.down, format.height)):
        assert 2 * format.first[side] + count * label == pytest.approx(format.paper[side], abs=0.01)
        assert format.first[side] >= 6


def test_inserts_fit_a_two_by_two_holder():
    """A 2×2 holder is 2 in = 50.8 mm square."""
    for key in ("insert-letter", "insert-a4", "flip-letter", "flip-a4", "strip-letter", "strip-a4"):
        assert max(formats.get(key).width, formats.get(key).height) < 2 * INCH


def test_dots_of_the_papers():
    """At 300 dpi Letter is 2550 × 3300 dots; 8.5 × 300 and 11 × 300."""
    assert (formats.dots(LETTER[0], 300), formats.dots(LETTER[1], 300)) == (2550, 3300)
