"""Sets: the list, the board of one, wants made from its slots."""

from datetime import date

from flask import abort, flash, g, redirect, render_template, request, url_for
from flask_wtf import FlaskForm

from ...collecting import filling, templates
from ...collecting.slots import judge
from ...records import goals, knowledge, planning, reading
from ...records.clock import now_ms
from ...records.tables import Goal
from ...records.uuid7 import uuid7
from ...records.verdicts import Refused
from .. import here
from . import desk, lists, showing
from .forms import LineField, OneOf, SeenField
from .wants import PRIORITIES

NAMES = ("name", "note")


class SetForm(FlaskForm):
    name = LineField("Name", most=120)
    note = LineField("Note", most=2000)
    seen = SeenField()

    def wanted(self) -> dict:
        return {name: getattr(self, name).data for name in NAMES}


class WantsForm(FlaskForm):
    priority = OneOf("Priority", choices=PRIORITIES, default="usual")


def card_of(key) -> dict:
    """The set's whole card, or 404."""
    return here.book().card("goal", str(key)) or abort(404)


def made_from(text: str) -> str:
    """A template's text for people: “Dimes by type, with 2 answers of its own”."""
    name, *answers = text.split("; ")
    try:
        title = templates.find(knowledge.catalogue(), name).title
    except templates.BadTemplate:
        return text
    return f"{title}, with {showing.count(len(answers), 'answer')} other than usual" if answers else title


@desk.get("/sets")
def sets():
    return render_template("desk/sets.html", sets=reading.goals())


@desk.get("/sets/<uuid:goal>")
def one_set(goal):
    card = card_of(goal)
    wanted = {want["slot"]: want for want in reading.wants() if want.get("goal") == card["id"]}
    sought = planning.of_set(card["id"], g.settings, date.today())
    named = [*card["spare"], *(one["coin"] for one in card["unclear"])]
    return render_template(
        "desk/set.html", set=card, wanted=wanted, evidence={one.key: span(one.options) for one in sought}, coins={coin["id"]: coin for coin in reading.coins(named)},
        titles={slot["key"]: slot["title"] for slot in card["slots"]}, made_from=made_from(card["template"]),
    )  # fmt: skip


@desk.route("/sets/<uuid:goal>/edit", methods=["GET", "POST"])
def edit_set(goal):
    row = Goal.get_or_none(Goal.id == str(goal)) or abort(404)
    now = {name: getattr(row, name) for name in NAMES}
    form = SetForm(data=now | {"seen": now})
    if form.validate_on_submit() and lists.save("goal", row.id, form, "The set was changed.", kind="set"):
        return redirect(url_for("desk.one_set", goal=row.id))
    return render_template("desk/edit_set.html", form=form, set=row)


@desk.post("/sets/<uuid:goal>/drop")
def drop_set(goal):
    try:
        here.book().act("set.drop", {"goal": str(goal)})
        flash("The set is gone. Its coins and wants are as they were.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.sets"))


def candidates(row: dict) -> list[tuple[dict, str]]:
    """(card, why not) of the coins of the slot's types that it does not accept, or cannot yet; the most telling first."""
    (slot,) = goals.slots_of([row])
    pieces, _ = goals.stock(slot.types)
    found = [(piece, *judge(slot, piece, knowledge.catalogue().types)) for piece in pieces]
    left = {piece.id: why for piece, verdict, why in sorted(found, key=lambda one: (one[1] != "unclear", one[0].id)) if why}
    return [(coin, left[coin["id"]]) for coin in reading.coins(list(left)[:12])]


@desk.route("/sets/<uuid:goal>/wants", methods=["GET", "POST"])
def set_wants(goal):
    card = card_of(goal)
    taken = {want["slot"] for want in reading.wants() if want.get("goal") == card["id"]}
    free = [slot for slot in card["slots"] if slot["key"] not in taken]
    form = WantsForm()
    if form.validate_on_submit():
        chosen = set(request.form.getlist("slot"))
        acts = [("want.add", {"want": uuid7(now_ms()), "set": want_for(card["id"], slot, form.priority.data)})
                for slot in free if slot["key"] in chosen]  # fmt: skip
        if not acts:
            form.form_errors = ["Nothing is ticked; tick the slots that you look for."]
        else:
            try:
                here.book().act_all(acts)
                flash(f"{len(acts)} {'want is' if len(acts) == 1 else 'wants are'} on the list.")
                return redirect(url_for("desk.wants"))
            except Refused as problem:
                form.form_errors = [str(problem)]
    return render_template(
        "desk/set_wants.html", set=card, form=form, chosen=request.form.getlist("slot"), taken=len(taken),
        open=[slot for slot in free if "coin" not in slot], better=[slot for slot in free if slot.get("upgrade")],
    )  # fmt: skip


def want_for(goal: str, slot: dict, priority: str) -> dict:
    """The fields of a want that is for a slot; of a filled one, for what would be better than what is in it."""
    low, high = slot.get("upgrade") or (slot.get("grade_from", ""), slot.get("grade_to", ""))
    one = slot["types"][0]
    asks = [", ".join(slot.get("issues", ())), "proof" if slot.get("strike") == "proof" else "",
            "business strike" if slot.get("strike") == "business" else "", "without problems" if slot.get("problem_free") else "",
            f"Better than the {slot['coin']['grade']} in the slot" if slot.get("upgrade") else ""]  # fmt: skip
    said = "; ".join(filter(None, asks))
    return {"goal": goal, "slot": slot["key"], "types": slot["types"], "type": one, "denom": one.partition("/")[0],
            "title": slot["title"], "years": slot.get("years", ""), "grade_from": low, "grade_to": high,
            "priority": priority, "note": said[:1].upper() + said[1:]}  # fmt: skip


def span(options) -> list:
    """The least and the greatest grade of options, each at its cheapest; one where there is but one."""
    best = {}
    for option in options:
        if option.grade not in best or option.cents < best[option.grade].cents:
            best[option.grade] = option
    found = sorted(best.values(), key=lambda option: filling.number(option.grade, 0))
    return found[:1] + found[-1:] if len(found) > 1 else found
