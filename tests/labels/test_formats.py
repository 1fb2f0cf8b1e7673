"""Formats: labels lie on the paper, and a bad format says what is wrong with it."""

import pytest

from exergue.labels import formats
from exergue.labels.formats import BadFormat

GOOD = {"paper": [210, 297], "label": [70, 37], "grid": [3, 8], "first": [0, 0.5], "pitch": [70, 37], "safe": 5}


@pytest.mark.parametrize("format", formats.all().values(), ids=lambda one: one.key)
def test_labels_lie_on_the_paper_side_by_side(format):
    if format.roll:
        assert format.per_page == 1 and format.corner(0, 203) == (0, 0)
        return
    for side, count, label in ((0, format.across, format.width), (1, format.down, format.height)):
        edges = [format.first[side] + at * format.pitch[side] for at in range(count)]
        assert edges[0] >= 0 and edges[-1] + label <= format.paper[side] + 0.02
        assert all(b - a >= label - 0.02 for a, b in zip(edges, edges[1:], strict=False))


@pytest.mark.parametrize("dpi", formats.DPI)
@pytest.mark.parametrize("format", [one for one in formats.all().values() if not one.roll], ids=lambda one: one.key)
def test_every_place_is_within_half_a_dot_of_its_millimetres(format, dpi):
    for place in range(format.per_page):
        row, column = divmod(place, format.across)
        left, top = format.corner(place, dpi)
        assert abs(left - (format.first[0] + column * format.pitch[0]) * dpi / 25.4) <= 0.5
        assert abs(top - (format.first[1] + row * format.pitch[1]) * dpi / 25.4) <= 0.5


def test_formats_name_paper_and_size_and_no_two_alike():
    names = [one.name for one in formats.all().values()]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"grid": [4, 8]}, "4 labels across reach to 280.00 mm, but the paper ends at 210 mm"),
        ({"first": [0, 2]}, "8 labels down reach to 298.00 mm"),
        ({"pitch": [69, 37]}, "overlap at a pitch of 69 mm across"),
        ({"grid": [2.5, 8]}, "whole numbers"),
        ({"label": [70, "37"]}, "“label” needs 1 or 2 numbers"),
        ({"label": [70]}, "“longest” needs"),
        ({"safe": 18}, "leaves no room"),
        ({"safe": -1}, "“safe” needs 1 number of millimetres"),
        ({"safe": float("nan")}, "“safe” needs"),
        ({"margin": 3}, "“margin” is no dimension"),
        ({"cut_marks": "yes"}, "true or false"),
        ({"paper": [True, 297]}, "“paper” needs 2 numbers"),
    ],
)
def test_a_bad_format_says_what_is_wrong(change, says):
    with pytest.raises(BadFormat, match=says):
        formats.read("mine", GOOD | change)


def test_a_roll_takes_no_grid():
    with pytest.raises(BadFormat, match="“grid” needs “paper”"):
        formats.read("mine", {"label": [57, 32], "grid": [1, 2]})


def test_the_owner_adds_formats_of_their_own(tmp_path):
    own = tmp_path / "own.toml"
    own.write_text('[box-lid]\nlabel = [80, 40]\nsafe = 2\n', encoding="utf-8")
    assert formats.get("box-lid", own).width == 80
    assert list(formats.all(own))[:-1] == list(formats.all())


@pytest.mark.parametrize(
    ("text", "says"),
    [("[letter-30]\nlabel = [9, 9]\n", "built in"), ("label = [", "not valid TOML"), ("name = 3", "it is no table")],
)
def test_an_owners_bad_file_is_refused(tmp_path, text, says):
    own = tmp_path / "own.toml"
    own.write_text(text, encoding="utf-8")
    with pytest.raises(BadFormat, match=says):
        formats.all(own)


def test_what_is_not_there_is_said():
    with pytest.raises(BadFormat, match="cannot be read"):
        formats.all("/nowhere/own.toml")
    with pytest.raises(BadFormat, match="there are letter-30, "):
        formats.get("letter-31")
    with pytest.raises(BadFormat, match="203, 300 or 600"):
        formats.check_dpi(144)
