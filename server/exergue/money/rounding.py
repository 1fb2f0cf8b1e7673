"""Rounding to whole units, exactly."""

from fractions import Fraction


def half_up(exact: Fraction) -> int:
    """The nearest whole number; a half goes away from zero."""
    whole = (2 * abs(exact.numerator) + exact.denominator) // (2 * exact.denominator)
    return -whole if exact < 0 else whole
