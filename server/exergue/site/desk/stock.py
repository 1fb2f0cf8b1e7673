"""The stock list: search, filters, sorting, pages; and what can be done with a selection."""

from flask import flash, redirect, render_template, request, url_for

from ...coins import denominations, grades
from ...labels import ids
from ...records import reading
from ...records.states import STATES
from ...records.verdicts import Refused
from .. import here
from . import desk
from .forms import text

ORDERS = {"what": "What it is", "newest": "Changed last", "date": "Date and mint", "grade": "Grade, best first",
          "ask": "Asking price", "cost": "Cost", "place": "Place", "id": "ID"}  # fmt: skip
PER = (50, 100, 200)
TO_DEALS = {"sell": ("desk.new_ticket", {}), "cost": ("desk.new_cost", {}), "away": ("desk.move", {"way": "away"}),
            "back": ("desk.move", {"way": "back"})}  # fmt: skip


def filters(args) -> tuple[dict, list[str]]:
    """What the address asks for, as reading.stock takes it, and what could not be understood."""
    wanted, problems = {"text": text(args.get("q"))}, []
    for name in ("denom", "place", "type"):
        wanted[name] = args.get(name, "")
    state = args.get("state") or STATES[0]
    wanted["state"] = "" if state == "all" else state
    for name, which in (("grade_from", min), ("grade_to", max)):
        said = text(args.get(name))
        if said:
            try:
                wanted[name] = bound(said, which)
            except grades.BadGrade as problem:
                problems.append(str(problem))
    return wanted, problems


def bound(said: str, which) -> int:
    """The number at the lower (min) or upper (max) end of a grade as typed: “VF” reaches from 20 to 35."""
    step = said.strip().upper()
    numbers = [one.number for one in grades.ladder() if str(one).partition("-")[0] == step and one.number is not None]
    return which(numbers) if numbers else grades.parse(said).number


def one_coin(said: str) -> str | None:
    """The ID, when the search box holds exactly one that the book has."""
    try:
        found = ids.parse(said)
    except ids.BadLabel:
        return None
    return found if here.book().card("coin", found) else None


@desk.get("/stock")
def stock():
    found = one_coin(request.args.get("q", ""))
    if found:
        return redirect(url_for("desk.coin", coin_id=found))
    wanted, problems = filters(request.args)
    order = request.args.get("order", "what")
    per = request.args.get("per", PER[0], int)
    counts = reading.counts()
    page = reading.stock(order=order, page=request.args.get("page", 1, int), per=per if per in PER else PER[0], **wanted)
    return render_template(
        "desk/stock.html", page=page, order=order, orders=ORDERS, states=STATES, per=per, pers=PER,
        denoms=[denominations.get(key) for key in known_denominations()], places=reading.places(),
        problems=problems, filtered=len([value for value in wanted.values() if value]) > 1, total=counts["coins"],
        by_state=counts["states"], state_now=wanted["state"] or "all",
    )  # fmt: skip


def known_denominations() -> list[str]:
    held = set(reading.denominations())
    return [key for key in denominations.ALL if key in held]


@desk.post("/stock/selection")
def selection():
    chosen = [key for key in request.form.getlist("coin") if here.book().card("coin", key)]
    back = request.form.get("back", "")
    back = back if back.startswith("/desk/stock") else url_for("desk.stock")
    if not chosen:
        flash("Tick at least one coin first.", "warn")
        return redirect(back)
    if request.form.get("do") == "labels":
        return redirect(url_for("desk.labels", coin=chosen))
    if request.form.get("do") in TO_DEALS:
        page, way = TO_DEALS[request.form["do"]]
        return redirect(url_for(page, coin=chosen, **way))
    place = text(request.form.get("place"))
    acts = []
    for card in reading.coins(chosen):
        if card["place"] != place:
            acts.append(("coin.edit", {"coin": card["id"], "base": {"place": card["place"]}, "set": {"place": place}}))
    try:
        if acts:
            here.book().act_all(acts)
    except Refused as problem:
        flash(str(problem), "bad")
    else:
        where = f"now in {place}" if place else "without a place"
        flash(f"{len(chosen)} {'coin is' if len(chosen) == 1 else 'coins are'} {where}.")
    return redirect(back)
