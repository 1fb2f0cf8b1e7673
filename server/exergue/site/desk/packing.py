"""The pack list of a show: which coins go, in which box."""

from flask import flash, redirect, render_template, request, url_for

from ...labels import ids
from ...records import quick, reading
from ...records.verdicts import Refused
from .. import here
from . import desk
from .coin import say
from .floor import show_or_404

MOST = 500  # coins in one entry
LISTED = 300  # coins of a box on the page


@desk.route("/shows/<uuid:show>/pack", methods=["GET", "POST"])
def pack(show):
    row = show_or_404(show)
    typed, problem = "", ""
    if request.method == "POST":
        typed = request.form.get("labels", "")
        coins, problem = _asked(typed)
        if not problem:
            _record(row.id, coins, request.form.get("box", "").strip()[:60], request.form.get("do") == "out")
            return redirect(url_for("desk.pack", show=row.id))
    page = render_template("desk/show_pack.html", show=row, boxes=boxes(row.id), places=reading.places(), typed=typed, problem=problem)
    return page, 400 if problem else 200


def _asked(typed: str) -> tuple[list[str], str]:
    """(coins, what is wrong): those ticked, those typed, all of a place."""
    coins, bad = ids.parse_all(" ".join([*request.form.getlist("coin"), typed]))
    place = request.form.get("place", "")
    if place:
        coins += [coin for coin in reading.coin_ids(state="in stock", place=place) if coin not in coins]
    if bad:
        return [], bad[0]
    return coins, "" if coins else "Say which coins: scan or type their labels, or choose a place."


def _record(show: str, coins: list[str], box: str, out: bool) -> None:
    parts = [coins[start : start + MOST] for start in range(0, len(coins), MOST)]
    body = {"show": show, "undo": True} if out else {"show": show, "box": box}
    try:
        verdicts = here.book().act_all([("pack", body | {"coins": part}) for part in parts])
    except Refused as problem:
        flash(str(problem), "bad")
    else:
        say(verdicts[-1], f"{len(coins):,} {'coin' if len(coins) == 1 else 'coins'} {'taken out' if out else 'packed'}.")


def boxes(show: str) -> list[dict]:
    """[{box, many, coins: cards of the first}] of what is packed, by box."""
    found: dict[str, list[str]] = {}
    for box, coin in quick.rows("select box, coin from packed where show = ? order by box, coin", show):
        found.setdefault(box, []).append(coin)
    return [{"box": box, "many": len(coins), "coins": reading.coins(coins[:LISTED])} for box, coins in found.items()]
