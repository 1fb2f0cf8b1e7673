"""The commands as a user types them: each in a process of its own."""

import csv
import io
import sqlite3

import pytest
from PIL import Image
from support.desk import exergue

from exergue.cli import COMMANDS


@pytest.fixture
def book(tmp_path):
    folder = tmp_path / "book"
    assert exergue("new", "--book", folder, "--name", "Test book").returncode == 0
    return folder


COINS = """Denomination,Type,Date,Grade,Location,Cost,Purchase date,Asking,Notes
Large cent,Draped Bust,1803,VF-20,Case 1,185.00,2026-03-02,260.00,
Half cent,Classic Head,1809,F-12,Case 1,60.50,2026-03-02,95.00,"=1+1"
Half cent,Classic Head,1812,F-12,Case 2,60.50,2026-03-02,95.00,never struck
"""


@pytest.fixture
def stocked(book, tmp_path):
    (tmp_path / "coins.csv").write_text(COINS)
    assert exergue("import", "--book", book, tmp_path / "coins.csv", "--yes").returncode == 0
    return book


def told(result) -> str:
    """The one line that a user's slip gets, on stderr, with exit code 1 and without a traceback."""
    assert (result.returncode, result.stderr.count("\n")) == (1, 1), result.stderr
    assert result.stderr.startswith("exergue: ")
    return result.stderr.strip()


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_explains_itself(command):
    result = exergue(command, "--help")
    assert result.returncode == 0 and f"exergue {command}" in result.stdout


def test_a_book_is_not_made_over_another(book):
    assert "already a book" in told(exergue("new", "--book", book, "--name", "Again"))


@pytest.mark.parametrize("command", [
    ["serve"], ["pair"], ["report"], ["verify"], ["backup"], ["labels", "--all"], ["import", "coins.csv"],
])  # fmt: skip
def test_a_missing_book_is_told(command, tmp_path):
    assert "no book" in told(exergue(*command, "--book", tmp_path / "nowhere"))


def test_a_newer_book_is_left_alone(book):
    with sqlite3.connect(book / "book.sqlite3") as database:
        database.execute("pragma user_version = 9999")
        database.execute("update meta set value = '9999' where key = 'schema'")
    before = contents(book)
    assert "newer" in told(exergue("report", "--book", book))
    assert contents(book) == before


def contents(book) -> list[str]:
    """Every table of the book, as SQL."""
    with sqlite3.connect(book / "book.sqlite3") as database:
        return list(database.iterdump())


def test_import_takes_what_can_be_taken_and_names_the_rest(book, tmp_path):
    (tmp_path / "coins.csv").write_text(COINS)
    result = exergue("import", "--book", book, tmp_path / "coins.csv", "--yes")
    assert result.returncode == 0
    assert "Row 4, Date" in result.stderr and "1812" in result.stderr
    assert "2 new, 1 that cannot be taken" in result.stdout


def test_import_changes_nothing_without_a_yes(book, tmp_path):
    (tmp_path / "coins.csv").write_text(COINS)
    result = exergue("import", "--book", book, tmp_path / "coins.csv", stdin=-3)
    assert result.returncode == 1 and "--yes" in result.stderr
    assert "0 coins" in exergue("report", "--book", book).stdout


def test_import_of_no_table_is_told(book, tmp_path):
    (tmp_path / "letter.csv").write_text("Dear reader,\n")
    assert "letter.csv" in told(exergue("import", "--book", book, tmp_path / "letter.csv", "--yes"))
    assert "No such file" in told(exergue("import", "--book", book, tmp_path / "missing.csv", "--yes"))


def test_the_report_adds_up(stocked):
    rows = list(csv.DictReader(io.StringIO(exergue("report", "--book", stocked, "--csv").stdout)))
    assert [row["Cost"] for row in rows] == ["60.50", "185.00"]
    assert "2 coins, $245.50 at cost." in exergue("report", "--book", stocked).stdout


def test_the_reports_csv_starts_no_formula(book, tmp_path):
    """OWASP, CSV injection: a cell that starts with = is run by a spreadsheet."""
    (tmp_path / "coins.csv").write_text("Denomination,Title,Date,Grade,Location\nHalf cent,,1809,F-12,=1+1\n")
    assert exergue("import", "--book", book, tmp_path / "coins.csv", "--yes").returncode == 0
    (row,) = csv.DictReader(io.StringIO(exergue("report", "--book", book, "--csv").stdout))
    assert row["Place"] == "'=1+1"


def test_labels_are_printed_and_read_back(stocked, tmp_path):
    pdf = tmp_path / "out.pdf"
    result = exergue("labels", "--book", stocked, "--all", "--address", "https://coins.local:2646", "--to", pdf)
    assert result.returncode == 0, result.stderr
    assert "2 labels on 1 page" in result.stdout
    assert pdf.read_bytes().startswith(b"%PDF")


