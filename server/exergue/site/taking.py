"""Photos that come in, from phones and at the desk."""

import threading

from ..records import photos
from . import here

# A photo of 60 million pixels takes some hundred megabytes while it is decoded: a small computer has room for one.
_one = threading.Lock()


def keep(photo: str, data: bytes):
    """photos.store, one at a time; the others wait for their turn. Raises Refused as it does."""
    with _one:
        return photos.store(here.book().photos, photo, data)
