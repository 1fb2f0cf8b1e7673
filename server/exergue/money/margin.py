"""Margin and markup. Margin = (price − cost) ÷ price; markup = (price − cost) ÷ cost. Money is in minor units."""

from fractions import Fraction

from .rounding import half_up


def margin(price: int, cost: int) -> Fraction | None:
    """(price − cost) ÷ price; None if the price is nothing."""
    return Fraction(price - cost, price) if price else None


def markup(price: int, cost: int) -> Fraction | None:
    """(price − cost) ÷ cost; None if the cost is nothing."""
    return Fraction(price - cost, cost) if cost else None


def percent(ratio: Fraction | None, places: int = 2) -> str | None:
    """A ratio as text in per cent, rounded half up away from zero: "15.25"."""
    if ratio is None:
        return None
    figure = half_up(ratio * 100 * 10**places)
    whole, rest = divmod(abs(figure), 10**places)
    sign = "-" if figure < 0 else ""
    return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"
