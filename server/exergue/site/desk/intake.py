"""Bringing in a file: chosen, shown row by row, and taken only when confirmed."""

import json
import os
import uuid
from pathlib import Path

from flask import abort, flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField

from ...records import intake as files
from ...records.clock import now_ms
from ...records.verdicts import Refused
from .. import here, limits
from . import desk
from .forms import OneOf

KINDS = [("", "Find out from its columns"), ("coins", "Coins"), ("wants", "Wants"), ("evidence", "Past sales"), ("shows", "Shows")]
FATES = {"new": "new", "change": "changes a coin", "same": "already so", "refused": "not taken", "skipped": "left out"}
KEPT_MS = 86_400_000  # a file that nobody confirmed is gone after a day
PER = 200


class FileForm(FlaskForm):
    file = FileField("CSV file")
    kind = OneOf("What it holds", choices=KINDS)


def folder() -> Path:
    """Where files wait for their confirmation; for the book's owner only."""
    path = here.book().folder / "tmp"
    path.mkdir(mode=0o700, exist_ok=True)
    return path


def keep(data: bytes, name: str) -> str:
    """Put a file by until it is confirmed; its number."""
    for old in folder().iterdir():
        if old.stat().st_mtime_ns // 1_000_000 < now_ms() - KEPT_MS:
            old.unlink(missing_ok=True)
    number = str(uuid.uuid4())
    for suffix, content in ((".name", name.encode()), (".csv", data)):
        handle = os.open(folder() / (number + suffix), os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "wb") as out:
            out.write(content)
    return number


def kept(number: str) -> tuple[bytes, str]:
    path = folder() / f"{number}.csv"
    if not path.is_file():
        abort(404, "This file is no longer here: it was taken, put away, or a day has passed. Choose it again.")
    return path.read_bytes(), path.with_suffix(".name").read_text("utf-8")


def forget(number: str) -> None:
    for suffix in (".csv", ".name"):
        (folder() / (number + suffix)).unlink(missing_ok=True)


def answers(args) -> dict:
    """What the owner said about the whole file."""
    found = {"kind": args.get("kind") or None, "undated": args.get("undated") or None}
    if args.get("day_first") in ("True", "False"):
        found["day_first"] = args["day_first"] == "True"
    return found


def draft_of(data: bytes, said: dict):
    return files.read(data, files.OfBook(here.book()), **said)


def outlook(draft) -> str:
    """What a confirmation stands for: the file and how many rows of each fate it would give."""
    return json.dumps([draft.digest, draft.kind, draft.counts], sort_keys=True)


@desk.route("/import", methods=["GET", "POST"])
@limits.at_most(limits.CSV)
def intake():
    form = FileForm()
    if form.validate_on_submit():
        data = form.file.data.read() if form.file.data else b""
        name = (form.file.data.filename if form.file.data else "") or "file.csv"
        said = {"kind": form.kind.data or None}
        try:
            if not data:
                raise files.FileRefused("Choose a file that is not empty.")
            draft_of(data, said)
        except files.FileRefused as problem:
            form.file.errors = [str(problem)]
        else:
            return redirect(url_for("desk.preview", number=keep(data, name), kind=form.kind.data or None))
    return render_template("desk/intake.html", form=form), 400 if form.errors or form.file.errors else 200


@desk.get("/import/<uuid:number>")
def preview(number):
    data, name = kept(str(number))
    try:
        draft = draft_of(data, answers(request.args))
    except files.FileRefused as problem:
        flash(str(problem), "bad")
        return redirect(url_for("desk.intake"))
    only = request.args.get("only", "")
    rows = [row for row in draft.rows if not only or row.fate == only or (only == "warned" and row.warned)]
    page = max(1, request.args.get("page", 1, int))
    return render_template(
        "desk/preview.html", draft=draft, name=name, number=number, outlook=outlook(draft), fates=FATES, only=only,
        rows=rows[(page - 1) * PER : page * PER], page=page, pages=max(1, -(-len(rows) // PER)), found=len(rows),
        taken=sum(bool(row.facts) for row in draft.rows),
    )  # fmt: skip


@desk.post("/import/<uuid:number>")
def confirm(number):
    data, name = kept(str(number))
    back = redirect(url_for("desk.preview", number=number, **request.args))
    try:
        draft = draft_of(data, answers(request.args))
        if outlook(draft) != request.form.get("outlook"):
            flash("The book changed since this preview was made. Look at it again, then confirm.", "warn")
            return back
        files.confirm(here.book(), draft, name)
    except (files.FileRefused, Refused) as problem:
        flash(f"Nothing was taken. {problem}", "bad")
        return back
    forget(str(number))
    rows = sum(bool(row.facts) for row in draft.rows)
    flash(f"Taken: {rows:,} {'row' if rows == 1 else 'rows'} of {name}.")
    where = {"wants": "desk.wants", "evidence": "desk.evidence", "shows": "desk.shows"}.get(draft.kind, "desk.stock")
    return redirect(url_for(where, **({"order": "newest"} if where == "desk.stock" else {})))


@desk.post("/import/<uuid:number>/forget")
def put_away(number):
    forget(str(number))
    flash("The file was put away; nothing was taken.")
    return redirect(url_for("desk.intake"))
