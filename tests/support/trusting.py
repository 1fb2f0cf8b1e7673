"""A throw-away HOME whose browser trusts one certificate authority, as a phone does after the trust page."""

import os
import subprocess
from pathlib import Path


def home(folder: Path, authority: Path | None) -> dict[str, str]:
    """Environment of a Chromium that trusts the authority in PEM file `authority` besides the public ones."""
    database = folder / ".pki" / "nssdb"
    database.mkdir(parents=True)
    subprocess.run(["certutil", "-N", "--empty-password", "-d", f"sql:{database}"], check=True)
    if authority:
        subprocess.run(["certutil", "-A", "-d", f"sql:{database}", "-n", "desk", "-t", "C,,", "-i", str(authority)],
                       check=True)  # fmt: skip
    return os.environ | {"HOME": str(folder)}
