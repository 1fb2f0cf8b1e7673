"""A real desk: `exergue serve` in a process of its own, as a user starts it."""

import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import tempfile
import urllib.request
from pathlib import Path

from support.waiting import until


def free_port(beside: int = 0) -> int:
    """A loopback port that nobody listens on, with `beside` more free ones after it."""
    while True:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            port = probe.getsockname()[1]
        if port + beside < 65535 and all(_free(port + more) for more in range(1, beside + 1)):
            return port


def _free(port: int) -> bool:
    with socket.socket() as probe:
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


def exergue(*args, **more) -> subprocess.CompletedProcess:
    """Run one command to its end. Output as text."""
    command = [sys.executable, "-m", "exergue", *map(str, args)]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", timeout=120, **more)


class Desk:
    """`exergue serve` over the book in `folder`; `address` is where it answers. Use it with `with`.

    `stop()` ends it in good order, `kill()` as a power cut does, and `start()` brings it back at the same address.
    """

    program: tuple[str, ...] = ("-m", "exergue")

    def __init__(self, folder: Path, *options: str, port: int | None = None, python: str = sys.executable, cwd=None):
        self.folder, self.options, self.python, self.cwd = Path(folder), options, python, cwd
        self.port = port or free_port(beside=2)
        self.lan = "--lan" in options
        self.address = f"{'https' if self.lan else 'http'}://localhost:{self.port}"
        self.process: subprocess.Popen | None = None
        self._said = tempfile.TemporaryFile()

    def start(self) -> "Desk":
        command = [self.python, *self.program, "serve", "--book", str(self.folder), "--port", str(self.port)]
        self._said.truncate(0)
        self.process = subprocess.Popen([*command, *self.options], stdout=self._said, stderr=subprocess.STDOUT,
                                        cwd=self.cwd, env=os.environ | {"PYTHONUNBUFFERED": "1"},
                                        start_new_session=True)  # fmt: skip
        until(self.answers, what=f"the desk on port {self.port}")
        return self

    def answers(self) -> bool:
        assert self.process.poll() is None, f"the desk ended:\n{self.said()}"
        with socket.socket() as probe:
            return probe.connect_ex(("127.0.0.1", self.port)) == 0

    def said(self) -> str:
        """What it has printed so far."""
        self._said.seek(0)
        return self._said.read().decode("utf-8")

    @property
    def set_up_key(self) -> str:
        """The key of the one-time link that makes the owner."""
        return re.search(r"set-up\?key=(\S+)", self.said()).group(1)

    @property
    def authority(self) -> Path:
        """PEM file of the book's certificate authority (with --lan)."""
        return self.folder / "authority" / "ca.pem"

    def get(self, path: str, opener: urllib.request.OpenerDirector | None = None) -> bytes:
        with (opener or self.opener()).open(self.address + path, timeout=20) as answer:
            return answer.read()

    def opener(self) -> urllib.request.OpenerDirector:
        """A client of its own that keeps cookies, and trusts the book's authority."""
        trust = ssl.create_default_context(cafile=self.authority) if self.lan else None
        return urllib.request.build_opener(
            urllib.request.HTTPSHandler(context=trust), urllib.request.HTTPCookieProcessor()
        )

    def paired(self, role: str = "owner", name: str = "Test phone") -> urllib.request.OpenerDirector:
        """A client that is paired as a phone is."""
        said = exergue("pair", "--book", self.folder, "--role", role, "--address", self.address).stdout
        body = json.dumps({"code": said.rstrip().rpartition("#pair=")[2], "name": name}).encode()
        headers = {"Content-Type": "application/json", "X-Exergue": "1"}
        opener = self.opener()
        opener.open(urllib.request.Request(self.address + "/api/pair", body, headers), timeout=20).close()
        return opener

    def interrupt(self) -> None:
        """What Ctrl-C in a terminal does: SIGINT to every process of the group."""
        os.killpg(self.process.pid, signal.SIGINT)

    def ended(self) -> int:
        """Its exit code, once it has ended."""
        code = self.process.wait(timeout=30)
        self.process = None
        return code

    def stop(self) -> int:
        """End it in good order; its exit code."""
        self.process.terminate()
        return self.ended()

    def kill(self) -> None:
        self.process.kill()
        self.process.wait(timeout=30)
        self.process = None
        until(lambda: not _listens(self.port), what="the worker to follow")

    def __enter__(self) -> "Desk":
        return self.start()

    def __exit__(self, *_) -> None:
        if self.process is not None:
            self.stop()
        self._said.close()


def _listens(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0
