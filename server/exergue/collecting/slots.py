"""A slot of a set: what it accepts, and whether a coin serves.

`judge` answers yes, no, or *unclear*: a coin of which too little is said is never guessed into a slot.
"""

import re
from dataclasses import asdict, dataclass, fields
from functools import lru_cache

from ..coins import grades, years
from ..coins.ladder import STEP_OF
from ..coins.model import Type

YES, NO, UNCLEAR = "yes", "no", "unclear"
KEY_LENGTH = 60
REST = "!"  # before a subtype's key: all of the type but that
_RUNG = {number: at for at, number in enumerate(sorted(STEP_OF))}


class BadSlot(ValueError):
    """A slot that cannot be kept; the message is a sentence that names the slot."""


@dataclass(frozen=True)
class Slot:
    """One place of a set. Whatever is empty asks nothing.

    types: catalogue keys, any of which serves; years: “1800,1802-1808”; mints: mint marks, "" for none; issues: certain
    dates and mints only, written “1909-S” or, without a mint mark, “1909”; subtype: key of a division of the one type
    (with "!" in front: all but that); grade_from, grade_to: the window, both ends in; strike: business, proof or any.
    """

    key: str
    title: str
    types: tuple[str, ...]
    years: str = ""
    mints: tuple[str, ...] = ()
    issues: tuple[str, ...] = ()
    subtype: str = ""
    grade_from: str = ""
    grade_to: str = ""
    strike: str = "any"
    problem_free: bool = False
    note: str = ""

    def row(self) -> dict:
        """As a fact holds it: without what is empty or usual."""
        usual = {"strike": "any"}
        said = {name: list(value) if isinstance(value, tuple) else value for name, value in asdict(self).items()}
        return {name: value for name, value in said.items() if value and usual.get(name) != value}


@dataclass(frozen=True)
class Piece:
    """A coin as far as a set looks at it. `cost` in cents, all in, None where nobody knows it."""

    id: str
    type: str
    year: int | None = None
    mint: str = ""
    grade: str = ""
    variety: str = ""
    cost: int | None = None

    @property
    def issue(self) -> str:
        return f"{self.year}-{self.mint}" if self.mint else str(self.year)


def read(row: dict) -> Slot:
    """A slot from a fact's row. Raises BadSlot for years, grades or a window that make no sense."""
    known = {field.name for field in fields(Slot)}
    given = {name: tuple(value) if isinstance(value, list) else value for name, value in row.items() if name in known and value}
    slot = Slot(**{"title": "", "types": (), **given})
    where = f"The slot “{slot.title or slot.key}”"
    if not slot.types:
        raise BadSlot(f"{where} accepts no type; name at least one.")
    try:
        years.parse(slot.years) if slot.years else ()
        low, high = (number(text, end) for text, end in ((slot.grade_from, 1), (slot.grade_to, 70)))
    except ValueError as problem:
        raise BadSlot(f"{where}: {problem}") from None
    if low > high:
        raise BadSlot(f"{where} asks for {slot.grade_from} to {slot.grade_to}; give the lower grade first.")
    if slot.subtype and len(slot.types) > 1:
        raise BadSlot(f"{where} names a division of a type, so it can accept that one type only.")
    return slot


def number(text: str, empty: int) -> int:
    """The number of a written grade, or `empty`."""
    return parsed(text).number if text else empty


@lru_cache(maxsize=4096)
def parsed(text: str) -> grades.Grade:
    """A written grade; a book writes the same few again and again. Raises grades.BadGrade."""
    return grades.parse(text)


def fit(grade: str) -> int:
    """How well a grade fits where any of the window serves: higher on the ladder first, then without a problem, then
    with a plus. 0 for a coin without a grade. Steps of the ladder count alike, however many numbers lie between."""
    if not grade:
        return 0
    found = parsed(grade)
    return 4 * (1 + _RUNG.get(found.number, 0)) + 2 * (not (found.details or found.net)) + found.plus


