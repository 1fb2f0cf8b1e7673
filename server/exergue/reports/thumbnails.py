"""Photos made small enough to print."""

import io
from pathlib import Path

from PIL import Image, ImageOps

DPI = 300


def thumbnail(source: bytes | Path | str, side: float) -> tuple[bytes, int, int] | None:
    """(JPEG, width, height in dots) of a photo that fits a square of `side` points; None where it cannot be read."""
    try:
        with Image.open(io.BytesIO(source) if isinstance(source, bytes) else Path(source)) as photo:
            photo.draft("RGB", (round(side * DPI / 36), round(side * DPI / 36)))
            upright = ImageOps.exif_transpose(photo).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    upright.thumbnail((round(side * DPI / 72), round(side * DPI / 72)))
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=85)
    return out.getvalue(), upright.width, upright.height
