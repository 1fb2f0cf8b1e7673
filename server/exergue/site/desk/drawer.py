"""The cash drawer of a show, counted by denomination."""

from flask import flash, g, redirect, render_template, request, url_for

from ...money import cents
from ...records import show_money
from ...records.counting import settled
from ...records.show_close import cash_key
from ...records.verdicts import Refused
from ...shows.drawer import Compared, denominations
from .. import here
from . import desk
from .coin import say
from .floor import show_or_404, today

FREE = 4  # rows for denominations that the data does not have
MOST = 100_000


@desk.route("/shows/<uuid:show>/drawer", methods=["GET", "POST"])
def drawer(show):
    row = show_or_404(show)
    problems: dict[str, str] = {}
    if request.method == "POST":
        pieces = _typed(problems)
        if not problems:
            try:
                say(here.book().act("drawer", {"show": row.id, "date": today(), "pieces": pieces}), "The drawer is counted.")
                return redirect(url_for("desk.drawer", show=row.id))
            except Refused as problem:
                problems["form"] = str(problem)
    paid = show_money.paid(row.id, row.ends or row.starts)
    last = show_money.drawer(row.id)
    expected = (row.float or 0) + show_money.cash(paid)
    page = render_template(
        "desk/show_drawer.html", show=row, rows=denominations(g.currency), free=range(FREE), problems=problems, expected=expected,
        last=last, done=Compared(expected, last["cents"]) if last else None, explained=settled().get(cash_key(row.id)),
    )  # fmt: skip
    return page, 400 if problems else 200


def _typed(problems: dict[str, str]) -> list[dict]:
    """[{cents, number}] of the rows in which a number was typed."""
    found = []
    names = [(f"{one.kind}-{one.cents}", one.cents) for one in denominations(g.currency)]
    for name, worth in names:
        number = _number(name, problems)
        if number:
            found.append({"cents": worth, "number": number})
    for n in range(FREE):
        number, said = _number(f"free-{n}", problems), request.form.get(f"worth-{n}", "").strip()
        try:
            worth = cents.parse(said, g.currency) if said else None
        except cents.BadAmount as problem:
            problems[f"worth-{n}"] = str(problem)
            continue
        if number and not worth:
            problems[f"worth-{n}"] = "Give what one of these is worth."
        elif number and worth < 0:
            problems[f"worth-{n}"] = "A worth may not be below zero."
        elif number:
            found.append({"cents": worth, "number": number})
    return found


def _number(name: str, problems: dict[str, str]) -> int:
    said = request.form.get(name, "").strip()
    if not said:
        return 0
    if not (said.isascii() and said.isdigit() and int(said) <= MOST):
        problems[name] = f"“{said[:20]}” is no number of coins or notes; give a whole number."
        return 0
    return int(said)


@desk.post("/shows/<uuid:show>/drawer/settle")
def settle_cash(show):
    row = show_or_404(show)
    note = request.form.get("note", "").strip()[:500]
    if not note:
        flash("Say in a few words how the difference came about.", "bad")
    else:
        say(here.book().act("settle", {"show": row.id, "key": cash_key(row.id), "note": note}), "It was recorded.")
    return redirect(url_for("desk.drawer", show=row.id))
