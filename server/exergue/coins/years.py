"""Years as the catalogue writes them: "1800, 1802-1808"."""

import re

_PART = re.compile(r"^(\d{3,4})(?:\s*[-–]\s*(\d{3,4}))?$")
EARLIEST, LATEST = 1500, 2100


def parse(text: str | int) -> tuple[int, ...]:
    """Sorted years of `text`. Raises ValueError (one sentence) for what is no list of years."""
    found: set[int] = set()
    for part in str(text).split(","):
        match = _PART.match(part.strip())
        if not match:
            raise ValueError(f"“{part.strip()}” is no year or range of years.")
        first, last = int(match[1]), int(match[2] or match[1])
        if not EARLIEST <= first <= last <= LATEST:
            raise ValueError(f"“{part.strip()}” is not a range of years from {EARLIEST} to {LATEST}.")
        again = found & set(range(first, last + 1))
        if again:
            raise ValueError(f"The year {min(again)} stands twice.")
        found.update(range(first, last + 1))
    return tuple(sorted(found))


def show(years) -> str:
    """The inverse of parse, in print: `1800, 1802–1808`."""
    runs: list[list[int]] = []
    for year in sorted(years):
        if runs and year == runs[-1][1] + 1:
            runs[-1][1] = year
        else:
            runs.append([year, year])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in runs)


def runs(years) -> str:
    """The inverse of parse, short: `1800,1802-1808`."""
    return show(years).replace("–", "-").replace(" ", "")
