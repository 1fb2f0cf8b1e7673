"""One label, dot by dot: the symbol is whole dots, its quiet zone is bare, the words keep to their place."""

import pytest
from labels.samples import BASE, LONGEST, TEXTS, labels
from PIL import Image, ImageChops

from exergue.labels import Label, faces, formats, ids, layout, symbol
from exergue.labels.formats import dots
from exergue.labels.shape import shape
from exergue.labels.symbol import QUIET, BadSymbol

COIN = "7K3M9QX2B" + ids.check_character("7K3M9QX2B")
LONG_BASE = "https://my-coin-table.exergue.example"  # one version larger
FORMATS = list(formats.all().values())
every_format = pytest.mark.parametrize("format", FORMATS, ids=lambda one: one.key)
every_dpi = pytest.mark.parametrize("dpi", formats.DPI)


def samples(base=BASE):
    address = ids.address(base, COIN)
    yield from (Label(COIN, address, texts, ask, code) for texts, ask, code in TEXTS)
    yield Label(COIN, address, LONGEST, "$1,234,567.89", "BLACKHORSE.BLACKHORSE")
    yield Label(COIN, address, ("日本 Żółć", "", ""), "€ 5", "")
    yield Label(COIN, address)
    yield Label.for_later(COIN, base)


def drawn(label, format, dpi):
    """The picture, the symbol's modules and where the symbol's ink starts."""
    picture = layout.picture(label, format, dpi)
    modules = symbol.matrix(label.address)
    form = shape(format, dpi, len(modules))
    if form.height is None:
        form = form.cut_at(picture.height)
    return picture, modules, form


@every_dpi
@every_format
@pytest.mark.parametrize("base", [BASE, LONG_BASE])
def test_symbol_quiet_zone_and_safe_edge_hold_whatever_the_words(format, dpi, base):
    for label in samples(base):
        picture, modules, form = drawn(label, format, dpi)
        side, (left, top) = len(modules) * form.module, form.ink
        quiet = QUIET * form.module
        assert form.module >= symbol.least_dots(dpi)
        assert min(left, top) - quiet >= form.edge
        assert left + side + quiet <= picture.width - form.edge and top + side + quiet <= picture.height - form.edge
        zone = picture.crop((left - quiet, top - quiet, left + side + quiet, top + side + quiet))
        want = Image.new("1", zone.size)
        want.paste(symbol.picture(modules, form.module), (quiet, quiet))
        assert ImageChops.logical_xor(zone, want).getbbox() is None
        ink = picture.getbbox()
        slack = dots(0.7, dpi)  # a stroke or a bracket stands taller than the capitals
        assert min(ink[0], ink[1]) >= form.safe - slack
        assert ink[2] <= picture.width - form.safe + slack and ink[3] <= picture.height - form.safe + slack


@every_dpi
@every_format
def test_the_label_is_as_large_as_its_format(format, dpi):
    picture = layout.picture(labels(1)[0], format, dpi)
    assert 0 <= format.width * dpi / 25.4 - picture.width < 1
    if format.height is None:
        assert picture.height <= dots(format.longest, dpi)
    else:
        assert 0 <= format.height * dpi / 25.4 - picture.height < 1


@every_dpi
@every_format
def test_lines_of_words_do_not_run_into_each_other(format, dpi, monkeypatch):
    from exergue.labels.pen import Pen

    put, boxes = Pen._put, []

    def noted(pen, text, weight, size, box, baseline, align):
        if text:
            wide = faces.width(text, weight, size)
            start = box.left + {"l": 0, "m": (box.width - wide) // 2, "r": box.width - wide}[align]
            boxes.append((start, baseline - 0.62 * size, start + wide, baseline, text))
        put(pen, text, weight, size, box, baseline, align)

    monkeypatch.setattr(Pen, "_put", noted)
    for label in samples():
        boxes.clear()
        layout.picture(label, format, dpi)
        for at, one in enumerate(boxes):
            for other in boxes[at + 1 :]:
                apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
                assert apart, (one, other)


def test_the_words_are_there():
    bare = layout.picture(Label(COIN, ids.address(BASE, COIN)), formats.get("letter-30"), 300)
    lines = ("Half cent",), ("", "1806"), ("", "", "VF-20")
    for change in (*({"lines": one} for one in lines), {"ask": "$95"}, {"code": "BKX"}):
        more = layout.picture(Label(COIN, ids.address(BASE, COIN), **change), formats.get("letter-30"), 300)
        added = ImageChops.subtract(more.convert("L"), bare.convert("L")).getbbox()
        assert added is not None
        assert ImageChops.subtract(bare.convert("L"), more.convert("L")).getbbox() is None


def test_a_small_label_gets_smaller_modules_and_a_large_one_larger():
    sizes = [shape(formats.get(key), 600, 25).module * 25.4 / 600 for key in ("insert-a4", "letter-30", "letter-10")]
    assert sizes == sorted(set(sizes)) and 0.25 <= sizes[0] and sizes[-1] <= 1.0


@pytest.mark.parametrize("key", list(formats.all()))
def test_thermal_printers_get_three_dots_a_module_for_a_usual_address(key):
    assert shape(formats.get(key), 203, 25).module >= 3


def test_a_label_too_small_for_its_address_is_refused_with_a_sentence():
    tiny = formats.read("tiny", {"label": [30, 8], "safe": 0.5})
    with pytest.raises(BadSymbol, match=r"“tiny” is too small for this address: its QR symbol needs 8\.3 mm"):
        layout.picture(labels(1)[0], tiny, 203)


@pytest.mark.parametrize(
    ("address", "says"),
    [("https://x.example/c/1", "“h” cannot stand in it"), ("", "it is empty"), ("HTTPS://" + "X" * 5000, "too long")],
)
def test_an_address_that_fits_no_label_is_refused_with_a_sentence(address, says):
    with pytest.raises(BadSymbol, match=says):
        layout.picture(Label(COIN, address), formats.get("letter-30"), 300)


def test_a_continuous_roll_is_as_long_as_it_must_be_and_no_longer_than_it_may_be():
    roll = formats.get("roll-29")
    heights = [layout.picture(label, roll, 203).height for label in samples()]
    assert len(set(heights)) > 2
    short = formats.read("short", {"label": [29], "longest": 30})
    with pytest.raises(formats.BadFormat, match="its longest is 30 mm"):
        layout.picture(labels(1)[0], short, 203)


def test_letters_that_the_face_lacks_become_ones_that_it_has():
    assert faces.printable("Kő  €½ “Żó”\n日") == "Ko €½ “Zó” ?"
    assert faces.printable("e\u0301") == "é"


def test_a_label_has_three_lines_and_no_more():
    with pytest.raises(ValueError, match="three lines"):
        Label(COIN, ids.address(BASE, COIN), ("a", "b", "c", "d"))
