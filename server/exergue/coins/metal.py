"""Weight, fineness and pure metal, in exact fractions.

Everything given and returned is a Fraction: grams, grains, troy ounces, parts of one. Round only to show.
"""

from dataclasses import dataclass
from fractions import Fraction

from exergue.coins import own_data

GRAMS_IN_GRAIN = Fraction("0.06479891")  # exact since the international pound of 1959
GRAINS_IN_PENNYWEIGHT = 24
GRAINS_IN_OUNCE = 480  # the troy ounce
GRAMS_IN_OUNCE = GRAINS_IN_OUNCE * GRAMS_IN_GRAIN

Number = Fraction | int | str


def exact(value: Number) -> Fraction:
    """A Fraction of "412.5", "1485/1664" or 900. A float is refused: it has already been rounded."""
    if isinstance(value, float):
        raise TypeError("Give weights as text, whole numbers or fractions.")
    return Fraction(value)


def grams(grains: Number) -> Fraction:
    return exact(grains) * GRAMS_IN_GRAIN


def grains(grams: Number) -> Fraction:
    return exact(grams) / GRAMS_IN_GRAIN


def troy_ounces(grams: Number) -> Fraction:
    return exact(grams) / GRAMS_IN_OUNCE


# g/cm³ at 20 °C, from memory of handbooks of chemistry and physics.
DENSITIES = {
    name: Fraction(density)
    for name, density in {
        "silver": "10.49", "gold": "19.30", "copper": "8.96", "tin": "7.287", "zinc": "7.134", "nickel": "8.90",
        "manganese": "7.21", "iron": "7.874", "aluminium": "2.70", "platinum": "21.45",
    }.items()
}


@dataclass(frozen=True)
class Alloy:
    """A mixture by weight. `parts`: metal → part of one; they add up to one. `density`: see alloys.toml."""

    key: str
    name: str
    parts: dict[str, Fraction]
    density: tuple[Fraction, Fraction]

    def fineness(self, metal: str) -> Fraction:
        """The part of one that is `metal`; 0 where there is none."""
        return self.parts.get(metal, Fraction(0))


def _alloys() -> dict[str, Alloy]:
    found = {}
    for key, entry in own_data.table("alloys.toml").items():
        parts = {metal: Fraction(part) for metal, part in entry["parts"].items()}
        if sum(parts.values()) != 1:
            raise ValueError(f"alloys.toml, {key}: the parts add up to {sum(parts.values())}, not 1.")
        density = entry.get("density")
        found[key] = Alloy(key, entry["name"], parts, tuple(map(Fraction, density)) if density else _usual_density(parts))
    return found


def ideal_density(parts: dict[str, Fraction]) -> Fraction:
    """g/cm³ of a mixture by weight that does not change its volume."""
    return 1 / sum(part / DENSITIES[name] for name, part in parts.items())


def _usual_density(parts: dict[str, Fraction]) -> tuple[Fraction, Fraction]:
    ideal = ideal_density(parts)
    off = Fraction("0.15") if parts.get("gold", 0) > Fraction(1, 2) else Fraction("0.05")
    return ideal - off, ideal + off


ALLOYS = _alloys()


def pure(weight: Number, fineness: Number) -> Fraction:
    """Pure metal in `weight`, in the same unit. Raises ValueError for a fineness outside 0 to 1."""
    part = exact(fineness)
    if not 0 <= part <= 1:
        raise ValueError(f"A fineness is a part of one, from 0 to 1; {part} is not.")
    return exact(weight) * part


def content(grams: Number, alloy: Alloy) -> dict[str, Fraction]:
    """Grams of each metal in a piece of that weight."""
    return {metal: exact(grams) * part for metal, part in alloy.parts.items()}


def melt(fine_grams: Number, cents_an_ounce: int) -> int:
    """Worth of the pure metal in whole cents at a price for the troy ounce, rounded half to even."""
    return round(troy_ounces(fine_grams) * cents_an_ounce)
