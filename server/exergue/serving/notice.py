"""A note in the book's folder, while it is served, of the address it is served at: for `exergue pair`."""

from contextlib import contextmanager
from pathlib import Path

FILE = "served-at"


@contextmanager
def put(folder: Path, base_address: str):
    path = Path(folder) / FILE
    path.write_text(base_address + "\n", encoding="utf-8")
    try:
        yield
    finally:
        path.unlink(missing_ok=True)


def read(folder: Path) -> str | None:
    """The base address of a desk that serves the book now (or that was killed); None if there is none."""
    path = Path(folder) / FILE
    return path.read_text(encoding="utf-8").strip() if path.exists() else None
