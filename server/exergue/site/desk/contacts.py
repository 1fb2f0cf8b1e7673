"""Contacts: dealers and buyers, each with the deals and the sightings."""

from flask import abort, flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms.validators import InputRequired

from ...records import reading
from ...records.tables import Contact
from ...records.verdicts import Refused
from .. import here
from . import deals, desk, lists, words
from .forms import LineField, SeenField

NAMES = ("name", "table", "phone", "note")


class ContactForm(FlaskForm):
    name = LineField("Name", [InputRequired("Give the name.")], most=120)
    table = LineField("Table", most=40)
    phone = LineField("Telephone", most=40)
    note = LineField("Note", most=2000)
    seen = SeenField()

    def wanted(self) -> dict:
        return {name: getattr(self, name).data for name in NAMES}


@desk.get("/contacts")
def contacts():
    return render_template("desk/contacts.html", contacts=reading.contacts())


@desk.route("/contacts/new", methods=["GET", "POST"])
def new_contact():
    form = ContactForm()
    if form.validate_on_submit() and lists.save("contact", None, form, "The contact is in the book."):
        return redirect(url_for("desk.contacts"))
    return render_template("desk/edit_contact.html", form=form, contact=None)


@desk.route("/contacts/<uuid:contact>", methods=["GET", "POST"])
def edit_contact(contact):
    row = Contact.get_or_none(Contact.id == str(contact), Contact.gone == "") or abort(404, "The book has no such contact.")
    now = {name: getattr(row, name) for name in NAMES}
    form = ContactForm(data=now | {"seen": now})
    if form.validate_on_submit() and lists.save("contact", row.id, form, "The contact was changed."):
        return redirect(url_for("desk.contacts"))
    card = here.book().card("contact", row.id)
    lines = [line for line in (reading.fact(one["fact"]) for one in card["own"]["deals"]) if line]
    coins = deals.named([deals.coins_of(line["body"])[: deals.MOST] for line in lines])
    told = [{"date": line["body"]["date"], "said": words.sentence(line)[0], "fact": line["fact"], "coins": of} for line, of in zip(lines, coins, strict=True)]
    return render_template("desk/edit_contact.html", form=form, contact=card, deals=told, shows=show_names())


def show_names() -> dict[str, str]:
    return {show["id"]: show["name"] or "A show" for show in reading.shows()}


@desk.post("/contacts/<uuid:contact>/drop")
def drop_contact(contact):
    try:
        here.book().act("contact.drop", {"contact": str(contact)})
        flash("The contact is off the list.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.contacts"))
