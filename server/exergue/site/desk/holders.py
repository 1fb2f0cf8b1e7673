"""The holder motif: what stands in a coin's window while it has no photo."""

from fractions import Fraction

from ...coins import denominations

METALS = {
    "copper": {"half-cent", "large-cent", "small-cent", "two-cents"},
    "gold": {"gold-dollar", "quarter-eagle", "three-dollars", "four-dollars", "half-eagle", "eagle", "double-eagle"},
}  # fmt: skip
FRACTIONS = {Fraction(1, 2): "½", Fraction(1, 4): "¼"}


def metal(denom: str) -> str:
    """The colour of the disc: copper, silver or gold; "" where the denomination is not known."""
    if denom not in denominations.ALL:
        return ""
    return next((name for name, keys in METALS.items() if denom in keys), "silver")


def face(denom: str) -> str:
    """The face value in figures: “½¢”, “5¢”, “$2½”."""
    if denom not in denominations.ALL:
        return ""
    value = denominations.get(denom).cents
    if value < 100:
        return _figure(value) + "¢"
    return "$" + _figure(value / 100)


def _figure(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return (str(whole) if whole or not rest else "") + (FRACTIONS.get(rest, "") if rest else "")
