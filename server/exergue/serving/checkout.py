"""Whether the phone app's libraries are there and are those that the checkout asks for."""

import hashlib

from exergue import asset_dir
from exergue.commands import Wrong


def check() -> None:
    """In a checkout, a pull may have changed the lock file since the last set-up. Raises Wrong."""
    web = asset_dir("web")
    lock = web / "package-lock.json"
    if not lock.exists():  # an installed wheel: built whole
        return
    digest = hashlib.sha256((web / "package.json").read_bytes() + lock.read_bytes()).hexdigest()
    stamp = web / "vendor" / ".stamp"
    if not stamp.exists() or stamp.read_text().strip() != digest:
        raise Wrong("The phone app's libraries are not those of this version: run `pip install -e .` again, "
                    "or start with `python3 server`, which does.")  # fmt: skip
