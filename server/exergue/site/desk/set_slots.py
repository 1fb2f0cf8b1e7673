"""A set's slots: made from a template with its switches, and each changed, added or taken out by hand."""

from dataclasses import fields

from flask import abort, flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import BooleanField, ValidationError

from ...collecting import templates
from ...collecting.slots import KEY_LENGTH, Slot
from ...records import kinds, knowledge
from ...records.clock import now_ms
from ...records.tables import Goal
from ...records.uuid7 import uuid7
from ...records.verdicts import Refused
from .. import here
from . import desk, sets
from .coin import say
from .coin_form import Ticks, type_choices
from .forms import GradeField, LineField, OneOf, options

STRIKES = [("any", "Business strike or proof"), ("business", "Business strike"), ("proof", "Proof")]
KINDS = {"century": "Types of a century", "denomination": "Types of a denomination", "series": "Types of a series",
         "family": "Types of a design family", "dates": "Dates of a type"}  # fmt: skip
GENERAL = ("century", "gold", "proofs", "one-year", "mints")


class Wish(FlaskForm):
    """What every slot of a new set asks for."""

    name = LineField("Name of the set", most=120)
    grade_from = GradeField("Grade from")
    grade_to = GradeField("Grade to")
    strike = OneOf("Strike", choices=STRIKES, default="any")
    problem_free = BooleanField("Without problems only")

    def asked(self) -> dict:
        return {name: getattr(self, name).data for name in ("grade_from", "grade_to", "strike", "problem_free")}


def offered() -> dict[str, list]:
    known = knowledge.catalogue()
    found = templates.offered(known)
    found["dates"] = [(f"dates/{key}", known.title(key)) for key, one in known.types.items() if not one.single_year]
    return {KINDS[kind]: found[kind] for kind in KINDS}


@desk.route("/sets/new", methods=["GET", "POST"])
def new_set():
    known, text = knowledge.catalogue(), request.values.get("template", "")
    if not text:
        return render_template("desk/new_set.html", offered=offered(), template=None)
    try:
        template = templates.find(known, text)
    except templates.BadTemplate as problem:
        flash(str(problem), "bad")
        return redirect(url_for("desk.new_set"))
    form = Wish(data={"name": template.title, "strike": "any"})
    answers = {s.key: request.form[s.key] for s in template.switches if request.form.get(s.key)}
    made, fits = [], not form.is_submitted() or form.validate()
    try:
        made = templates.slots(known, template, answers, **(form.asked() if form.is_submitted() and fits else {}))
    except templates.BadTemplate as problem:
        form.form_errors = [str(problem)]
    if form.is_submitted() and fits and made and "make" in request.form:
        key = uuid7(now_ms())
        said = {"name": form.name.data or template.title, "template": templates.text(template, answers),
                "slots": [slot.row() for slot in made]}  # fmt: skip
        if len(made) > kinds.MOST_SLOTS:
            form.form_errors = [f"A set has at most {kinds.MOST_SLOTS} slots; this would have {len(made)}."]
        else:
            try:
                say(here.book().act("set.add", {"goal": key, "set": said}), "The set is in the book.")
                return redirect(url_for("desk.one_set", goal=key))
            except Refused as problem:
                form.form_errors = [str(problem)]
    general = [s for s in template.switches if s.key in GENERAL]
    return render_template(
        "desk/new_set.html", template=template, form=form, slots=made, general=general, answers=answers,
        questions=[s for s in template.switches if s not in general], type_name=knowledge.type_name,
    )  # fmt: skip


