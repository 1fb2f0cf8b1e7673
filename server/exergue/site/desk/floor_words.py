"""Entries of the show floor in plain words: (what was done, details) of each."""

from ...labels import ids
from ...records import reading
from . import showing


def _show(body: dict) -> str:
    found = next((show["name"] for show in reading.shows() if show["id"] == body.get("show")), "")
    return found or "a show"


def _pack(body: dict):
    many, box = showing.count(len(body["coins"]), "coin"), body.get("box")
    if body.get("undo"):
        return f"Took {many} out of what goes to {_show(body)}", []
    return f"Packed {many} for {_show(body)}", [f"Into {box}"] if box else []


def _count(body: dict):
    where = f" at {_show(body)}" if body.get("show") else ""
    labels = ", ".join(ids.show(row["coin"]) for row in body["seen"][:5])
    more = f" and {len(body['seen']) - 5} more" if len(body["seen"]) > 5 else ""
    place = [f"In {body['place']}"] if body.get("place") else []
    return f"Counted {showing.count(len(body['seen']), 'label')}{where}", [f"{labels}{more}", *place]


def _drawer(body: dict):
    total = sum(row["cents"] * row["number"] for row in body["pieces"])
    lines = [f"{row['number']:,} × {showing.money(row['cents'])}" for row in body["pieces"]]
    return f"Counted the cash drawer at {_show(body)}: {showing.money(total)}", lines


SAID = {
    "pack": _pack,
    "count": _count,
    "drawer": _drawer,
    "show.close": lambda b: (f"Closed {_show(b)} on {showing.day(b['date'])}", []),
    "show.open": lambda b: (f"Opened {_show(b)} again", []),
    "settle": lambda b: ("Explained a difference", [b["note"]] if b.get("note") else []),
    "contact.add": lambda b: (f"Entered the contact {b['set'].get('name') or 'without a name'}", []),
    "contact.drop": lambda b: ("Took a contact off the list", [b["reason"]] if b.get("reason") else []),
    "sighting.drop": lambda b: ("Took a sighting off the list", [b["reason"]] if b.get("reason") else []),
}
