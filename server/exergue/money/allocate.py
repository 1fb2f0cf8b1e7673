"""Splitting an amount by weights so that the shares add up exactly.

Largest remainder (Hamilton's method): each share is rounded down, and the units left over go one by
one to the largest remainders, ties to the earlier line. Balinski & Young, "Fair Representation" (1982).
The method is not monotone in the total: never split a closed lot again after coins were sold from it.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import isfinite, lcm
from numbers import Rational


class BadSplit(ValueError):
    """The weights cannot carry the total; the message says why in one sentence."""


def split(total: int, weights: Sequence) -> list[int]:
    """Shares of `total` (minor units, may be negative) in proportion to `weights`, adding up exactly.

    Weights are non-negative numbers (int, Fraction, Decimal, float: taken at their exact value).
    Raises BadSplit if there are none, one is negative or no number, or all are zero.
    """
    whole = _integers(weights)
    parts = sum(whole)
    if not whole:
        raise BadSplit("There is nothing to split over.")
    if not parts:
        raise BadSplit("At least one weight must be more than zero.")
    sign = -1 if total < 0 else 1
    size = abs(total)
    shares = [size * weight // parts for weight in whole]
    left_over = size - sum(shares)
    if left_over:
        remainders = [size * weight % parts for weight in whole]
        for line in sorted(range(len(whole)), key=remainders.__getitem__, reverse=True)[:left_over]:
            shares[line] += 1
    return shares if sign > 0 else [-share for share in shares]


def _integers(weights: Sequence) -> Sequence[int]:
    """The weights as integers in the same proportion."""
    if set(map(type, weights)) == {int}:
        exact = weights
    else:
        exact = [_fraction(w) for w in weights]
        scale = lcm(*(w.denominator for w in exact))
        exact = [int(w * scale) for w in exact]
    if exact and min(exact) < 0:
        raise BadSplit("A weight cannot be less than zero.")
    return exact


def _fraction(weight) -> Fraction:
    try:
        if isinstance(weight, Rational) or isfinite(weight):
            return Fraction(weight)
    except TypeError:
        pass
    raise BadSplit(f"“{weight}” is not a weight; give a number.")