def test_blank_labels_are_known_to_the_book(book, tmp_path):
    pdf = tmp_path / "out.pdf"
    done = exergue("labels", "--book", book, "--blank", "7", "--address", "https://coins.local", "--to", pdf)
    assert done.returncode == 0, done.stderr
    with sqlite3.connect(book / "book.sqlite3") as database:
        assert database.execute("select count(*) from blank").fetchone() == (7,)


@pytest.mark.parametrize(("options", "said"), [
    (["--all"], "--address"),
    (["--all", "--blank", "3", "--address", "https://x.example"], "Blank labels"),
    (["--address", "https://x.example"], "Choose the coins"),
    (["2MR7J7K9Y1", "--address", "https://x.example"], "No coin of this book"),
    (["2MR7J7K9Y2", "--address", "https://x.example"], "check character"),
    (["--all", "--format", "nonesuch"], "no label format"),
    (["--all", "--dpi", "72", "--address", "https://x.example"], "203, 300 or 600"),
    (["--all", "--start", "31", "--address", "https://x.example"], "cannot start"),
    (["--all", "--show", "cost", "--address", "https://x.example"], "--show"),
    (["--place", "Nowhere", "--address", "https://x.example"], "Nothing in stock"),
])  # fmt: skip
def test_a_slip_in_labels_is_told_and_nothing_printed(stocked, tmp_path, options, said):
    pdf = tmp_path / "out.pdf"
    assert said in told(exergue("labels", "--book", stocked, *options, "--to", pdf))
    assert not pdf.exists()


def test_a_backup_comes_back_whole(stocked, tmp_path):
    copy = tmp_path / "copy.zip"
    assert "read again" in exergue("backup", "--book", stocked, "--to", copy).stdout
    assert exergue("restore", "--book", tmp_path / "again", "--from", copy).returncode == 0
    assert exergue("report", "--book", tmp_path / "again").stdout == exergue("report", "--book", stocked).stdout
    assert exergue("verify", "--book", tmp_path / "again").returncode == 0


def test_a_damaged_backup_is_not_restored(stocked, tmp_path):
    copy = tmp_path / "copy.zip"
    exergue("backup", "--book", stocked, "--to", copy)
    whole = copy.read_bytes()
    copy.write_bytes(whole[: len(whole) // 2])
    told(exergue("restore", "--book", tmp_path / "again", "--from", copy))
    assert not (tmp_path / "again" / "book.sqlite3").exists()


def test_verify_finds_a_table_that_does_not_follow_from_the_journal(stocked):
    with sqlite3.connect(stocked / "book.sqlite3") as database:
        database.execute("update coin set ask = ask + 1")
    result = exergue("verify", "--book", stocked)
    assert result.returncode == 1 and result.stderr


def test_verify_misses_a_photo_that_is_gone(stocked):
    from exergue.records import photos
    from exergue.records.book import Book
    from exergue.records.uuid7 import uuid7

    picture = io.BytesIO()
    Image.new("RGB", (40, 30), "brown").save(picture, "JPEG")
    book, photo = Book.open(stocked), uuid7(1_800_000_000_000)
    with book.connected():
        photos.store(book.photos, photo, picture.getvalue())
    assert exergue("verify", "--book", stocked).returncode == 0
    photos.path(book.photos, photo, "full").unlink()
    result = exergue("verify", "--book", stocked)
    assert result.returncode == 1 and photo in result.stderr


def test_pairing_prints_a_code_that_the_book_takes(book):
    from exergue.records import devices
    from exergue.records.book import Book

    said = exergue("pair", "--book", book, "--role", "helper", "--address", "https://coins.local:2646").stdout
    code = said.rstrip().rpartition("#pair=")[2]
    assert f"{code[:4]}-{code[4:]}" in said
    opened = Book.open(book)
    with opened.connected():
        device, _ = devices.pair(code, "Table phone")
        assert device.role == "helper"


def test_a_report_of_the_accounts_is_printed_in_each_way(stocked, tmp_path):
    shown = exergue("report", "dealer", "--book", stocked, "--year", "2026").stdout
    assert "245.50" in shown and "Gross profit" in shown
    lines = list(csv.reader(io.StringIO(exergue("report", "insurance", "--book", stocked, "--csv").stdout)))
    assert [line[5] for line in lines if len(line) > 5 and line[1] == "Total"] == ["245.50"]
    pdf = tmp_path / "stock.pdf"
    assert exergue("report", "stock", "--book", stocked, "--pdf", pdf).returncode == 0
    assert pdf.read_bytes().startswith(b"%PDF")


def test_days_of_a_report_that_cannot_be_are_told(stocked):
    assert "before it begins" in told(exergue("report", "dealer", "--book", stocked, "--from", "2026-05-02", "--to", "2026-05-01"))
    assert "one year" in told(exergue("report", "gains", "--book", stocked, "--from", "2025-05-02", "--to", "2026-05-01"))
