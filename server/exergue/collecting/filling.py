"""What a set has: which coin fills which slot, what would be better, what is open, what is spare.

The answer is the one best assignment of assign.py, with `slots.fit` as the fit: as many slots filled as can be, then the
best grades, then the least money tied up. A coin fills one slot of a set.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..coins import grades
from ..coins.ladder import STEPS, TOP
from ..coins.model import Type
from . import assign
from .slots import UNCLEAR, YES, Piece, Slot, fit, judge, number, parsed

_USUAL = sorted(number for step in STEPS.values() for number in step.numbers)
_STEP = {number: key for key, step in STEPS.items() for number in step.numbers}


@dataclass(frozen=True)
class Unclear:
    """A coin that would fill an open slot, or better a filled one, if more were said of it. `why`: what is missing."""

    slot: str
    coin: str
    why: str


@dataclass(frozen=True)
class Filling:
    """filled: {slot: coin}; open: slots without one; upgrades: {slot: (lowest, highest grade)} that would better what is
    in it, the next rung of the ladder to the top of the window; better: {slot: coin} that fits it better than what is in
    it, but fills another slot of the set, where it is needed more; spare: coins that the set accepts and does not need;
    unclear: coins that lack a word. cost: cents tied up in what fills slots, as far as known; unknown: so many of those
    coins have no known cost.
    """

    filled: dict[str, str]
    open: tuple[str, ...]
    upgrades: dict[str, tuple[str, str]]
    better: dict[str, str]
    spare: tuple[str, ...]
    unclear: tuple[Unclear, ...]
    cost: int
    unknown: int


def fill(slots: Sequence[Slot], pieces: Iterable[Piece], types: dict[str, Type]) -> Filling:
    """The best filling of `slots` by `pieces`; `types` is the catalogue's."""
    by_type = defaultdict(list)
    for piece in pieces:
        by_type[piece.type].append(piece)
    held = {piece.id: piece for of in by_type.values() for piece in of}
    accepted, unclear = defaultdict(list), []
    for slot in slots:
        for piece in (piece for key in dict.fromkeys(slot.types) for piece in by_type[key]):
            verdict, why = judge(slot, piece, types)
            if verdict == YES:
                accepted[piece.id].append(slot.key)
            elif verdict == UNCLEAR:
                unclear.append(Unclear(slot.key, piece.id, why))
    fits = {coin: fit(held[coin].grade) for coin in accepted}
    placed = assign.best(accepted, {coin: (fits[coin], held[coin].cost) for coin in accepted})
    used = set(placed.values())
    filled = {slot.key: placed[slot.key] for slot in slots if slot.key in placed}
    costs = [held[coin].cost for coin in filled.values()]
    better: dict[str, str] = {}
    for coin in sorted(used, key=lambda coin: (fits[coin], coin)):  # the best is entered last
        better |= {slot: coin for slot in accepted[coin] if slot in filled and fits[coin] > fits[filled[slot]]}
    better = {slot: better[slot] for slot in filled if slot in better}
    return Filling(
        filled, tuple(slot.key for slot in slots if slot.key not in filled),
        {slot.key: up for slot in slots if slot.key in filled and (up := upgrade(slot, held[filled[slot.key]].grade))},
        better, tuple(sorted(accepted.keys() - used)),
        tuple(one for one in unclear if one.coin not in used and _helps(one, filled, held)),
        sum(cost for cost in costs if cost is not None), sum(cost is None for cost in costs),
    )  # fmt: skip


def _helps(one: Unclear, filled: dict[str, str], held: dict[str, Piece]) -> bool:
    if one.slot not in filled:
        return True
    return fit(held[one.coin].grade) > fit(held[filled[one.slot]].grade)


def upgrade(slot: Slot, grade: str) -> tuple[str, str] | None:
    """(lowest, highest) grade that would better a coin of this grade in this slot; None: nothing would, or it has no grade.

    A coin with a problem is bettered by one of the same grade without.
    """
    if not grade:
        return None
    found, top = parsed(grade), number(slot.grade_to, TOP)
    least = found.number + (0 if found.details or found.net else 1)
    above = [rung for rung in window(slot) if least <= rung <= top]
    return (written(slot, above[0]), slot.grade_to or written(slot, above[-1])) if above else None


def window(slot: Slot) -> list[int]:
    """The numbers of the usual grades in the slot's window, lowest first."""
    low, high = number(slot.grade_from, 1), number(slot.grade_to, TOP)
    return [rung for rung in _USUAL if low <= rung <= high]


def rungs(slot: Slot) -> list[str]:
    """The same as written grades."""
    return [written(slot, rung) for rung in window(slot)]


def written(slot: Slot, rung: int) -> str:
    """A rung's number as a grade of what the slot asks for."""
    return str(grades.make("PF" if slot.strike == "proof" else _STEP[rung], rung))
