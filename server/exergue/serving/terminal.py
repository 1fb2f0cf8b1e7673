"""What the terminal shows: QR symbols in half blocks, and addresses with their one-line explanations."""

import os
import sys
from typing import TextIO

import qrcode

QUIET = 2  # modules; a phone's camera reads it, and four would scroll a small terminal


def rows(text: str) -> list[str]:
    """The QR symbol of `text` (level L), two rows of modules a line, dark modules drawn as blanks.

    Light modules are drawn in the foreground colour: right on a dark terminal; `show` adds colours for any.
    """
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_L, border=QUIET)
    code.add_data(text)
    code.make(fit=True)
    matrix = code.get_matrix()
    if len(matrix) % 2:
        matrix.append([True] * len(matrix[0]))  # below the symbol nothing is drawn
    blocks = {(False, False): "█", (False, True): "▀", (True, False): "▄", (True, True): " "}
    return ["".join(blocks[pair] for pair in zip(upper, lower)) for upper, lower in zip(matrix[::2], matrix[1::2])]


def show(text: str, out: TextIO | None = None) -> None:
    """Draw the QR symbol of `text`; nothing where the terminal cannot draw blocks."""
    out = out or sys.stdout
    if not drawable(out):
        return
    # White on black whatever the terminal's own colours are: light modules must be the lighter ones.
    start, end = ("\x1b[97;40m", "\x1b[0m") if out.isatty() and not os.environ.get("NO_COLOR") else ("", "")
    for row in rows(text):
        print(f"  {start}{row}{end}", file=out)


def drawable(out: TextIO) -> bool:
    try:
        "█▀▄".encode(out.encoding or "ascii")
    except UnicodeEncodeError:
        return False
    return True
