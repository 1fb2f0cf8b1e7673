"""The estate sheet: for those who find the coins one day. What each is, where it is, what it cost, whom to ask."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from .model import Column, Report, Section
from .words import counted, known_sum

CAUTION = (
    "Before anything is sold: have it looked at by an expert who is paid for the opinion and does not want to buy."
    " Never clean a coin, and leave it in its holder. For tax, the value on the day of death matters: ask a licensed"
    " preparer for how it is to be shown."
)
COLUMNS = (
    Column("coin", "ID"), Column("what", "What it is"), Column("since", "Since", "date"), Column("pieces", "Pieces", "int"),
    Column("cost", "What it cost", "money"), Column("low", "Evidence from", "money"), Column("high", "to", "money"),
    Column("rests_on", "What the evidence is"), Column("ask", "Whom to ask"),
)  # fmt: skip
CONTACTS = (Column("name", "Who"), Column("matter", "For what"), Column("reach", "How to reach"))


@dataclass(frozen=True)
class Piece:
    """One coin or lot. `low` and `high` are what recorded sales say (None: no evidence); amounts in minor units.

    `place` is where it lies, or who has it. `expert`: the owner's word on whom to ask for this one.
    """

    coin: str
    title: str
    grade: str = ""
    note: str = ""
    place: str = ""
    since: date | None = None
    pieces: int = 1
    cost: int | None = None
    low: int | None = None
    high: int | None = None
    rests_on: str = ""
    expert: str = ""


@dataclass(frozen=True)
class Contact:
    """Somebody who can help: an expert, an heir, a preparer, the bank with the box."""

    name: str
    matter: str
    reach: str


def report(pieces: Iterable[Piece], on: date, owner: str = "", contacts: Sequence[Contact] = ()) -> Report:
    """Place by place, so that it can be walked; the owner's contacts first."""
    places: dict[str, list[Piece]] = {}
    for piece in pieces:
        places.setdefault(piece.place.strip() or "Place not noted", []).append(piece)
    sections = [Section("Who can help", [vars(contact) for contact in contacts], columns=CONTACTS)] if contacts else []
    for place in sorted(places, key=lambda name: (name == "Place not noted", name.casefold())):
        sections.append(Section(place[:1].upper() + place[1:], [_row(piece) for piece in places[place]], [_total("In this place", places[place])]))
    everything = [piece for part in places.values() for piece in part]
    if len(places) > 1:
        sections.append(Section("Everywhere", [], [_total("All together", everything)]))
    return Report(
        title="Estate sheet",
        subtitle=" · ".join(filter(None, (owner, on.isoformat(), counted(sum(p.pieces for p in everything), "coin")))),
        columns=COLUMNS,
        sections=sections or [Section("Coins", [])],
        caution=CAUTION,
        notes=[
            "The evidence is recorded sales of like coins, from the lower to the higher end. It is no appraisal.",
            "What has no cost or no evidence here is left out of the sums, not taken as worthless.",
        ],
    )


def _row(piece: Piece) -> dict:
    what = "\n".join(filter(None, (" · ".join(filter(None, (piece.title, piece.grade))), piece.note)))
    evidence = piece.rests_on if piece.low is not None or piece.high is not None else "no evidence"
    return {**vars(piece), "what": what, "rests_on": evidence, "ask": piece.expert or "an expert, not a buyer"}


def _total(name: str, pieces: list[Piece]) -> dict:
    return {
        "what": name,
        "pieces": sum(piece.pieces for piece in pieces),
        **{key: known_sum(getattr(piece, key) for piece in pieces) for key in ("cost", "low", "high")},
    }
