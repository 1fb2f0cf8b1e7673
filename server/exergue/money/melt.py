"""What the precious metal in a coin is worth, from its lawful weight and fineness and prices that the owner typed.

Exact until the end: cents are rounded once, half to even, after the metals are added up (coins/metal.py). Weights are as
struck; a worn coin holds less, and a refiner pays less. Where law allowed several weights in a year, the least counts.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from exergue.coins import metal
from exergue.coins.model import Type

PRECIOUS = ("gold", "silver", "platinum")


class BadSpot(ValueError):
    """A price of metal cannot be used; the message says why in one sentence."""


@dataclass(frozen=True)
class Spot:
    """A price for a troy ounce of pure metal in cents, and the date it was seen."""

    cents: int
    date: date


@dataclass(frozen=True)
class Melt:
    """`cents` of precious metal in one coin; `ounces` troy of each, exact; `oldest`: date of the oldest price used."""

    cents: int
    ounces: dict[str, Fraction]
    oldest: date


def read(spot: dict) -> dict[str, Spot]:
    """Prices from {metal: {cents, date (ISO)}}, as the book's settings hold them. Raises BadSpot."""
    found = {}
    for name, entry in spot.items():
        if name not in PRECIOUS:
            raise BadSpot(f"“{name}” is no precious metal known here; give {', '.join(PRECIOUS[:-1])} or {PRECIOUS[-1]}.")
        cents = entry.get("cents") if isinstance(entry, dict) else None
        if type(cents) is not int or not 0 < cents <= 10**9:
            raise BadSpot(f"The price of {name} is a whole number of cents for a troy ounce, more than 0.")
        try:
            found[name] = Spot(cents, date.fromisoformat(entry.get("date")))
        except (TypeError, ValueError):
            raise BadSpot(f"The price of {name} needs the date it was seen, such as 2026-06-30.") from None
    return found


def of_type(found: Type, spot: dict[str, Spot], year: int | None = None) -> Melt | None:
    """The melt value of a type's coins of that year, or of the lightest of all years. None without precious metal, or
    where one of its precious metals has no price, or the year is none of the type's."""
    worths = [
        _worth(metal.content(metal.grams(weight.grains), metal.ALLOYS[weight.composition or found.composition]), spot)
        for weight in found.weights
        if year is None or year in weight.years
    ]
    if not worths or None in worths:
        return None
    return min(worths, key=lambda worth: worth.cents)


def of_piece(grams: Fraction | int | str, alloy: str, spot: dict[str, Spot]) -> Melt | None:
    """The melt value of a weighed piece of a known alloy (key of alloys.toml). None as of_type. Raises KeyError."""
    return _worth(metal.content(grams, metal.ALLOYS[alloy]), spot)


def _worth(content: dict[str, Fraction], spot: dict[str, Spot]) -> Melt | None:
    ounces = {name: metal.troy_ounces(grams) for name, grams in content.items() if name in PRECIOUS and grams}
    if not ounces or any(name not in spot for name in ounces):
        return None
    cents = round(sum(amount * spot[name].cents for name, amount in ounces.items()))
    return Melt(cents, ounces, min(spot[name].date for name in ounces))
