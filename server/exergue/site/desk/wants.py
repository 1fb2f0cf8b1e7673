"""The want list."""

from flask import abort, flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm

from ...records import knowledge, reading
from ...records.tables import Want
from ...records.verdicts import Refused
from .. import here
from . import desk, lists, showing, worth_words
from .coin import say
from .coin_form import denomination_choices, type_choices
from .contacts import show_names
from .forms import GradeField, LineField, MoneyField, OneOf, SeenField

NAMES = ("denom", "type", "title", "years", "grade_from", "grade_to", "ceiling", "priority", "note")
PRIORITIES = [("high", "High"), ("usual", "Usual"), ("low", "Low")]


class WantForm(FlaskForm):
    denom = OneOf("Denomination")
    type = OneOf("Type", validate_choice=False)
    title = LineField("Description", most=120)
    years = LineField("Dates", most=40)
    grade_from = GradeField("Grade from")
    grade_to = GradeField("Grade to")
    ceiling = MoneyField("Ceiling")
    priority = OneOf("Priority", choices=PRIORITIES, default="usual")
    note = LineField("Note", most=2000)
    seen = SeenField()

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.denom.offer(denomination_choices())
        self.type.offer(type_choices())

    def wanted(self) -> dict:
        fields = {name: getattr(self, name).data for name in NAMES}
        if fields["type"] and not fields["denom"]:
            fields["denom"] = fields["type"].partition("/")[0]
        return fields

    def validate(self, extra_validators=None) -> bool:
        fits = super().validate(extra_validators)
        if fits and not (self.denom.data or self.type.data or self.title.data):
            self.form_errors = ["Say what is wanted: a denomination, a type or a description."]
        return fits and not self.form_errors


@desk.get("/wants")
def wants():
    return render_template("desk/wants.html", wants=reading.wants(), found=reading.found_wants(), dropped=len(reading.dropped_wants()),
                           sets={one["id"]: one["name"] or "a set" for one in reading.goals()})


@desk.route("/wants/new", methods=["GET", "POST"])
def new_want():
    key = request.args.get("type", "")
    form = WantForm(data={"type": key, "denom": key.partition("/")[0]} if knowledge.type_name(key) else None)
    if form.validate_on_submit() and lists.save("want", None, form, "The want is on the list."):
        return redirect(url_for("desk.wants"))
    return render_template("desk/edit_want.html", form=form, want=None)


@desk.route("/wants/<uuid:want>", methods=["GET", "POST"])
def edit_want(want):
    row = Want.get_or_none(Want.id == str(want)) or abort(404)
    if row.gone:
        flash("This want was taken off the list; it can be put back here.")
        return redirect(url_for("desk.dropped_wants"))
    for filled in (one for one in reading.found_wants() if one["id"] == row.id):
        flash(f"This want was filled on {showing.day(filled['date'])} by the coin below.")
        return redirect(url_for("desk.coin", coin_id=filled["coin"]))
    now = {name: getattr(row, name) for name in NAMES}
    form = WantForm(data=now | {"seen": now})
    if form.validate_on_submit() and lists.save("want", row.id, form, "The want was changed."):
        return redirect(url_for("desk.wants"))
    return render_template("desk/edit_want.html", form=form, want=here.book().card("want", row.id), shows=show_names(),
                           ceiling=worth_words.of_want(now))


@desk.post("/wants/<uuid:want>/drop")
def drop_want(want):
    try:
        here.book().act("want.drop", {"want": str(want)})
        flash("The want is off the list.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.wants"))


@desk.get("/wants/off")
def dropped_wants():
    return render_template("desk/wants_off.html", dropped=reading.dropped_wants())


@desk.post("/wants/<uuid:want>/back")
def want_back(want):
    """Undo the entry that took it off the list."""
    row = Want.get_or_none(Want.id == str(want), Want.gone != "") or abort(404, "No such want was taken off the list.")
    try:
        say(here.book().act("void", {"of": row.gone}), "The want is on the list again.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.wants"))
