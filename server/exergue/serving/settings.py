"""book.toml: what must be known before the book's database is opened. Only people write it."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from exergue.commands import Wrong


@dataclass(frozen=True)
class Written:
    """None where the file says nothing."""

    base_address: str | None = None
    proxy_hops: int | None = None


def read(folder: Path) -> Written:
    """What BOOK/book.toml says. Raises Wrong where it is no TOML, or holds what nobody reads."""
    path = Path(folder) / "book.toml"
    if not path.exists():
        return Written()
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise Wrong(f"{path}: {error}.") from error
    kinds = {"base_address": str, "proxy_hops": int}
    for key, value in found.items():
        if key not in kinds:
            raise Wrong(f"{path}: nothing reads “{key}”; it knows {' and '.join(kinds)}.")
        if type(value) is not kinds[key]:
            raise Wrong(f"{path}: {key} must be {'text' if kinds[key] is str else 'a whole number'}.")
    return Written(**found)
