"""The plan for a budget: of a set or of the want list, for one show or several."""

from datetime import date

from flask import g, render_template, request
from flask_wtf import FlaskForm
from wtforms import BooleanField

from ...collecting.plan import IN_WORDS, Planner, changes
from ...money import cents
from ...records import planning, reading
from . import desk, plan_picture
from .forms import MoneyField, OneOf

MORE = 10_000  # one more $100, in cents
SHOWS = ("budget", "second", "third", "fourth")


class PlanForm(FlaskForm):
    set = OneOf("What for")
    budget = MoneyField("Budget")
    second = MoneyField("Second show")
    third = MoneyField("Third show")
    fourth = MoneyField("Fourth show")
    upgrades = BooleanField("Better coins for filled slots, too")

    class Meta:
        csrf = False  # it asks, and changes nothing

    def budgets(self) -> list[int]:
        """One for each show, up to the last that is given."""
        given = [getattr(self, name).data for name in SHOWS]
        while given and given[-1] is None:
            given.pop()
        return [amount or 0 for amount in given]


@desk.get("/plan")
def plan():
    sets = reading.goals()
    asked = request.args.copy()
    if "budget" not in asked and (planned := next_budget(date.today())):
        asked["budget"] = cents.plain(planned, g.currency)
    form = PlanForm(asked)
    form.set.offer([("", "The want list"), *((one["id"], one["name"] or "A set") for one in sets)])
    fits = form.validate()
    budgets = form.budgets() if fits else []
    said = answer(form.set.data, budgets, form.upgrades.data) if budgets else {}
    return render_template("desk/plan.html", form=form, words=IN_WORDS, what=planning.bought, **said)


def next_budget(today: date) -> int | None:
    """Cents that are left of the budget of the next show, or the one that is on; None where it has none."""
    coming = [show for show in reading.shows() if (show["ends"] or show["starts"]) >= today.isoformat()]
    left = coming[-1]["own"].get("left") if coming else None
    return left if left is None else max(left, 0)


def answer(key: str, budgets: list[int], upgrades: bool) -> dict:
    """For plan.html: the plan for all the money, what more would buy, the shows one by one, the picture."""
    today = date.today()
    sought = planning.of_set(key, g.settings, today, upgrades) if key else planning.of_wants(g.settings, today)
    planner, total = Planner(sought), sum(budgets)
    whole, more = planner.plan(total), planner.plan(total + MORE)
    steps = planner.steps()
    return {
        "plan": whole, "shows": planner.over_shows(budgets) if len(budgets) > 1 else [], "sought": sought,
        "more": more, "changes": changes(whole, more), "next": next((amount for amount, _ in steps if amount > total), None),
        "picture": plan_picture.drawn(steps, total, total + MORE, g.currency), "extra": MORE,
    }  # fmt: skip
