"""The ladder as an axis: the usual grades stand one apart, numbers that only some write halfway between their neighbours."""

from exergue.coins.ladder import STEPS

_USUAL = sorted(number for step in STEPS.values() for number in step.numbers)
_MORE = sorted(number for step in STEPS.values() for number in step.also)

PLACE: dict[int, float] = {number: float(at) for at, number in enumerate(_USUAL)}
PLACE |= {n: PLACE[max(u for u in _USUAL if u < n)] + 0.5 for n in _MORE}
PLACE = dict(sorted(PLACE.items()))
MINT_STATE = PLACE[60]


def within(lowest: float, highest: float) -> list[int]:
    """Grades that stand at most one rung outside the places `lowest` to `highest`, ascending."""
    return [number for number, place in PLACE.items() if lowest - 1 <= place <= highest + 1]
