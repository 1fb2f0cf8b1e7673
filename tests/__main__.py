"""`python3 tests [pytest arguments]`: install what the tests need, a browser included, and run them.

Without arguments all of them, in three processes. Standard library only. Nothing but .venv and, on Debian as root, system packages is touched.
"""

import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
# Program → the Debian packages that bring it, and why the tests want it.
PROGRAMS = {
    "chromium": ("chromium fonts-liberation", "the browser that the phone app is tried in"),
    "pdftoppm": ("poppler-utils", "draws printed labels as a printer would"),
    "certutil": ("libnss3-tools", "lets a browser of its own trust a test's certificate authority"),
    "openssl": ("openssl", "checks certificates without our code"),
}
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
# The whole run in three processes: a test waits for a browser or a desk more than it computes. A file's tests share a desk, and
# files come in the order of tests/conftest.py.
WHOLE = ["-n", "3", "--dist", "loadfile", "--no-loadscope-reorder"]


def server_set_up():
    """server/__main__.py, whose set-up this shares."""
    spec = importlib.util.spec_from_file_location("server_set_up", ROOT / "server" / "__main__.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def present(program: str) -> bool:
    if program == "chromium":
        told = os.environ.get("EXERGUE_CHROMIUM") or os.environ.get("CHROME_PATH")
        return bool(told and Path(told).exists()) or any(map(shutil.which, BROWSERS))
    return shutil.which(program) is not None


def install_programs() -> None:
    missing = [name for name in PROGRAMS if not present(name)]
    if not missing:
        return
    packages = " ".join(PROGRAMS[name][0] for name in missing).split()
    if shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        print(f"Installing for the tests: {' '.join(packages)} (a minute or two) …", flush=True)
        quiet = {"env": os.environ | {"DEBIAN_FRONTEND": "noninteractive"}, "stdout": subprocess.DEVNULL}
        subprocess.run(["apt-get", "-qq", "update"], **quiet)
        subprocess.run(["apt-get", "-qq", "install", "-y", "--no-install-recommends", *packages], **quiet)
        missing = [name for name in PROGRAMS if not present(name)]
    if missing:
        needs = "\n".join(f"  {name}: {PROGRAMS[name][1]} (Debian: {PROGRAMS[name][0]})" for name in missing)
        sys.exit(f"The tests need these programs; install them and start again:\n{needs}\n"
                 "A browser elsewhere is named with EXERGUE_CHROMIUM=/path/to/it.")  # fmt: skip


def main() -> int:
    if sys.version_info < (3, 11):
        sys.exit("The tests need Python 3.11 or newer; this is " + sys.version.split()[0])
    install_programs()
    server = server_set_up()
    stamp = server.ENV / "exergue-tests"
    if not server.is_set_up(stamp):
        print(f"Installing the project and what its tests need into {server.ENV} …", flush=True)
        server.install("[dev]", stamp, server.STAMP)
    said = sys.argv[1:] or WHOLE
    # Some hundred desks are started: each would compile the whole package where bytecode may not be written beside it.
    around = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    around["PYTHONPYCACHEPREFIX"] = str(server.ENV / "bytecode")
    return subprocess.run([str(server.PYTHON), "-m", "pytest", *said], cwd=ROOT, env=around).returncode


if __name__ == "__main__":
    try:
        sys.exit(main())
    except KeyboardInterrupt:
        sys.exit(130)
