"""What the shared checks say of one type: the words that stand for {weight}, {diameter} and {metal}."""

from fractions import Fraction

from exergue.coins import metal
from exergue.coins.model import Weight
from exergue.coins.years import show as show_years


def of(composition: str, diameter: tuple[Fraction, Fraction], weights: tuple[Weight, ...]) -> dict[str, str]:
    """Mark without braces → words."""
    alloy = metal.ALLOYS.get(composition)
    return {
        "metal": alloy.name if alloy else "the metal",
        "weight": _weights(weights),
        "diameter": _diameter(diameter),
    }


def fill(text: str, words: dict[str, str]) -> str:
    for mark, said in words.items():
        text = text.replace("{" + mark + "}", said)
    return text


def _weights(weights: tuple[Weight, ...]) -> str:
    """Weights that print alike are one, though two laws write them in grains and in grams."""
    years: dict[str, set[int]] = {}
    for weight in weights:
        text = f"{_short(weight.grains)} gr ({float(metal.grams(weight.grains)):.2f} g)"
        years.setdefault(text, set()).update(weight.years)
    return ", ".join(f"{text} for {show_years(of)}" if len(years) > 1 else text for text, of in years.items())


def _diameter(diameter: tuple[Fraction, Fraction]) -> str:
    least, greatest = map(_short, diameter)
    return f"{least} mm" if least == greatest else f"{least} to {greatest} mm"


def _short(number: Fraction) -> str:
    return f"{float(number):.2f}".rstrip("0").rstrip(".")
