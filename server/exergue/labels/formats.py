"""Label formats: where labels lie on a page, in millimetres. Data in formats.toml; the owner may add a file."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

DPI = (203, 300, 600)  # thermal printers have 203 or 300 dots an inch, office printers 600
_OWN = Path(__file__).with_name("formats.toml")
_KEYS = {"name", "paper", "label", "grid", "first", "pitch", "safe", "longest", "cut_marks"}
_SLACK = 0.02  # mm: rounding in a written format


class BadFormat(ValueError):
    """A label format cannot be used; the message says why in one sentence."""


def dots(mm: float, dpi: int) -> int:
    """Nearest whole number of printer dots to `mm`."""
    return round(mm * dpi / 25.4)


@dataclass(frozen=True)
class Format:
    """One label format; all lengths in millimetres. `height` is None on a continuous roll."""

    key: str
    name: str
    paper: tuple[float, float] | None  # None on a roll: the page is the label
    width: float
    height: float | None
    longest: float
    across: int
    down: int
    first: tuple[float, float]
    pitch: tuple[float, float]
    safe: float
    cut_marks: bool

    @property
    def per_page(self) -> int:
        return self.across * self.down

    @property
    def roll(self) -> bool:
        return self.paper is None

    def corner(self, index: int, dpi: int) -> tuple[int, int]:
        """Left and top edge, in dots, of place `index` (0-based, along the rows) of a sheet."""
        row, column = divmod(index, self.across)
        return (dots(self.first[0] + column * self.pitch[0], dpi), dots(self.first[1] + row * self.pitch[1], dpi))


def all(extra: Path | str | None = None) -> dict[str, Format]:
    """Every format by its key, in the order written; those of the owner's file `extra` last. Raises BadFormat."""
    found = dict(_built_in())
    if extra is not None:
        for key, one in _load(Path(extra)).items():
            if key in found:
                raise BadFormat(f"The format “{key}” in {Path(extra).name} is built in; give yours another key.")
            found[key] = one
    return found


def get(key: str, extra: Path | str | None = None) -> Format:
    """The format `key`. Raises BadFormat, which lists those there are."""
    found = all(extra)
    if key not in found:
        raise BadFormat(f"There is no label format “{key}”; there are {', '.join(found)}.")
    return found[key]


def check_dpi(dpi: int) -> int:
    """`dpi` if labels can be printed at it. Raises BadFormat."""
    if dpi not in DPI:
        raise BadFormat(f"Labels print at {DPI[0]}, {DPI[1]} or {DPI[2]} dots an inch, not at {dpi}.")
    return dpi


@lru_cache(maxsize=1)
def _built_in() -> dict[str, Format]:
    return _load(_OWN)


def _load(path: Path) -> dict[str, Format]:
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise BadFormat(f"The label formats in {path.name} cannot be read: {error.strerror}.") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise BadFormat(f"The label formats in {path.name} are not valid TOML: {error}.") from error
    return {key: read(key, table) for key, table in raw.items()}


def read(key: str, table: dict) -> Format:
    """One format from its TOML table, checked. Raises BadFormat."""

    def bad(why: str) -> BadFormat:
        return BadFormat(f"Label format “{key}”: {why}.")

    def lengths(name: str, counts: tuple[int, ...], default=None, least: float = 0.0) -> tuple:
        value = table.get(name, default)
        listed = value if isinstance(value, list | tuple) else [value]
        usable = (type(one) in (int, float) and least <= one <= 2000 for one in listed)
        if len(listed) not in counts or False in usable:
            need = " or ".join(map(str, counts)) + (" number" if counts == (1,) else " numbers")
            raise bad(f"“{name}” needs {need} of millimetres, from {least:g} to 2000")
        return tuple(float(one) for one in listed)

    if not isinstance(table, dict):
        raise bad("it is no table")
    if unknown := sorted(set(table) - _KEYS):
        raise bad(f"“{unknown[0]}” is no dimension of a format")
    name = table.get("name", key)
    cut_marks = table.get("cut_marks", False)
    if not isinstance(name, str) or not isinstance(cut_marks, bool):
        raise bad("“name” is a text and “cut_marks” is true or false")
    label = lengths("label", (1, 2), least=5)
    (safe,) = lengths("safe", (1,), 1.5)
    (longest,) = lengths("longest", (1,), label[-1] if len(label) == 2 else None, least=5)
    if len(label) == 2 and "longest" in table:
        raise bad("“longest” is for a continuous roll, whose “label” is a width alone")
    if 2 * safe >= min(label) - 3:
        raise bad(f"a safe edge of {safe:g} mm leaves no room on a label {min(label):g} mm small")
    if "paper" not in table:
        if extra := sorted({"grid", "first", "pitch", "cut_marks"} & set(table)):
            raise bad(f"“{extra[0]}” needs “paper”; a roll has one label a page")
        height = label[1] if len(label) == 2 else None
        return Format(key, name, None, label[0], height, longest, 1, 1, (0.0, 0.0), (label[0], longest), safe, False)
    if len(label) != 2:
        raise bad("a label on a sheet needs a width and a height")
    paper = lengths("paper", (2,), least=20)
    grid = lengths("grid", (2,), least=1)
    if grid != tuple(map(int, grid)):
        raise bad("“grid” needs whole numbers of labels across and down")
    first = lengths("first", (2,))
    pitch = lengths("pitch", (2,), label)
    for side, axis in enumerate(("across", "down")):
        count = int(grid[side])
        if count > 1 and pitch[side] < label[side] - _SLACK:
            raise bad(f"labels of {label[side]:g} mm overlap at a pitch of {pitch[side]:g} mm {axis}")
        end = first[side] + (count - 1) * pitch[side] + label[side]
        if end > paper[side] + _SLACK:
            raise bad(f"{count} labels {axis} reach to {end:.2f} mm, but the paper ends at {paper[side]:g} mm")
    return Format(key, name, paper, *label, longest, int(grid[0]), int(grid[1]), first, pitch, safe, cut_marks)
