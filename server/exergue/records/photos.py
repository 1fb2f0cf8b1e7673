"""Photos of coins: re-encoded when they come in, so that nothing but the picture is kept."""

import hashlib
import io
import os
import tempfile
from pathlib import Path

from PIL import Image, ImageOps

from .clock import now_ms
from .store import write
from .tables import PhotoFile
from .uuid7 import is_uuid
from .verdicts import Refused

MAX_BYTES = 12_000_000
MAX_PIXELS = 60_000_000
EDGES = {"full": 2000, "thumb": 320}  # longest edge in pixels
FORMATS = ("JPEG", "PNG", "WEBP")


def path(folder: Path, photo: str, size: str = "full") -> Path:
    """Where a photo's file is, or would be. Raises ValueError for what is no photo number or size."""
    if not is_uuid(photo) or size not in EDGES:
        raise ValueError("no such photo")
    return Path(folder) / photo[-2:] / f"{photo}.{size}.jpg"


def store(folder: Path, photo: str, data: bytes) -> PhotoFile:
    """Keep a photo: decoded, turned upright, shrunk and written anew as JPEG without metadata.

    The same bytes again change nothing, and bring a file back that was lost. Raises Refused (too_large, not_a_photo, photo_used).
    """
    if not is_uuid(photo):
        raise Refused("bad_photo", "A photo needs a UUID.")
    if len(data) > MAX_BYTES:
        raise Refused("too_large", f"A photo may have at most {MAX_BYTES // 1_000_000} MB.")
    digest = hashlib.sha256(data).hexdigest()
    kept = PhotoFile.get_or_none(PhotoFile.photo == photo)
    if kept and kept.digest != digest:
        raise Refused("photo_used", "Another photo was already stored under this number.")
    if kept and all(path(folder, photo, size).is_file() for size in EDGES):
        return kept
    image = _decode(data)
    for size, edge in EDGES.items():
        small = image.copy()
        small.thumbnail((edge, edge), Image.Resampling.LANCZOS)
        _write(path(folder, photo, size), small)
    full = image.size if max(image.size) <= EDGES["full"] else small_size(image.size, EDGES["full"])
    with write():
        PhotoFile.replace(photo=photo, digest=digest, width=full[0], height=full[1],
                          size=path(folder, photo).stat().st_size, received_ms=now_ms()).execute()  # fmt: skip
    return PhotoFile.get_by_id(photo)


def drop(folder: Path, photo: str) -> None:
    """Forget a photo that no entry names."""
    with write():
        PhotoFile.delete().where(PhotoFile.photo == photo).execute()
    for size in EDGES:
        path(folder, photo, size).unlink(missing_ok=True)


def small_size(size: tuple[int, int], edge: int) -> tuple[int, int]:
    scale = edge / max(size)
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _decode(data: bytes) -> Image.Image:
    try:
        with Image.open(io.BytesIO(data), formats=FORMATS) as image:
            if image.width * image.height > MAX_PIXELS:  # before any pixel is decoded
                raise Refused("too_large", f"A photo may have at most {MAX_PIXELS // 1_000_000} million pixels.")
            upright = ImageOps.exif_transpose(image)
            clean = Image.new("RGB", upright.size, "white")
            if "A" in upright.getbands():
                clean.paste(upright, mask=upright.getchannel("A"))
            else:
                clean.paste(upright.convert("RGB"))
            return clean
    except Refused:
        raise
    except Exception:
        raise Refused("not_a_photo", "This file is not a photo that can be read (JPEG, PNG or WebP).") from None


def _write(target: Path, image: Image.Image) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=target.parent, delete=False) as file:
        image.save(file, "JPEG", quality=86, optimize=True, progressive=True)
        file.flush()
        os.fsync(file.fileno())
    os.replace(file.name, target)
