"""How a desk ends: answering what is under way, and taking its worker along."""

import contextlib
import http.client
import json
import sqlite3
import ssl
import sys
import threading
from pathlib import Path

import pytest
from support.desk import Desk
from support.waiting import until

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals of Unix terminals")


@pytest.fixture(params=["http", "https"])
def desk(request, tmp_path):
    from exergue.records.book import Book

    Book.create(tmp_path / "book", name="Test book")
    with Desk(tmp_path / "book", *(["--lan"] if request.param == "https" else [])) as running:
        running.get("/healthz")
        yield running


def pairing(desk, answers: list) -> threading.Thread:
    """A request that needs the book's write lock, in a thread; its status is put into `answers`."""

    def ask() -> None:
        if desk.lan:
            trust = ssl.create_default_context(cafile=desk.authority)
            line = http.client.HTTPSConnection("localhost", desk.port, context=trust)
        else:
            line = http.client.HTTPConnection("localhost", desk.port)
        body = json.dumps({"code": "00000000", "name": "Late phone"})
        line.request("POST", "/api/pair", body, {"Content-Type": "application/json", "X-Exergue": "1"})
        answers.append(line.getresponse().status)

    thread = threading.Thread(target=ask)
    thread.start()
    return thread


def under_way(desk) -> bool:
    """Whether the worker has the book's database open, which it has during a request alone (Linux)."""
    pid = desk.process.pid
    for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split():
        for handle in Path(f"/proc/{child}/fd").iterdir():
            with contextlib.suppress(OSError):  # closed meanwhile
                if handle.readlink().name == "book.sqlite3":
                    return True
    return False


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="looks into /proc")
def test_ctrl_c_answers_the_request_under_way_and_ends_well(desk):
    """The lock is held until the signal is sent, so the request is surely under way."""
    answers: list[int] = []
    lock = sqlite3.connect(desk.folder / "book.sqlite3", isolation_level=None)
    lock.execute("begin immediate")
    until(lambda: not under_way(desk), what="the worker to be at rest")
    request = pairing(desk, answers)
    until(lambda: under_way(desk), what="the request to arrive")
    desk.interrupt()
    lock.execute("rollback")
    request.join(timeout=30)
    assert answers == [400]
    assert desk.ended() == 0


def test_ctrl_c_on_an_idle_desk_ends_well(desk):
    desk.interrupt()
    assert desk.ended() == 0
    assert not (desk.folder / "served-at").exists()


def test_a_killed_desk_takes_its_worker_along_and_can_start_again(desk):
    desk.kill()
    desk.start()
    assert desk.get("/healthz") == b"ok\n"