class SlotForm(FlaskForm):
    title = LineField("What it is for", most=120)
    types = Ticks("Types, any of which serves")
    another = OneOf("Another type that serves", validate_choice=False)
    years = LineField("Dates", most=40)
    mints = LineField("Mint marks", most=60)
    issues = LineField("Certain dates and mints only", most=600)
    subtype = OneOf("Division of the type")
    grade_from = GradeField("Grade from")
    grade_to = GradeField("Grade to")
    strike = OneOf("Strike", choices=STRIKES, default="any")
    problem_free = BooleanField("Without problems only")
    note = LineField("Note", most=500)

    def __init__(self, accepted, **more):
        """`accepted`: the types that the slot accepts now."""
        super().__init__(**more)
        known = knowledge.catalogue().types
        self.types.choices = options([(key, knowledge.catalogue().title(key) if key in known else key) for key in accepted])
        self.another.offer([("", "None"), *type_choices()[1:]])
        of = [known[key] for key in accepted if key in known]
        named = {s.key: s.name for t in of[:1] for s in t.subtypes}
        self.subtype.offer([("", "Any"), *named.items(), *((f"!{key}", f"All but: {name}") for key, name in named.items())])
        if (self.subtype.data or "") not in {choice.value for choice in self.subtype.choices}:
            self.subtype.data = ""

    def validate_title(self, field):
        if not field.data:
            raise ValidationError("Give the slot a title.")

    def row(self, key: str) -> dict:
        said = {f.name: getattr(self, f.name).data for f in fields(Slot) if f.name != "key"}
        said["types"] = tuple(dict.fromkeys(filter(None, [*(said["types"] or ()), self.another.data])))
        said["issues"] = tuple(listed(said["issues"]))
        said["mints"] = tuple("" if mark in ("-", "–") else mark for mark in listed(said["mints"]))
        return Slot(key, **said).row()


def listed(text: str) -> list[str]:
    return [part.strip().upper() for part in text.replace(";", ",").split(",") if part.strip()]


@desk.route("/sets/<uuid:goal>/slot", methods=["GET", "POST"])
def edit_slot(goal):
    """One slot, named by ?slot=; without a name a new one."""
    goal_row = Goal.get_or_none(Goal.id == str(goal)) or abort(404)
    key = request.args.get("slot", "")
    row = next((one for one in goal_row.slots if one["key"] == key), None)
    if key and row is None:
        abort(404, "The set has no such slot.")
    now = row or {"strike": "any"}
    shown = {**now, "mints": ", ".join(mark or "-" for mark in now.get("mints", ())), "issues": ", ".join(now.get("issues", ()))}
    form = SlotForm(now.get("types", ()), data=shown)
    if form.validate_on_submit():
        new = form.row(key or fresh_key(form.title.data, goal_row.slots))
        rows = [new if one["key"] == key else one for one in goal_row.slots] if row else [*goal_row.slots, new]
        if kept(goal_row, rows, form, "The slot was changed." if row else "The slot is in the set."):
            return redirect(url_for("desk.one_set", goal=goal))
    card = sets.card_of(goal)
    slot = next((one for one in card["slots"] if one["key"] == key), None)
    return render_template("desk/edit_slot.html", form=form, set=card, slot=slot, others=sets.candidates(row) if row else [])


@desk.post("/sets/<uuid:goal>/slot/drop")
def drop_slot(goal):
    goal_row = Goal.get_or_none(Goal.id == str(goal)) or abort(404)
    rows = [one for one in goal_row.slots if one["key"] != request.form.get("slot")]
    if not kept(goal_row, rows, None, "The slot is out of the set."):
        flash("The slot could not be taken out.", "bad")
    return redirect(url_for("desk.one_set", goal=goal))


def fresh_key(title: str, rows: list[dict]) -> str:
    """A key that no slot of the set has."""
    used, base = {one["key"] for one in rows}, title[: KEY_LENGTH - 4]
    return next(key for key in (base, *(f"{base}~{n}" for n in range(2, 999))) if key not in used)


def kept(goal: Goal, rows: list[dict], form, done: str) -> bool:
    """Record the slots of a set as changed, unless somebody else changed them meanwhile."""
    try:
        say(here.book().act("set.edit", {"goal": goal.id, "base": {"slots": goal.slots}, "set": {"slots": rows}}), done)
    except Refused as problem:
        if form is not None:
            form.form_errors = [str(problem)]
        return False
    return True
