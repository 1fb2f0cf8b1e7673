"""`python3 server COMMAND …` runs `exergue COMMAND …`, and first sets the project up in .venv where that is needed.

Standard library only; works alike on Linux, macOS and Windows.
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
WINDOWS = os.name == "nt"
BIN = ENV / ("Scripts" if WINDOWS else "bin")
PYTHON = BIN / ("python.exe" if WINDOWS else "python")
STAMP = ENV / "exergue-setup"
# What decides which packages are installed; a change of any of them calls for another set-up.
INPUTS = ("pyproject.toml", "server/hatch_build.py", "web/package.json", "web/package-lock.json")
FIRST_WORD = """\
Setting up Exergue: its Python packages and the phone app's libraries (some 80 MB to fetch; a minute or two).
This happens once. All of it goes into {env}; nothing else on this computer changes."""


def fingerprint() -> str:
    digest = hashlib.sha256()
    for name in INPUTS:
        digest.update((ROOT / name).read_bytes())
    return digest.hexdigest()


def is_set_up(stamp: Path) -> bool:
    """Whether the environment runs and was installed from the present inputs."""
    vendored = (ROOT / "web/vendor/.stamp").exists()
    return PYTHON.exists() and vendored and stamp.exists() and stamp.read_text() == fingerprint()


def pip_command() -> list[str]:
    """pip that installs into .venv; makes .venv where there is none (or its Python has gone)."""
    pip_here = importlib.util.find_spec("pip") is not None
    if not PYTHON.exists():
        try:
            # Without a pip of its own: faster, and Debian's python3 lacks ensurepip.
            venv.create(ENV, clear=ENV.exists(), with_pip=not pip_here)
        except subprocess.CalledProcessError:
            sys.exit("This Python has neither pip nor ensurepip. On Debian: apt-get install python3-pip python3-venv")
    if pip_here:
        return [sys.executable, "-m", "pip", "--python", str(PYTHON)]
    return [str(PYTHON), "-m", "pip"]


def install(extra: str, *stamps: Path) -> None:
    """Install the project into .venv, editable, with `extra` such as "[dev]"; a dot every few seconds says it lives."""
    command = [*pip_command(), "install", "--quiet", "--disable-pip-version-check", "-e", f"{ROOT}{extra}"]
    with subprocess.Popen(command) as pip:
        while True:
            try:
                code = pip.wait(timeout=5)
                break
            except subprocess.TimeoutExpired:
                print(".", end="", flush=True)
    print(flush=True)
    if code:
        sys.exit("Set-up failed: the lines above say why. It is safe to run the same command again.")
    for stamp in stamps:
        stamp.write_text(fingerprint())


def main() -> int:
    if sys.version_info < (3, 11):
        sys.exit("Exergue needs Python 3.11 or newer; this is " + sys.version.split()[0])
    if not is_set_up(STAMP):
        print(FIRST_WORD.format(env=ENV), flush=True)
        install("", STAMP)
    command = [str(PYTHON), "-m", "exergue", *sys.argv[1:]]
    if WINDOWS:  # its exec would detach the command from the terminal
        return subprocess.run(command).returncode
    os.execv(command[0], command)


if __name__ == "__main__":
    try:
        sys.exit(main())
    except KeyboardInterrupt:
        sys.exit(130)
