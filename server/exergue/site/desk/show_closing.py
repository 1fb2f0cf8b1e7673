"""The close of a show: a page, PDF and CSV; closing it, and opening it again."""

import io

from flask import abort, flash, g, redirect, render_template, request, send_file, url_for

from ...records import show_close
from ...records.reporting.floor import close_of_show
from ...records.verdicts import Refused
from ...reports.csv_file import to_csv
from ...reports.pdf import PAPERS, write_pdf
from .. import here
from . import desk, reports, showing
from .coin import say
from .floor import clock, show_or_404, today


def _made(row):
    done = show_close.done(here.book(), row, today(), clock)
    state = f"closed on {showing.day(done.closed)}" if done.closed else f"not closed yet; as of {showing.day(today())}"
    subtitle = " · ".join(filter(None, (showing.days(row.starts, row.ends), row.place, state)))
    return done, close_of_show(done, subtitle)


@desk.get("/shows/<uuid:show>/close")
def close(show):
    row = show_or_404(show)
    done, made = _made(row)
    return render_template("desk/show_close.html", show=row, done=done, report=made, tables=reports.tables(made))


@desk.get("/shows/<uuid:show>/close.csv", defaults={"which": "csv"})
@desk.get("/shows/<uuid:show>/close.pdf", defaults={"which": "pdf"})
def close_file(show, which):
    row = show_or_404(show)
    _, made = _made(row)
    if which == "csv":
        data, mime = to_csv(made, g.currency).encode("utf-8-sig"), "text/csv"
    else:
        paper = request.args.get("paper", "letter")
        data, mime = write_pdf(made, g.currency, paper if paper in PAPERS else "letter"), "application/pdf"
    return send_file(io.BytesIO(data), mimetype=mime, as_attachment=True, download_name=f"close-of-show-{row.starts or today()}.{which}")


@desk.post("/shows/<uuid:show>/close")
def close_show(show):
    row = show_or_404(show)
    kind = {"close": "show.close", "open": "show.open"}.get(request.form.get("do", "")) or abort(400, "Say whether to close the show or to open it.")
    try:
        say(here.book().act(kind, {"show": row.id, "date": today()}), "The show is closed." if kind == "show.close" else "The show is open again.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.close", show=row.id))
