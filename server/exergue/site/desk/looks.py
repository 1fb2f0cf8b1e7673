"""Needs a look: what could not be merged, both versions side by side, and the decision."""

from flask import flash, redirect, render_template, request, url_for

from ...labels import ids
from ...records import reading
from ...records.verdicts import Refused
from .. import here
from . import desk, floor, showing, words
from .coin import say

TITLES = {
    "edit": "Edited twice", "check": "Looked at twice, with different answers", "sold_twice": "Sold twice",
    "label_used_twice": "One label, two coins", "dates": "Dates that contradict", "unknown_kind": "An entry that this desk does not know",
    "fault": "An entry that could not be taken in",
}  # fmt: skip


@desk.get("/looks")
def looks():
    return render_template("desk/looks.html", looks=[describe(look) for look in reading.looks()], titles=TITLES,
                           waiting=floor.waiting())


def describe(look: dict) -> dict:
    """A look with its subject in words and its versions: [{name, value, details, choice, button}]."""
    kind, _, key = look["subject"].partition("/")
    return look | {"title": TITLES[look["kind"]], "subject": subject(kind, key), "link": link(kind, key, look["line"]),
                   "field": field_name(look), "versions": VERSIONS[look["kind"]](look, key)}  # fmt: skip


def subject(kind: str, key: str) -> str:
    card = here.book().card(kind, key)
    if kind == "coin":
        return f"{card['title']}, {card['dateText']} ({ids.show(key)})" if card else ids.show(key)
    if kind in ("want", "show", "goal", "contact", "sighting"):
        return (card or {}).get("title") or (card or {}).get("name") or f"A {'set' if kind == 'goal' else kind}"
    if kind == "setting":
        return f"The {words.SETTINGS.get(key, key)}"
    return "An entry"


def link(kind: str, key: str, line: dict | None) -> str | None:
    """The page of the coin or the set that it is about; of a want, or of an entry as a whole, the set that it is for."""
    if kind == "coin":
        return url_for("desk.coin", coin_id=key) if here.book().card("coin", key) else None
    about = here.book().card("want", key) if kind == "want" else line["body"] if kind == "fact" and line else {}
    goal = key if kind == "goal" else (about or {}).get("goal")
    return url_for("desk.one_set", goal=goal) if isinstance(goal, str) and here.book().card("goal", goal) else None


def field_name(look: dict) -> str:
    field = look["offer"].get("field", "")
    return words.FIELDS.get(field, field.replace("-", " ")) if look["kind"] in ("edit", "check") else ""


def who(line: dict | None) -> str:
    return f"{line['device_name']}, {showing.moment(line['when_ms'])}" if line else ""


def _version(name: str, value: str, choice: str, button: str, details=(), by: str = "") -> dict:
    return {"name": name, "value": value, "choice": choice, "button": button, "details": list(details), "by": by}


def _edit(look: dict, key: str) -> list[dict]:
    offer = look["offer"]
    return [
        _version("Stands now", words.value(offer["field"], offer["present"]), "keep", "Keep this"),
        _version("The other version", words.value(offer["field"], offer["proposed"]), "take", "Take this", by=who(look["line"])),
    ]


def _check(look: dict, key: str) -> list[dict]:
    offer = look["offer"]
    return [
        _version("Stands now", words.ANSWERS[offer["present"]], "keep", "Keep this"),
        _version("The other answer", words.ANSWERS[offer["proposed"]], "take", "Take this",
                 [offer["note"]] if offer.get("note") else [], who(look["line"])),
    ]  # fmt: skip


def _sold_twice(look: dict, key: str) -> list[dict]:
    versions = []
    for choice, name in (("first", "First sale"), ("second", "Second sale")):
        line = reading.fact(look["offer"][choice])
        said, details = words.sentence(line) if line else ("A sale", [])
        versions.append(_version(name, said, choice, f"The {choice} one stands", details, who(line)))
    return versions


def _label_used_twice(look: dict, key: str) -> list[dict]:
    card = here.book().card("coin", key)
    offer = look["offer"]
    rows = reading.waiting_rows(offer) if "purchase" in offer else [{"coin": key, "set": offer["set"]}]
    later = next((row.get("set") or {} for row in rows if row["coin"] == key), {})
    first = words.coin_line(card) if card else "No coin: the one that had it has left the book"
    button = "Give it a new label" if card else "Take it in"
    waits = _version("Came later with the same label", words.coin_line(later), "new_id", button, by=who(look["line"]))
    return [
        _version("Has the label now", first, "drop", "Leave the later coin out"),
        waits | {"label": "" if card else ids.show(key)},  # freed: it may keep what it carries
    ]


def _dates(look: dict, key: str) -> list[dict]:
    offer = look["offer"]
    said, details = words.sentence(look["line"]) if look["line"] else ("An entry", [])
    advice = "Is the date wrong? Undo the entry on the coin’s page, and enter it again with its right date."
    return [_version(f"Counts from {showing.day(offer['day'])}", said, "keep", "Leave it so", [offer["why"], *details, advice], who(look["line"]))]


def _kept(look: dict, key: str) -> list[dict]:
    said = words.sentence(look["line"])[0] if look["line"] else "An entry"
    return [_version("Kept in the journal", said, "drop", "Put it aside", by=who(look["line"]))]


VERSIONS = {"edit": _edit, "check": _check, "sold_twice": _sold_twice, "label_used_twice": _label_used_twice,
            "dates": _dates, "unknown_kind": _kept, "fault": _kept}  # fmt: skip


@desk.post("/looks/decide")
def decide():
    body = {"look": request.form.get("look", ""), "choice": request.form.get("choice", "")}
    if body["choice"] == "new_id":
        typed = request.form.get("coin", "").strip()
        try:
            body["coin"] = ids.parse(typed) if typed else ids.new_id()
        except ids.BadLabel as problem:
            flash(str(problem), "bad")
            return redirect(url_for("desk.looks"))
    try:
        verdict = here.book().act("decide", body)
    except Refused as problem:
        flash(str(problem), "bad")
    else:
        label = f" Its new label is {ids.show(body['coin'])}; print it under Labels." if "coin" in body else ""
        say(verdict, f"Decided.{label}")
    return redirect(url_for("desk.looks"))
