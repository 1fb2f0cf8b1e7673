"""Sightings: coins seen on somebody's table, with the price asked."""

from datetime import date

from flask import abort, flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm

from ...records import knowledge, reading
from ...records.tables import Sighting
from ...records.verdicts import Refused
from .. import here
from . import desk, lists
from .coin_form import denomination_choices, type_choices
from .contacts import show_names
from .forms import DayField, GradeField, LineField, MoneyField, OneOf, SeenField, WholeField

NAMES = ("contact", "dealer", "table", "show", "date", "want", "denom", "type", "title", "year", "mint", "grade", "ask", "offer",
         "answer", "note")  # fmt: skip
ANSWERS = [("", "No offer made"), ("open", "Open"), ("yes", "Yes"), ("no", "No"), ("counter", "Another price named")]


class SightingForm(FlaskForm):
    contact = OneOf("Dealer")
    dealer = LineField("Name, if no contact", most=120)
    table = LineField("Table", most=40)
    show = OneOf("Show")
    date = DayField("Day")
    want = OneOf("For the want")
    denom = OneOf("Denomination")
    type = OneOf("Type", validate_choice=False)
    title = LineField("Description", most=120)
    year = WholeField("Year")
    mint = LineField("Mint mark", most=4)
    grade = GradeField("Grade seen")
    ask = MoneyField("Price asked")
    offer = MoneyField("What you offered")
    answer = OneOf("The answer", choices=ANSWERS)
    note = LineField("Note", most=2000)
    seen = SeenField()

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.contact.offer([("", "None of the contacts"), *((one["id"], one["name"]) for one in reading.contacts())])
        self.show.offer([("", "Not at a show"), *show_names().items()])
        self.want.offer([("", "No want"), *((one["id"], " ".join(filter(None, (one["title"], one["years"])))) for one in reading.wants())])
        self.denom.offer(denomination_choices())
        self.type.offer(type_choices())

    def wanted(self) -> dict:
        fields = {name: getattr(self, name).data for name in NAMES}
        fields |= {name: fields[name] or None for name in ("contact", "show", "want", "date")}
        if fields["type"] and not fields["denom"]:
            fields["denom"] = fields["type"].partition("/")[0]
        return fields

    def validate(self, extra_validators=None) -> bool:
        fits = super().validate(extra_validators)
        if fits and not any(getattr(self, name).data for name in ("want", "denom", "type", "title")):
            self.form_errors = ["Say what was seen: a want, a denomination, a type or a description."]
        return fits and not self.form_errors


@desk.get("/sightings")
def sightings():
    return render_template("desk/sightings.html", sightings=reading.sightings(), shows=show_names())


@desk.route("/sightings/new", methods=["GET", "POST"])
def new_sighting():
    form = SightingForm(data={"date": date.today().isoformat()} | _given())
    if form.validate_on_submit() and lists.save("sighting", None, form, "The sighting is in the book."):
        return redirect(url_for("desk.sightings"))
    return render_template("desk/edit_sighting.html", form=form, sighting=None)


def _given() -> dict:
    """What a link to the form says already: the want with what it asks for, the contact, the show."""
    want = here.book().card("want", request.args.get("want", ""))
    found = {name: request.args[name] for name in ("contact", "show") if request.args.get(name)}
    about = {"want": want["id"], "denom": want["denom"], "type": want["type"]} if want else {}
    return found | about | ({"title": want["title"]} if want and not knowledge.type_name(want["type"]) else {})


@desk.route("/sightings/<uuid:sighting>", methods=["GET", "POST"])
def edit_sighting(sighting):
    row = Sighting.get_or_none(Sighting.id == str(sighting), Sighting.gone == "") or abort(404, "The book has no such sighting.")
    now = {name: getattr(row, name) for name in NAMES} | {"date": row.date or None}
    form = SightingForm(data=now | {name: now[name] or "" for name in ("contact", "show", "want")} | {"seen": now})
    for field in (form.contact, form.show, form.want):  # what is off its list by now stays as it is
        if row.__data__[field.name] and row.__data__[field.name] not in [choice.value for choice in field.choices]:
            field.offer([*((choice.value, choice.label) for choice in field.choices), (row.__data__[field.name], "One that is off the list")])
    if form.validate_on_submit() and lists.save("sighting", row.id, form, "The sighting was changed."):
        return redirect(url_for("desk.sightings"))
    return render_template("desk/edit_sighting.html", form=form, sighting=here.book().card("sighting", row.id))


@desk.post("/sightings/<uuid:sighting>/drop")
def drop_sighting(sighting):
    try:
        here.book().act("sighting.drop", {"sighting": str(sighting)})
        flash("The sighting is off the list.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.sightings"))
