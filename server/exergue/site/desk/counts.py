"""Rounds of counting: entering labels at the desk, the differences with their stories, and what settles them."""

from flask import abort, flash, redirect, render_template, request, url_for

from ...labels import ids
from ...records import counting, reading
from ...records.clock import now_ms
from ...records.uuid7 import uuid7
from ...records.verdicts import Refused
from ...shows.stories import KINDS
from .. import here
from . import desk
from .coin import say
from .floor import clock, show_or_404, today

PART = 200  # labels in one entry
MOST = 40  # differences on one page


@desk.get("/counts", defaults={"show": None})
@desk.get("/shows/<uuid:show>/count")
def count(show):
    row = show_or_404(show) if show else None
    rounds = counting.rounds(row and row.id)
    chosen = request.args.get("round", rounds[-1]["id"] if rounds else "")
    if chosen and chosen not in [one["id"] for one in rounds]:
        abort(404, "There is no such round of counting.")
    return _page(row, rounds, chosen)


def _page(row, rounds, chosen, typed="", problem=""):
    done = counting.reconciled(row and row.id, chosen, today(), clock) if chosen else None
    told = done.differences if done else []
    told = sorted(told, key=lambda one: (not one.open, list(KINDS).index(one.kind), one.coin))
    cards = {card["id"]: card for card in reading.coins([one.coin for one in told[:MOST]])}
    page = render_template(
        "desk/show_count.html", show=row, rounds=rounds, chosen=chosen, done=done, told=told[:MOST], more=max(0, len(told) - MOST),
        cards=cards, kinds=KINDS, links=links, shown=ids.show, places=reading.places(), typed=typed, problem=problem,
    )  # fmt: skip
    return page, 400 if problem else 200


@desk.post("/counts", defaults={"show": None})
@desk.post("/shows/<uuid:show>/count")
def add_to_count(show):
    row = show_or_404(show) if show else None
    typed = request.form.get("labels", "")
    rounds = counting.rounds(row and row.id)
    chosen = request.form.get("round", "")
    known = chosen in [one["id"] for one in rounds]
    good, bad = ids.parse_all(typed)
    if bad or not good:
        problem = bad[0] if bad else "Scan or type the labels that are there."
        return _page(row, rounds, chosen if known else "", typed, problem)
    body = {"count": chosen if known else uuid7(now_ms()), "place": request.form.get("at", "").strip()[:60]} | ({"show": row.id} if row else {})
    parts = [good[start : start + PART] for start in range(0, len(good), PART)]
    try:
        here.book().act_all([("count", body | {"seen": [{"coin": coin, "how": "hand"} for coin in part]}) for part in parts])
        flash(f"{len(good):,} {'label' if len(good) == 1 else 'labels'} counted.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(_address(row, body["count"]))


def _address(row, round_id: str) -> str:
    return url_for("desk.count", show=row.id, round=round_id) if row else url_for("desk.count", round=round_id)


@desk.post("/counts/settle", defaults={"show": None})
@desk.post("/shows/<uuid:show>/count/settle")
def settle(show):
    """Record the fact that settles a difference; it is found again first, for it may have settled itself meanwhile."""
    row = show_or_404(show) if show else None
    round_id, key = request.form.get("round", ""), request.form.get("key", "")
    if round_id not in [one["id"] for one in counting.rounds(row and row.id)]:
        abort(404, "There is no such round of counting.")
    told = counting.reconciled(row and row.id, round_id, today(), clock).differences
    actions = [action for one in told if one.key == key for action in one.actions if action.name == request.form.get("do")]
    if not actions:
        flash("This difference is settled already, or has another story now; look at it again.", "warn")
        return redirect(_address(row, round_id))
    action, body = actions[0], actions[0].body
    if action.name == "settle":
        note = request.form.get("note", "").strip()[:500]
        if not note:
            flash("Say in a few words how the difference came about.", "bad")
            return redirect(_address(row, round_id))
        body = body | {"note": note}
    try:
        say(here.book().act(action.kind, body), "It was recorded.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(_address(row, round_id))


def links(action, coin: str) -> str:
    """The form of an action that needs more than a press."""
    if action.name == "sale":
        return url_for("desk.sell", coin_id=coin)
    if action.name == "return":
        return url_for("desk.return_sale", fact=action.body["of"])
    return url_for("desk.new_purchase")
