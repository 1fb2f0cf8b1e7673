"""A QR symbol as a drawing that a strict content policy lets through."""

import qrcode
from markupsafe import Markup

QUIET = 4  # modules, as ISO/IEC 18004 asks


def drawing(text: str, title: str) -> Markup:
    """The symbol (level M) as an inline SVG, one unit a module."""
    symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=QUIET)
    symbol.add_data(text)
    symbol.make(fit=True)
    rows = symbol.get_matrix()
    path = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark)
    return Markup(
        '<svg class="qr" viewBox="0 0 {0} {0}" role="img" aria-label="{1}" shape-rendering="crispEdges">'
        '<rect width="{0}" height="{0}" fill="#fff"/><path d="{2}" fill="#000"/></svg>'
    ).format(len(rows), title, path)
