"""`exergue rehearse`: a whole show day on a fresh demo book, without a browser, over HTTP."""

import json
import secrets
import tempfile
from pathlib import Path

from .closing import as_json as close_as_json
from .closing import closing, table
from .day import Rehearsal
from .desk import DeskProblem
from .phone import PhoneProblem
from .served import Served

OWNER = "Tobiah"


def run(as_json: bool = False, out=print) -> int:
    """Walk the day and print the close of show. Returns 0, or 1 where anything disagreed or broke off."""
    from ..records import owner, refold
    from ..records.book import Book

    with tempfile.TemporaryDirectory(prefix="exergue-rehearsal-") as temp:
        folder = Path(temp) / "book"
        book = Book.create(folder, name="Rehearsal (invented data)", currency="USD")
        password = secrets.token_urlsafe(16)
        with book.connected():
            owner.create(OWNER, password)
        with Served(folder) as served:
            day = Rehearsal(served, OWNER, password)
            try:
                day.walk()
            except (DeskProblem, PhoneProblem, LookupError) as problem:
                day.failures.append(f"The day broke off: {problem}.")
        with book.connected():
            day.check(refold.verify() == [], "the journal folded again gives the same book")
            close = closing(day, book) if day.whole else None
    if as_json:
        report = {"steps": day.steps, "checks": day.checks, "failures": day.failures,
                  "close": close_as_json(close) if close else None}  # fmt: skip
        out(json.dumps(report, ensure_ascii=False, indent=1))
    else:
        out(table(day, close))
    return 1 if day.failures else 0
