"""The page of one deal: what it says, what each coin bears of it, how it was paid, its receipts."""

import hashlib

from flask import abort, flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField

from ...labels import ids
from ...records import reading
from ...records.clock import now_ms
from ...records.uuid7 import uuid7
from ...records.verdicts import CONTESTED, REFUSED, Refused
from .. import here, limits, taking
from . import deal_words, desk, receipts, stands, words
from .deals import KINDS, coins_of

ONE = {"purchase": "Purchase", "sale": "Sale", "ticket": "Sale", "return": "Return", "trade": "Trade", "cost": "Later cost",
       "acquired": "Inherited, given or found", "memo": "Memo or consignment", "away": "Sent away", "back": "Back", "lost": "Lost or stolen",
       "withdrawn": "Held differently", "money": "Expense or income"}  # fmt: skip
assert set(ONE) == {*KINDS, "sale"}


def heading(kind: str, body: dict) -> str:
    return f"{body['way'].capitalize()} on {body['kind']}" if kind == "memo" else ONE[kind]


class AddForm(FlaskForm):
    """The photo of a receipt, for a deal that is recorded."""

    file = FileField("Photo of the receipt")


@desk.get("/deals/<uuid:fact>")
def deal(fact):
    line = reading.fact(str(fact))
    if not line or line["kind"] not in ONE:
        abort(404, "The book has no such deal.")
    return page(line)


def page(line: dict, adding=None, status: int = 200):
    """The page of a deal, with the form of a receipt that was sent and must be mended."""
    kind, body = line["kind"], line["body"]
    live = not line["voided"] and line["verdict"] != REFUSED
    said, details = words.sentence(line)
    seen = stands.of(kind, line["fact"], body) if live else None
    if seen and seen["due"] is not None:
        details = deal_words.beside(body)
    coins = [(key, here.book().card("coin", key)) for key in coins_of(body)]
    named = {row["id"] for table in seen["tables"] for row in table["rows"]} if seen else set()
    return render_template(
        "desk/deal.html", line=line, heading=heading(kind, body), said=said, live=live, seen=seen, receipts=receipts.of_deal(line),
        adding=(adding or AddForm(formdata=None)) if receipts.may_have(line) else None,
        returns=returns_of(line), details=details, waits=line["verdict"] == CONTESTED,
        others=[(key, ids.show(key), words.coin_line(card) if card else "no longer in the book") for key, card in coins if key not in named],
    ), status  # fmt: skip


def returns_of(line: dict) -> list[tuple[str, str]]:
    """(entry, what it says) of the returns of a sale that stand."""
    if line["kind"] not in ("sale", "ticket"):
        return []
    back = [one for one in reading.returns_of(line["fact"]) if not one["voided"] and one["verdict"] != REFUSED]
    return [(one["fact"], words.sentence(one)[0]) for one in back]


@desk.post("/deals/<uuid:fact>/receipts")
@limits.at_most(limits.PHOTO)
def add_receipt(fact):
    line = reading.fact(str(fact))
    if not line or not receipts.may_have(line):
        abort(404, "The book has no such deal.")
    form = AddForm()
    data = form.file.data.read() if form.validate() and form.file.data else b""
    if not data:
        form.file.errors = ["Choose a photo first."]
        return page(line, form, 400)
    photo = uuid7(now_ms())
    try:
        taking.keep(photo, data)
        here.book().act("receipt", {"of": line["fact"], "photo": photo, "digest": hashlib.sha256(data).hexdigest()})
    except Refused as problem:
        form.file.errors = [str(problem)]
        return page(line, form, 400)
    flash("The receipt was added.")
    return redirect(url_for("desk.deal", fact=line["fact"]))


@desk.post("/deals/<uuid:fact>/receipts/<uuid:added>/remove")
def remove_receipt(fact, added):
    line = reading.fact(str(added))
    if not line or line["kind"] != "receipt":
        abort(404, "The deal has no such receipt.")
    try:
        here.book().act("void", {"of": line["fact"]})
        flash("The photo was taken away; its entry stays in the journal.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.deal", fact=fact))