def judge(slot: Slot, piece: Piece, types: dict[str, Type]) -> tuple[str, str]:
    """(yes, no or unclear; why not, as the end of a sentence about the coin)."""
    if piece.type not in slot.types:
        return NO, "is of another type"
    unclear = []
    for verdict, why in (_date(slot, piece), _division(slot, piece, types), _grade(slot, piece)):
        if verdict == NO:
            return NO, why
        if verdict == UNCLEAR:
            unclear.append(why)
    return (UNCLEAR, " and ".join(unclear)) if unclear else (YES, "")


@lru_cache(maxsize=1024)
def struck(text: str) -> tuple[int, ...]:
    """The years of a slot's text, read once."""
    return years.parse(text)


def _date(slot: Slot, piece: Piece) -> tuple[str, str]:
    if (slot.years or slot.issues) and piece.year is None:
        return UNCLEAR, "has no date entered"
    if slot.years and piece.year not in struck(slot.years):
        return NO, f"is dated {piece.year}, and the slot asks for {slot.years}"
    if slot.issues and piece.issue not in slot.issues:
        return NO, f"is a {piece.issue}, and the slot asks for {' or '.join(slot.issues)}"
    if slot.mints and piece.mint not in slot.mints:
        return NO, f"bears {piece.mint or 'no mint mark'}"
    return YES, ""


def _grade(slot: Slot, piece: Piece) -> tuple[str, str]:
    asked = slot.grade_from or slot.grade_to or slot.strike != "any" or slot.problem_free
    if not asked:
        return YES, ""
    if not piece.grade:
        return UNCLEAR, "has no grade entered"
    found = parsed(piece.grade)
    if not number(slot.grade_from, 1) <= found.number <= number(slot.grade_to, 70):
        side = "below" if found.number < number(slot.grade_from, 1) else "above"
        return NO, f"is {piece.grade}, {side} the slot’s window"
    if slot.strike != "any" and (found.prefix == "PF") != (slot.strike == "proof"):
        return NO, "is a proof" if found.prefix == "PF" else "is no proof"
    if slot.strike != "any" and found.prefix == "SP":
        return NO, "is a specimen, neither business strike nor proof"
    if slot.problem_free and (found.details or found.net):
        return NO, "has a problem"
    return YES, ""


def _division(slot: Slot, piece: Piece, types: dict[str, Type]) -> tuple[str, str]:
    of = types.get(piece.type)
    if not slot.subtype or of is None:
        return YES, ""
    wanted = slot.subtype.removeprefix(REST)
    found = division(of, siblings(of, wanted), piece)
    if found is None:
        return UNCLEAR, "does not say which variety it is"
    is_it = found == wanted
    return (YES, "") if is_it != slot.subtype.startswith(REST) else (NO, "is of another division of the type")


def siblings(of: Type, key: str) -> tuple[str, ...]:
    """The subtypes among which a coin is told apart, where `key` is one of them: those that a question splits by."""
    return next((q.splits for q in of.questions if key in q.splits), (key,))


def division(of: Type, among: tuple[str, ...], piece: Piece) -> str | None:
    """Which of these subtypes the coin is: by the variety written of it, else by its date where that decides.

    "" : none of them; None: cannot be told. A variety names the subtype of which it holds most words.
    """
    held = [one for one in of.subtypes if one.key in among]
    said = _words(piece.variety)
    score = {one.key: max((len(w) for w in (_words(one.name), _words(one.key)) if w and w <= said), default=0) for one in held}
    best = max(score.values(), default=0)
    named = [key for key, points in score.items() if points == best]
    if best:
        return named[0] if len(named) == 1 else None
    if piece.year is None:
        return None
    dated = [one for one in held if piece.year in one.years]
    if len(dated) == 1 and (len(held) > 1 or dated[0].whole):
        return dated[0].key
    return "" if not dated else None


def _words(text: str) -> set[str]:
    return set(re.findall(r"[a-z0-9]+", text.lower().replace(".", "")))
