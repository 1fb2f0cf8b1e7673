"""`python3 server demo`: make .venv, install this project into it, then run `exergue demo`.

Standard library only; works the same on Linux, macOS and Windows.
"""
import hashlib
import importlib.util
import os
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ENV = ROOT / ".venv"
BIN = ENV / ("Scripts" if os.name == "nt" else "bin")
STAMP = ENV / "exergue-setup"
INPUTS = ("pyproject.toml", "server/hatch_build.py", "web/package.json", "web/package-lock.json")


def fingerprint() -> str:
    digest = hashlib.sha256()
    for name in INPUTS:
        digest.update((ROOT / name).read_bytes())
    return digest.hexdigest()


def set_up() -> None:
    print("Setting up (first run, or a dependency changed) ...", flush=True)
    pip_here = importlib.util.find_spec("pip") is not None
    if not (BIN / ("python.exe" if os.name == "nt" else "python")).exists():
        # Without its own pip: faster, and Debian's python3 lacks ensurepip.
        venv.create(ENV, with_pip=not pip_here)
    python = BIN / ("python.exe" if os.name == "nt" else "python")
    pip = [sys.executable, "-m", "pip", "--python", str(python)] if pip_here else [str(python), "-m", "pip"]
    code = subprocess.run([*pip, "install", "--quiet", "--disable-pip-version-check", "-e", str(ROOT)]).returncode
    if code:
        sys.exit("Set-up failed; see the messages above.")
    STAMP.write_text(fingerprint())


def main() -> int:
    if sys.version_info < (3, 11):
        sys.exit("exergue needs Python 3.11 or newer; this is " + sys.version.split()[0])
    if not STAMP.exists() or STAMP.read_text() != fingerprint() or not (ROOT / "web/vendor/.stamp").exists():
        set_up()
    command = [str(BIN / ("exergue.exe" if os.name == "nt" else "exergue")), *sys.argv[1:]]
    if os.name == "nt":
        return subprocess.run(command).returncode
    os.execv(command[0], command)


sys.exit(main())
