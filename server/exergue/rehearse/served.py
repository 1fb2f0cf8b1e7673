"""The desk in a process of its own, as `exergue serve` starts it, so that it can be stopped and come back."""

import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Served:
    """`exergue serve` over the book in `folder`, on a free loopback port that stays the same."""

    def __init__(self, folder: Path):
        self.folder, self.port = folder, free_port()
        self.base = f"http://localhost:{self.port}"
        self.process: subprocess.Popen | None = None

    def start(self) -> None:
        command = [sys.executable, "-m", "exergue", "serve", "--book", str(self.folder), "--port", str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        patience = time.monotonic() + 60
        while not self._answers():
            if self.process.poll() is not None:
                raise RuntimeError("the desk ended as soon as it was started")
            if time.monotonic() > patience:
                raise RuntimeError("the desk did not answer within a minute")
            time.sleep(0.05)

    def _answers(self) -> bool:
        try:
            with urllib.request.urlopen(self.base + "/healthz", timeout=5) as answer:
                return answer.status == 200
        except (OSError, urllib.error.URLError):
            return False

    def stop(self) -> None:
        if self.process is not None:
            self.process.terminate()
            self.process.wait(timeout=60)
            self.process = None

    def __enter__(self) -> "Served":
        self.start()
        return self

    def __exit__(self, *_) -> None:
        self.stop()
