"""Exergue: one book of coins, a desk to keep it and phones that carry it."""

from importlib.resources import files
from pathlib import Path

__version__ = "0.1.0"


def asset_dir(name: str) -> Path:
    """Folder `web`, `manifest` or `sample_inventory`: inside the installed package, or in the source tree."""
    inside = Path(str(files("exergue") / name))
    if inside.is_dir():
        return inside
    return Path(__file__).resolve().parents[2] / name
