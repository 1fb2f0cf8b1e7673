"""The QR symbol of a label: ISO/IEC 18004, alphanumeric mode, level M, the smallest version, whole dots a module."""

import math

import qrcode
from PIL import Image
from qrcode.exceptions import DataOverflowError
from qrcode.util import MODE_ALPHA_NUM, QRData, RE_ALPHA_NUM

QUIET = 4  # modules kept blank on every side, ISO/IEC 18004
SMALLEST = 0.25  # mm a module: two dots at 203 dpi; below it a phone has to come too near to focus
WIDEST_VERSION = 10  # far beyond any address that still fits a label


class BadSymbol(ValueError):
    """No usable QR symbol can be printed; the message says why in one sentence."""


def matrix(address: str) -> list[list[bool]]:
    """Modules of the symbol that holds `address`, without its quiet zone; True is dark. Raises BadSymbol."""
    text = address.encode("utf-8")
    if not text or not RE_ALPHA_NUM.match(text):
        strange = next((c for c in address if not RE_ALPHA_NUM.match(c.encode("utf-8"))), "")
        why = f"“{strange}” cannot stand in it" if strange else "it is empty"
        raise BadSymbol(f"The label address {address} does not fit a small QR symbol: {why}.")
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=QUIET)
    code.add_data(QRData(text, mode=MODE_ALPHA_NUM))
    try:
        too_long = code.version > WIDEST_VERSION
    except (DataOverflowError, ValueError):
        too_long = True
    if too_long:
        raise BadSymbol("The label address is too long for a QR symbol on a label; use a shorter host name.")
    code.make()
    return code.modules


def modules_across(address: str) -> int:
    """Modules along one side of the symbol, without quiet zone: 17 + 4 × version. Cheap: draws nothing."""
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M)
    code.add_data(QRData(address.encode("utf-8"), mode=MODE_ALPHA_NUM, check_data=False))
    return 17 + 4 * code.version


def least_dots(dpi: int) -> int:
    """Fewest dots a module that phones still read: 2 at 203 dpi, 3 at 300, 6 at 600."""
    return max(2, math.ceil(SMALLEST * dpi / 25.4 - 0.01))


def picture(modules: list[list[bool]], dots: int) -> Image.Image:
    """1-bit picture of the symbol without quiet zone, ink 1 on paper 0, `dots` × `dots` a module."""
    side = len(modules)
    small = Image.frombytes("L", (side, side), bytes(255 if dark else 0 for row in modules for dark in row))
    return small.convert("1", dither=Image.Dither.NONE).resize((side * dots, side * dots), Image.Resampling.NEAREST)
