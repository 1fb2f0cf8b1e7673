"""The files that a phone keeps for use with no network, each with a hash of its content.

manifest/keep.txt lists them, one glob a line from the folder that holds web/ and manifest/; `#` starts a comment,
and a line that starts with `!` takes files out again. The styles, which are served as one (styles.py), are kept, too.
"""

import hashlib
import json
from functools import lru_cache
from pathlib import Path

from .. import asset_dir
from . import styles
from .served import type_of

# First parts of addresses that are the desk's own; a page at any other is the phone app's.
NOT_APP = frozenset({"desk", "api", "healthz", "web", "icons", "sw.js", "app.webmanifest"})


def of_app(path: str) -> bool:
    """Whether a page at `path` is the phone app's."""
    return path.split("/")[1] not in NOT_APP


def address(name: str) -> str:
    """Where `web/…` or `manifest/…` is served."""
    if name == "web/index.html":
        return "/"
    return "/" + name.removeprefix("manifest/") if name.startswith("manifest/") else "/" + name


def found() -> dict[str, Path]:
    """Address → file, sorted by address."""
    kept: dict[str, Path] = {}
    for line in (asset_dir("manifest") / "keep.txt").read_text("utf-8").splitlines():
        pattern = line.partition("#")[0].strip()
        if not pattern:
            continue
        out = pattern.startswith("!")
        top, _, rest = pattern.removeprefix("!").partition("/")
        root = asset_dir(top)
        for path in root.glob(rest):
            name = path.relative_to(root).as_posix()
            if path.is_file() and type_of(name):
                where = address(f"{top}/{name}")
                if out:
                    kept.pop(where, None)
                else:
                    kept[where] = path
    return dict(sorted(kept.items()))


@lru_cache(maxsize=1024)
def _hash(path: Path, changed_ns: int, size: int) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()[:20]


def hash_of(path: Path) -> str:
    """Hash of a file's content; read again only when the file changed."""
    stat = path.stat()
    return _hash(path, stat.st_mtime_ns, stat.st_size)


def worker() -> str:
    """The service worker with the list of files in front: it changes when any kept file does."""
    script = (asset_dir("web") / "sw.js").read_text("utf-8")
    files = [[where, hash_of(path)] for where, path in found().items()]
    if (style := styles.together()) is not None:
        files = sorted([*files, [styles.ADDRESS, hashlib.sha256(style).hexdigest()[:20]]])
    version = hashlib.sha256((json.dumps(files) + script).encode()).hexdigest()[:16]
    kept = {"version": version, "files": files, "desk": sorted(NOT_APP)}
    return f"const KEEP = {json.dumps(kept, separators=(',', ':'))};\n{script}"
