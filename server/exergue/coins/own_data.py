"""The package's own TOML files."""

import tomllib
from importlib import resources

DATA = resources.files("exergue.coins") / "data"


def table(name: str) -> dict:
    """The parsed file `data/<name>`."""
    return tomllib.loads((DATA / name).read_text(encoding="utf-8"))
