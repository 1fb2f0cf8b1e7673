"""The holder motif: what stands in a coin's window while it has no photo."""

from fractions import Fraction

from ...coins import denominations

METALS = {
    "copper": {
        "half-cent", "large-cent", "small-cent", "two-cents", "gb-penny", "gb-twopence", "ca-large-cent", "ca-small-cent",
    },
    "gold": {
        "gold-dollar", "quarter-eagle", "three-dollars", "four-dollars", "half-eagle", "eagle", "double-eagle",
        "gb-sovereign", "gb-threepence",
    },
}  # fmt: skip
IN_CENTS = {"US", "CA"}  # countries whose money is written with ¢ and $
FRACTIONS = {Fraction(1, 2): "½", Fraction(1, 4): "¼"}


def metal(denom: str) -> str:
    """The colour of the disc: copper, silver or gold, which stands for brass as well; "" where the denomination is not known."""
    if denom not in denominations.ALL:
        return ""
    return next((name for name, keys in METALS.items() if denom in keys), "silver")


def face(denom: str) -> str:
    """The face value in figures: “½¢”, “5¢”, “$2½”; "" where the money of the country is not written so."""
    if denom not in denominations.ALL or denominations.get(denom).country not in IN_CENTS:
        return ""
    value = denominations.get(denom).cents
    if value < 100:
        return _figure(value) + "¢"
    return "$" + _figure(value / 100)


def _figure(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return (str(whole) if whole or not rest else "") + (FRACTIONS.get(rest, "") if rest else "")
