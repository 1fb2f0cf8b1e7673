"""A browser whose profile lies on a small disk of its own, so that storage really runs full."""

import shutil
import subprocess
from pathlib import Path

from support import browser as browsers

_SCRIPT = """#!/bin/sh
exec unshare --user --map-root-user --mount sh -c 'mount -t tmpfs -o size={size} tmpfs "$0" && exec "$@"' {profile} {chromium} "$@"
"""


def possible() -> bool:
    """Whether this machine lets a process mount a disk in a name space of its own (Linux; some containers do not)."""
    if not shutil.which("unshare"):
        return False
    probe = ["unshare", "--user", "--map-root-user", "--mount", "mount", "-t", "tmpfs", "tmpfs", "/mnt"]
    return subprocess.run(probe, capture_output=True).returncode == 0


def phone(playwright, folder: Path, size: str = "80m"):
    """A phone in a browser whose profile has room for `size` and no more."""
    profile, script = folder / "profile", folder / "chromium"
    profile.mkdir(parents=True)
    script.write_text(_SCRIPT.format(size=size, profile=profile, chromium=browsers.chromium_path()))
    script.chmod(0o755)
    return playwright.chromium.launch_persistent_context(
        profile, executable_path=script, headless=True, args=browsers.FLAGS, **browsers.PHONE
    )
