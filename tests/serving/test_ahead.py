"""The market is made by itself once a desk has answered; without recorded sales nothing is made."""

import subprocess
import sys
from datetime import date

from exergue.records import worth
from exergue.serving import ahead

SALE = {"date": "2026-05-01", "price": 10_000, "denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20"}


def kept(book):
    """The market that is held of this book, None where there is none."""
    (*_, made), glance = worth._held, worth._held[0]
    return made if glance and glance[0] == book.id else None


def test_after_the_first_answer_the_market_is_there_for_whoever_asks(book, app, client):
    book.act("sale.seen", {"set": SALE})
    began = ahead.start(app)
    assert client.get("/healthz").status_code == 200
    began.join()
    made = kept(book)
    assert made is not None and worth.market(book.settings(), date.today()) is made
    assert [sale.cents for sale in made.sales] == [10_000]


def test_without_an_answer_it_begins_all_the_same(book, app, monkeypatch):
    monkeypatch.setattr(ahead, "SOON", 0)
    book.act("sale.seen", {"set": SALE})
    ahead.start(app).join()
    assert kept(book) is not None


def test_what_fails_there_fails_nothing_else(book, app, client, monkeypatch, caplog):
    monkeypatch.setattr(ahead, "SOON", 0)
    app.extensions["exergue_book"], whole = None, app.extensions["exergue_book"]
    ahead.start(app).join()
    app.extensions["exergue_book"] = whole
    assert "could not be made ahead" in caplog.text and client.get("/healthz").status_code == 200


def test_without_recorded_sales_no_library_is_loaded(book, app):
    script = (
        "import sys; from exergue.serving import ahead; from exergue.site import create_app; ahead.SOON = 0\n"
        f"ahead.start(create_app({str(book.folder)!r})).join()\n"
        "print(sorted({'numpy', 'scipy'} & set(sys.modules)))"
    )
    said = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "[]"
