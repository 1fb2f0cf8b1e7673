"""QR symbols in the terminal, read back by an independent decoder (zxing-cpp)."""

import io

import pytest
import zxingcpp
from PIL import Image

from exergue.serving import terminal

DARK = {"█": (0, 0), "▀": (0, 1), "▄": (1, 0), " ": (1, 1)}  # upper and lower half: 1 is dark


def photographed(rows: list[str], scale: int = 6) -> Image.Image:
    """The rows as a dark terminal shows them, one pixel a module, then enlarged."""
    picture = Image.new("L", (max(map(len, rows)) + 8, 2 * len(rows) + 8), 0)
    for y, row in enumerate(rows):
        for x, block in enumerate(row):
            for half, dark in enumerate(DARK[block]):
                picture.putpixel((x + 4, 2 * y + half + 4), 0 if dark else 255)
    return picture.resize((picture.width * scale, picture.height * scale), Image.Resampling.NEAREST)


@pytest.mark.parametrize("text", [
    "http://192.168.7.20:2647/",
    "https://coins.local:2646/#pair=7K3M9QX2",
    "http://localhost:2646/#pair=" + "Z" * 60,
])  # fmt: skip
def test_a_camera_reads_what_the_terminal_shows(text):
    found = zxingcpp.read_barcodes(photographed(terminal.rows(text)))
    assert [code.text for code in found] == [text]


def test_a_terminal_without_blocks_is_left_alone():
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    terminal.show("http://localhost/", out)
    out.flush()
    assert out.buffer.getvalue() == b""


def test_colours_are_kept_out_of_files():
    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    terminal.show("http://localhost/", out)
    out.flush()
    said = out.buffer.getvalue().decode()
    assert "█" in said and "\x1b" not in said
