"""The project's own files: what git keeps, or would keep."""

import subprocess
from functools import lru_cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@lru_cache
def files(*suffixes: str) -> tuple[Path, ...]:
    """Every file that is committed, or new and not ignored; of these suffixes, if any are named."""
    said = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
                          cwd=ROOT, capture_output=True, text=True, check=True).stdout  # fmt: skip
    paths = [ROOT / name for name in said.split("\0") if name]
    return tuple(sorted(p for p in paths if p.is_file() and (not suffixes or p.suffix in suffixes)))


def texts(*suffixes: str):
    """(path from the project's root, text) of each file that is text."""
    for path in files(*suffixes):
        data = path.read_bytes()
        if b"\0" not in data[:8000]:
            yield path.relative_to(ROOT).as_posix(), data.decode("utf-8", "replace")
