"""QR symbols of labels, against the tables of ISO/IEC 18004:2015 and an independent encoder, segno.

The figures agree with segno; the numbers of tables and annexes are from memory.
"""

import random

import pytest
import segno

from exergue.labels import formats, ids, layout, symbol
from exergue.labels.label import Label
from exergue.labels.shape import shape

# ISO/IEC 18004:2015, table 7: alphanumeric characters that fit at level M, by version
CAPACITY_M = {1: 20, 2: 38, 3: 61, 4: 90, 5: 122}
ALPHANUMERIC = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"  # table 5, in value order


def text(length: int) -> str:
    return "".join(random.Random(length).choice(ALPHANUMERIC) for _ in range(length))


@pytest.mark.parametrize(("version", "capacity"), CAPACITY_M.items())
def test_the_smallest_version_that_holds_the_address_is_taken(version, capacity):
    for length, want in ((capacity, version), (capacity + 1, version + 1)):
        modules = symbol.matrix(text(length))
        assert len(modules) == symbol.modules_across(text(length)) == 17 + 4 * want
        assert segno.make(text(length), mode="alphanumeric", error="m", boost_error=False, micro=False).version == want


def test_a_usual_label_address_makes_version_2():
    """8 + 15 + 3 + 10 = 36 characters of at most 38: 25 modules; in lower case, byte mode, it would be version 3."""
    address = ids.address("https://exergue.example", ids.new_id())
    assert len(address) == 36 and len(symbol.matrix(address)) == 25
    assert segno.make(address.lower(), error="m", boost_error=False, micro=False).version == 3


def format_bits(modules) -> int:
    """The 15 bits beside the upper left finder, ISO/IEC 18004:2015, figure 25, highest first."""
    places = [(8, column) for column in (0, 1, 2, 3, 4, 5, 7, 8)] + [(row, 8) for row in (7, 5, 4, 3, 2, 1, 0)]
    return int("".join(str(int(modules[row][column])) for row, column in places), 2)


def bch(level: int, mask: int) -> int:
    """Format information, ISO/IEC 18004:2015, annex C: BCH (15,5), generator 10100110111, XOR 101010000010010."""
    data = rest = (level << 3 | mask) << 10
    for bit in range(14, 9, -1):
        if rest >> bit & 1:
            rest ^= 0b10100110111 << (bit - 10)
    return (data | rest) ^ 0b101010000010010


def test_the_format_information_is_the_standards_example():
    """ISO/IEC 18004:2015, annex C.1: level M, mask 101 gives 100000011001110."""
    assert bch(0b00, 0b101) == 0b100000011001110


@pytest.mark.parametrize("seed", range(12))
def test_every_module_agrees_with_segno_at_level_m(seed):
    address = ids.address("https://exergue.example", ids.new_id(random.Random(seed).choice))
    modules = symbol.matrix(address)
    (mask,) = [mask for mask in range(8) if bch(0b00, mask) == format_bits(modules)]  # 00: level M
    other = segno.make(address, mode="alphanumeric", error="m", mask=mask, boost_error=False, micro=False)
    assert [[bool(one) for one in row] for row in other.matrix] == [[bool(one) for one in row] for row in modules]


@pytest.mark.parametrize(
    ("dpi", "dots", "millimetres"),
    [(300, 4, (9.821, 11.176, 12.531)), (203, 3, (10.886, 12.387, 13.889))],
)
def test_printed_sizes_with_quiet_zone(dpi, dots, millimetres):
    """(17 + 4 V + 8) modules: ISO/IEC 18004:2015, 5.3.8 (a quiet zone of 4 modules); the millimetres by arithmetic."""
    for version, want in enumerate(millimetres, 1):
        assert (17 + 4 * version + 2 * symbol.QUIET) * dots * 25.4 / dpi == pytest.approx(want, abs=6e-4)


def test_a_module_is_always_a_whole_number_of_dots_never_a_mix():
    """0.30 mm at 203 dpi lies between 2 dots (0.2502 mm) and 3 (0.3754): every module gets the same whole number."""
    coin = ids.new_id(random.Random(1).choice)
    label = Label(coin, ids.address("https://exergue.example", coin))
    for format in formats.all().values():
        picture = layout.picture(label, format, 203)
        form = shape(format, 203, 25)
        form = form if form.height else form.cut_at(picture.height)
        (left, top), side = form.ink, form.module
        for row, modules in enumerate(symbol.matrix(label.address)):
            for column, dark in enumerate(modules):
                x, y = left + column * side, top + row * side
                assert set(picture.crop((x, y, x + side, y + side)).convert("L").tobytes()) == {255 * bool(dark)}
