"""A wheel of this project, and an environment that has nothing but it and its dependencies."""

import importlib.util
import os
import subprocess
import sys
import venv
from pathlib import Path

from support.tree import ROOT

# .venv may have been made without a pip of its own; then the Python that made it has one.
BASE = getattr(sys, "_base_executable", sys.executable)
PIP = [sys.executable if importlib.util.find_spec("pip") else BASE, "-m", "pip"]
QUIET = ["--quiet", "--disable-pip-version-check"]


def build(folder: Path) -> Path:
    """The wheel, built into `folder`."""
    run([*PIP, "wheel", *QUIET, "--no-deps", "--wheel-dir", str(folder), str(ROOT)])
    (wheel,) = folder.glob("exergue-*.whl")
    return wheel


def installed(wheel: Path, folder: Path) -> Path:
    """Python of a new environment in `folder` with the wheel in it."""
    venv.create(folder, with_pip=False)
    python = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    run([*PIP, "--python", str(python), "install", *QUIET, str(wheel)])
    return python


def run(command: list[str]) -> None:
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT.parent)
    assert done.returncode == 0, done.stdout + done.stderr
