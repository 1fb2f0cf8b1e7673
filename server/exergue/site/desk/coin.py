"""A coin's page, its edit form and its photos."""

import hashlib

from flask import abort, flash, g, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField

from ...labels import ids
from ...records import knowledge, photos, reading
from ...records.clock import now_ms
from ...records.uuid7 import uuid7
from ...records.verdicts import CONTESTED, MERGED, Refused
from .. import here, limits, taking
from ..public import send_photo
from . import deal_words, desk, lot_words, receipts, words, worth_words
from .coin_form import CoinFields, seen
from .forms import LineField, OneOf, SeenField, changed

SIDES = ("obverse", "reverse", "edge", "holder", "other")


class EditForm(CoinFields):
    seen = SeenField()


class PhotoForm(FlaskForm):
    file = FileField("Photo")
    side = OneOf("Side", choices=[(side, side) for side in SIDES], default=SIDES[0])


class NoteForm(FlaskForm):
    text = LineField("Note", most=2000)


def card_or_404(text: str) -> dict:
    """The coin's card. An ID is forgiven its case and hyphens; an unknown one is 404."""
    try:
        card = here.book().card("coin", ids.parse(text))
    except ids.BadLabel:
        card = None
    if card is None:
        abort(404, "The book has no coin with this ID.")
    return card


@desk.get("/coins/<coin_id>")
def coin(coin_id: str):
    return page(card_or_404(coin_id))


def page(card: dict, photo_form=None, note_form=None, status: int = 200):
    """The coin's page, with a form that was sent and must be mended."""
    entries = [line | dict(zip(("said", "details"), words.sentence(line), strict=True)) | {"receipt": receipts.of(receipts.photo_of(line))}
               for line in reversed(reading.history(card["id"]))]  # fmt: skip
    arrived = {one["photo"]: photos.path(here.book().photos, one["photo"]).is_file() for one in card["photos"]}
    shows = {show["id"]: show["name"] for show in reading.shows()}
    return render_template(
        "desk/coin.html", coin=card, entries=entries, arrived=arrived, shows=shows, checklist=checklist(card),
        photo_form=photo_form or PhotoForm(formdata=None), note_form=note_form or NoteForm(formdata=None),
        found_line=g.settings["found_line"], costs=deal_words.LINES, answers=words.ANSWERS, date_note=date_note(card),
        worth=worth_words.of_coin(card), parts=[lot_words.said(one) for one in lot_words.parts(card)],
    ), status  # fmt: skip


def checklist(card: dict) -> list[dict]:
    """Every look of the coin's type, and answers to others, each with its answer if there is one.

    `near`: [(a type it is taken for, what that one shows instead)].
    """
    asked = knowledge.catalogue().checklist(card["type"], card["year"]) if knowledge.type_name(card["type"]) else []
    lines = [{"key": d.key, "look": d.look, "fits": d.fits, "caution": d.caution, "kills": d.kills,
              "near": [(knowledge.type_name(other), shows) for other, shows in d.instead.items()]} for d in asked]  # fmt: skip
    known = {line["key"] for line in lines}
    lines += [{"key": key, "look": key.replace("-", " ").capitalize()} for key in card["checks"] if key not in known]
    return [line | {"said": card["checks"].get(line["key"])} for line in lines]


def date_note(card: dict) -> str | None:
    """What the catalogue says of a date that was struck in proof only, or of which that is disputed."""
    if not knowledge.type_name(card["type"]):
        return None
    return knowledge.catalogue().date_note(card["type"], card["year"], card["mint"])


@desk.route("/coins/<coin_id>/edit", methods=["GET", "POST"])
def edit_coin(coin_id: str):
    card = card_or_404(coin_id)
    now = seen(card["id"])
    form = EditForm(data=now["fields"] | {"seen": now})
    if form.validate_on_submit():
        saw = form.seen.data.get("fields")
        saw = saw if isinstance(saw, dict) else {}
        wanted = changed(saw, form.wanted())
        base = {name: saw[name] for name in wanted if name in saw}
        if not wanted:
            flash("Nothing was changed.")
            return redirect(url_for("desk.coin", coin_id=card["id"]))
        try:
            verdict = here.book().act("coin.edit", {"coin": card["id"], "base": base, "set": wanted,
                                                        "seen": form.seen.data.get("seq")})  # fmt: skip
        except Refused as problem:
            form.refuse(problem)
        else:
            say(verdict, "The coin was changed.")
            return redirect(url_for("desk.coin", coin_id=card["id"]))
    return render_template("desk/edit_coin.html", coin=card, form=form, places=reading.places())


def say(verdict, done: str) -> None:
    """Tell what became of an entry of the desk."""
    if verdict.verdict == CONTESTED:
        flash(f"{verdict.message} Decide under Needs a look.", "warn")
    elif verdict.verdict == MERGED:
        flash(f"{done} {verdict.message}")
    else:
        flash(done)


@desk.post("/coins/<coin_id>/photos")
@limits.at_most(limits.PHOTO)
def add_photo(coin_id: str):
    card = card_or_404(coin_id)
    form = PhotoForm()
    if not form.validate():
        return page(card, photo_form=form, status=400)
    data = form.file.data.read() if form.file.data else b""
    if not data:
        form.file.errors = ["Choose a photo first."]
        return page(card, photo_form=form, status=400)
    photo_id = uuid7(now_ms())
    try:
        taking.keep(photo_id, data)
        here.book().act("photo", {"coin": card["id"], "photo": photo_id, "side": form.side.data,
                                  "digest": hashlib.sha256(data).hexdigest()})  # fmt: skip
    except Refused as problem:
        form.file.errors = [str(problem)]
        return page(card, photo_form=form, status=400)
    flash("The photo was added.")
    return redirect(url_for("desk.coin", coin_id=card["id"]))


@desk.get("/photos/<uuid:photo>/<any(full, thumb):size>")
def photo(photo, size: str):
    return send_photo(str(photo), size)


@desk.post("/coins/<coin_id>/notes")
def add_note(coin_id: str):
    card = card_or_404(coin_id)
    form = NoteForm()
    if form.validate() and form.text.data:
        say(here.book().act("note", {"coin": card["id"], "text": form.text.data}), "The note was added.")
        return redirect(url_for("desk.coin", coin_id=card["id"]))
    if not form.errors:
        form.text.errors = ["Write the note first."]
    return page(card, note_form=form, status=400)


@desk.post("/coins/<coin_id>/undo/<uuid:fact>")
def undo(coin_id: str, fact):
    card = card_or_404(coin_id)
    try:
        say(here.book().act("void", {"of": str(fact), "reason": request.form.get("reason", "")[:500]}), "Undone.")
    except Refused as problem:
        flash(str(problem), "bad")
    if here.book().card("coin", card["id"]) is None:
        flash("With that entry the coin left the book; its entries stay in the journal.", "warn")
        return redirect(url_for("desk.stock"))
    return redirect(url_for("desk.coin", coin_id=card["id"]))
