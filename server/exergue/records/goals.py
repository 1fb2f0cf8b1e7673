"""Sets as cards: the stock of the book, the filling of a set by it, and which sets an entry concerns.

A filling is worked out whole whenever a coin of one of the set's types changed; nothing of it is stored but the card.
"""

import json

from ..collecting import filling, slots
from ..collecting.slots import Piece, Slot
from . import quick
from .knowledge import catalogue
from .tables import Goal

GONE = ("sold", "traded", "returned", "missing")  # no longer ours, or not to be found
MOST = 200  # spare and unclear coins that a card names; it says how many there are
_COINS = (
    'select id, type, year, mint, grade, variety, cost_left, "left", state from coin '
    'where type in ({}) and "left" > 0 and theirs = ? and state not in ({}) order by id'
)
_PHOTOS = "select coin, photo, side from photo where coin in ({}) order by coin, side <> 'obverse', fact"


def stock(types) -> tuple[list[Piece], dict[str, str]]:
    """(the coins of these types that are ours, wherever they are; {coin: state} of those that are elsewhere). A lot is one
    piece, at one piece's share of its cost."""
    pieces, elsewhere = [], {}
    for key, type_, year, mint, grade, variety, cost, left, state in _in(_COINS, sorted(types), False, *GONE, more=len(GONE)):
        pieces.append(Piece(key, type_, year, mint or "", grade or "", variety or "", None if cost is None else -(-cost // left)))
        if state != "in stock":
            elsewhere[key] = state
    return pieces, elsewhere


def _in(sql: str, keys: list[str], *values, more: int = 0):
    """Rows of a query over a list of keys, some hundreds at a time."""
    for start in range(0, len(keys), 500):
        some = keys[start : start + 500]
        marks = [", ".join("?" * len(some))] + ([", ".join("?" * more)] if more else [])
        yield from quick.rows(sql.format(*marks), *some, *values)


def slots_of(rows: list[dict]) -> list[Slot]:
    """The slots as they can be read; one that was taken under older rules and cannot accepts nothing, but has its place."""
    found = []
    for row in rows:
        try:
            found.append(slots.read(row))
        except slots.BadSlot:
            found.append(Slot(row["key"], row["title"], ()))
    return found


def fill(rows: list[dict]) -> tuple[list[Slot], filling.Filling, dict[str, Piece], dict[str, str]]:
    """(slots, what fills them, the coins that came into question, where those are that are elsewhere)."""
    made = slots_of(rows)
    pieces, elsewhere = stock({key for slot in made for key in slot.types})
    return made, filling.fill(made, pieces, catalogue().types), {piece.id: piece for piece in pieces}, elsewhere


def card(key: str):
    """The open part, and what it costs for the owner; shapes in DEVELOPERS.md, under Sets."""
    row = Goal.get_or_none(Goal.id == key)
    if row is None:
        return None
    made, found, pieces, elsewhere = fill(row.slots)
    photos: dict[str, str] = {}
    for coin, photo, _ in _in(_PHOTOS, sorted(found.filled.values())):
        photos.setdefault(coin, photo)
    lines = []
    for slot in made:
        line = slot.row()
        coin = found.filled.get(slot.key)
        if coin:
            line["coin"] = _coin(pieces[coin], photos.get(coin), elsewhere.get(coin))
        if slot.key in found.upgrades:
            line["upgrade"] = list(found.upgrades[slot.key])
        if slot.key in found.better:
            line["better"] = found.better[slot.key]
        lines.append(line)
    return {
        "id": row.id, "name": row.name, "template": row.template, "note": row.note, "slots": lines,
        "filled": len(found.filled), "open": len(found.open), "spare": list(found.spare[:MOST]), "spares": len(found.spare),
        "unclear": [{"slot": one.slot, "coin": one.coin, "why": one.why} for one in found.unclear[:MOST]],
    }, {
        "cost": found.cost, "unknown": found.unknown,
        "costs": {coin: pieces[coin].cost for coin in sorted(found.filled.values())},
    }  # fmt: skip


def _coin(piece: Piece, photo: str | None, state: str | None) -> dict:
    said = {"id": piece.id, "grade": piece.grade, "dateText": "no date" if piece.year is None else piece.issue}
    return said | ({"photo": photo} if photo else {}) | ({"state": state} if state else {})


class Waiting:
    """Sets whose cards are to be made again, each with the moment of the last entry that concerns it."""

    def __init__(self):
        self._at: dict[str, int] = {}
        self._sets: dict[str, list[str]] | None = None  # type → sets that accept it

    def changed(self, key: str, at: int) -> None:
        self._at[key] = at
        self._sets = None

    def coin(self, was: str | None, now: dict | None, at: int) -> None:
        """A coin's card was made again: `was` its open part as JSON, `now` the new one; None where there is none."""
        if self._sets is None:
            self._sets = {}
            for goal in Goal.select(Goal.id, Goal.slots):
                for type_ in sorted({type_ for row in goal.slots for type_ in row.get("types") or []}):
                    self._sets.setdefault(type_, []).append(goal.id)
        if self._sets:
            for type_ in {json.loads(was)["type"] if was else "", now["type"] if now else ""}:
                for goal in self._sets.get(type_, ()):
                    self._at[goal] = at

    def taken(self) -> list[tuple[str, int]]:
        """(set, moment) of all that wait, which wait no longer."""
        found, self._at = sorted(self._at.items()), {}
        return found
