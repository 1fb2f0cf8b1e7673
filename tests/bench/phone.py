"""What the phone's speed scripts share: a served big book, a phone with a profile on disk, and its clock."""

import contextlib
import json
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS))

from support import browser as browsers  # noqa: E402
from support.desk import Desk  # noqa: E402
from support.waiting import until  # noqa: E402

from exergue.records import devices  # noqa: E402
from exergue.records.book import Book  # noqa: E402

BOOKS = Path(tempfile.gettempdir()) / "exergue-bench"
ENGINE = "import('/web/engine/engine.js').then(async ({engine}) => "


def book_of(count: int, folder: Path) -> Path:
    """A copy in `folder` of the big book of `count` coins; that is made in a process of its own, since a process
    has one book open at a time."""
    command = [sys.executable, str(Path(__file__).with_name("big_book.py")), str(BOOKS), str(count)]
    made = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout.strip()
    return Path(shutil.copytree(made, folder / f"book-{count}", dirs_exist_ok=True))


class Phone:
    """A browser with its profile in a folder; `run` evaluates an expression with `engine` at hand."""

    def __init__(self, playwright, desk: Desk, folder: Path, *flags, **more):
        self.playwright, self.desk, self.folder, self.flags, self.more = playwright, desk, folder, flags, more
        self.open()

    def open(self) -> None:
        self.context = browsers.on_disk(self.playwright, self.folder, *self.flags, **self.more)
        self.page = self.context.pages[0]

    def close(self) -> None:
        self.context.close()

    def goto(self, path: str = "/") -> "Phone":
        self.page.goto(self.desk.address + path)
        return self

    def run(self, expression: str):
        return json.loads(self.page.evaluate(ENGINE + f"JSON.stringify((await ({expression})) ?? null))"))

    def timed(self, expression: str) -> float:
        """Milliseconds of an expression in the page."""
        return self.page.evaluate(ENGINE + f"{{ const t = performance.now(); await ({expression}); return performance.now() - t }})")

    def code(self) -> str:
        with Book.open(self.desk.folder).connected():
            return devices.new_code("owner", "Bench")

    def pair(self) -> None:
        self.goto().run(f"engine.pair('{self.code()}', 'Bench')")

    def settled(self) -> "Phone":
        def in_step():
            state = self.run("engine.state")
            return state["cursor"] and state["lastSync"] and not state["syncing"]

        until(in_step, seconds=300, what="the phone to be in step")
        return self

    def idle(self) -> "Phone":
        """Wait until what the app does when idle is done."""
        self.page.evaluate("new Promise(done => requestIdleCallback(() => requestIdleCallback(done)))")
        return self


def median(values) -> float:
    return statistics.median(values)


@contextlib.contextmanager
def stage():
    """(playwright, folder for this run's profiles)."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder, sync_playwright() as playwright:
        yield playwright, Path(folder)


def figure(name: str, value: float, unit: str = "ms", beside: str = "") -> None:
    """One line of the report."""
    print(f"  {name:<58} {value:>10,.1f} {unit:<3} {beside}", flush=True)
