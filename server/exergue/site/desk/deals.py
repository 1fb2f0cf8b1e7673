"""Deals: every entry about money and whereabouts in plain sentences, latest day first, and their undoing."""

from flask import flash, redirect, render_template, request, url_for

from ...labels import ids
from ...records import reading
from ...records.verdicts import REFUSED, Refused
from .. import here
from . import desk, words
from .coin import say
from .forms import text

PER = 50
MOST = 3  # coins of a deal that a list names
KINDS = {"purchase": "Purchases", "ticket": "Sales", "return": "Returns", "trade": "Trades", "acquired": "Inherited, given, found",
         "cost": "Later costs", "memo": "Memo and consignment", "away": "Away", "back": "Back", "lost": "Lost or stolen",
         "withdrawn": "How coins are held", "money": "Expenses and income"}  # fmt: skip
ALSO = {"ticket": ("ticket", "sale")}  # both are sales


def amount(line: dict) -> int | None:
    """What the entry is about in cents: the sum paid or received; None where no money moved."""
    body = line["body"]
    if line["kind"] in ("sale", "ticket"):
        return body["price"] + (body.get("tax") or {}).get("cents", 0)
    if line["kind"] in ("purchase", "cost"):
        return sum(cost["cents"] for cost in body["costs"])
    if line["kind"] == "return":
        return body["refund"] + (body.get("tax") or 0)
    if line["kind"] == "trade":
        return abs(body["boot"])
    return body.get("reimbursed") if line["kind"] == "lost" else body.get("cents")


def party(body: dict) -> str:
    return body.get("from") or body.get("to") or body.get("with") or ""


def coins_of(body: dict) -> list[str]:
    """IDs of the coins that an entry names."""
    rows = [row for name in ("bought", "sold", "coins", "out", "in") for row in body.get(name) or []]
    found = [body["coin"]] if body.get("coin") else []
    return found + [row["coin"] if isinstance(row, dict) else row for row in rows]


def named(lists: list[list[str]]) -> list[list[tuple[str, str]]]:
    """(ID, what it is) of the coins of each list; of one that left the book the ID as it is written on its label."""
    cards = {card["id"]: card for card in reading.coins([key for keys in lists for key in keys])}
    return [[(key, words.coin_line(cards[key]) if key in cards else ids.show(key)) for key in keys] for keys in lists]


def fits(line: dict, show: str, who: str) -> bool:
    named = party(line["body"]) if line["kind"] != "withdrawn" else ""
    return (not show or line["body"].get("show") == show) and who.casefold() in named.casefold()


@desk.get("/deals")
def deals():
    kind, show, who = (text(request.args.get(name)) for name in ("kind", "show", "who"))
    wanted = ALSO.get(kind, (kind,)) if kind in KINDS else (*KINDS, "sale")
    lines = [line for line in reading.of_kinds(wanted) if line["verdict"] != REFUSED and fits(line, show, who)]
    lines.sort(key=lambda line: (line["body"]["date"], line["seq"]), reverse=True)
    pages = max(1, -(-len(lines) // PER))
    page = min(max(1, request.args.get("page", 1, int)), pages)
    shown = lines[(page - 1) * PER : page * PER]
    keys = [coins_of(line["body"]) for line in shown]
    for line, of, first in zip(shown, keys, named([of[:MOST] for of in keys]), strict=True):
        line["said"], line["details"] = words.sentence(line)
        line["amount"] = amount(line)
        line["coins"], line["more"] = first, max(0, len(of) - MOST)
    return render_template("desk/deals.html", lines=shown, kinds=KINDS, kind=kind, show=show, who=who, shows=reading.shows(),
                           page=page, pages=pages, found=len(lines))  # fmt: skip


@desk.post("/deals/<uuid:fact>/undo")
def undo_deal(fact):
    try:
        say(here.book().act("void", {"of": str(fact), "reason": request.form.get("reason", "")[:500]}), "Undone.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.deals"))
