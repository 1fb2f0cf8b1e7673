"""Reports: which there are, each as a page, and as CSV and PDF files."""

import io
import re
from datetime import date

from flask import abort, g, render_template, request, send_file, url_for

from ...labels import ids
from ...records import reporting
from ...records.books import books, contradictions
from ...records.reporting import BadPeriod
from ...reports import model
from ...reports.cells import ALIGNED, shown
from ...reports.csv_file import to_csv
from ...reports.pdf import PAPERS, write_pdf
from .. import here
from . import desk, showing

DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b", re.ASCII)
MOST = 500  # rows of a section on a page; the files have all


def typed_day(name: str) -> date | None:
    said = request.args.get(name, "").strip()
    try:
        return date.fromisoformat(said) if said else None
    except ValueError:
        raise BadPeriod(f"“{said}” is not a day; give it as 2026-01-31.") from None


def typed_year() -> int | None:
    said = request.args.get("year", "").strip()
    if said and not (said.isascii() and said.isdigit() and len(said) == 4):
        raise BadPeriod(f"“{said}” is no year; give it in four digits, such as 2026.")
    return int(said) if said else None


def asked(name: str) -> tuple[model.Report, date, date]:
    """The report that the address asks for, and its days. Raises BadPeriod."""
    first, last = reporting.days(date.today(), typed_year(), typed_day("from"), typed_day("to"))
    return reporting.report(here.book(), name, date.today(), first, last), first, last


@desk.get("/reports")
def reports():
    account = books(here.book())
    unknown = [(coin, ids.show(coin)) for coin in account.unknown]
    refused, moved = _with_coins(account.refused), _with_coins(contradictions(account))
    first, last = reporting.days(date.today())
    return render_template("desk/reports.html", kinds=reporting.KINDS, unknown=unknown, refused=refused, moved=moved, first=first, last=last)


def _with_coins(entries) -> list[tuple]:
    return [(one, [(coin, ids.show(coin)) for coin in one.coins if here.book().card("coin", coin)][:5]) for one in entries]


@desk.get("/reports/<name>")
def report(name):
    kind = reporting.KINDS.get(name) or abort(404)
    try:
        made, first, last = asked(name)
        problem = ""
    except BadPeriod as wrong:
        made, (first, last), problem = None, reporting.days(date.today()), str(wrong)
    links = {} if made is None else {
        which: url_for("desk.report_file", name=name, which=which, **{"from": first.isoformat(), "to": last.isoformat()})
        for which in ("csv", "pdf")
    }  # fmt: skip
    page = render_template("desk/report.html", kind=kind, name=name, report=made, subtitle=in_words(made.subtitle) if made else "", tables=tables(made) if made else [], first=first, last=last,
                           problem=problem, links=links)  # fmt: skip
    return page, 400 if problem else 200


def tables(made: model.Report) -> list[dict]:
    """The sections of a report as a page shows them."""
    return [_table(made, section) for section in made.sections]


def _looks(column: model.Column) -> str:
    """The class of a column: figures stand right, days, IDs and grades on one line."""
    return "num" if column.kind in ALIGNED else "nowrap" if column.kind == model.DATE or column.heading == "ID" or column.key == "grade" else ""


def said(value, column: model.Column) -> str:
    """A cell as the desk says it: days in words, all else as the files have it."""
    if column.kind == model.DATE and isinstance(value, date):
        return showing.day(value.isoformat())
    text = shown(value, column.kind, g.currency)
    return in_words(text) if column.key == "rests_on" else text


def in_words(text: str) -> str:
    """A text with its days in words: “2026-03-14 to 2026-03-16” as “14 Mar 2026 to 16 Mar 2026”."""
    return DAY.sub(lambda found: showing.day(found[0]), text)


def _table(made: model.Report, section: model.Section) -> dict:
    columns = [column for column in made.columns_of(section) if column.kind != model.PHOTO]

    def cells(row):
        return [said(row.get(column.key), column) for column in columns]

    return {
        "heading": in_words(section.heading), "note": in_words(section.note), "heads": [(column.heading, _looks(column)) for column in columns],
        "rows": [cells(row) for row in section.rows[:MOST]], "totals": [cells(row) for row in section.totals],
        "more": max(0, len(section.rows) - MOST),
    }  # fmt: skip


@desk.get("/reports/<name>.csv", defaults={"which": "csv"})
@desk.get("/reports/<name>.pdf", defaults={"which": "pdf"})
def report_file(name, which):
    kind = reporting.KINDS.get(name) or abort(404)
    try:
        made, first, last = asked(name)
    except BadPeriod as problem:
        abort(400, str(problem))
    if which == "csv":
        data, mime = to_csv(made, g.currency).encode("utf-8-sig"), "text/csv"
    else:
        paper = request.args.get("paper", "letter")
        data, mime = write_pdf(made, g.currency, paper if paper in PAPERS else "letter"), "application/pdf"
    days = date.today().isoformat() if kind.span == reporting.NOW else f"{first.isoformat()}-to-{last.isoformat()}"
    return send_file(io.BytesIO(data), mimetype=mime, as_attachment=True, download_name=f"{name}-{days}.{which}")
