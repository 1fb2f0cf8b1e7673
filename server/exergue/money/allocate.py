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
    shares, remainders = zip(*(divmod(abs(total) * weight, parts) for weight in whole), strict=True)
    shares = list(shares)
    left_over = abs(total) - sum(shares)
    for line in sorted(range(len(whole)), key=lambda i: -remainders[i])[:left_over]:
        shares[line] += 1
    return [sign * share for share in shares]


def _integers(weights: Sequence) -> list[int]:
    """The weights as integers in the same proportion."""
    if all(type(w) is int for w in weights):
        exact = list(weights)
    else:
        exact = [_fraction(w) for w in weights]
        scale = lcm(*(w.denominator for w in exact))
        exact = [int(w * scale) for w in exact]
    if any(w < 0 for w in exact):
        raise BadSplit("A weight cannot be less than zero.")
    return exact


def _fraction(weight) -> Fraction:
    try:
        if isinstance(weight, Rational) or isfinite(weight):
            return Fraction(weight)
    except TypeError:
        pass
    raise BadSplit(f"“{weight}” is not a weight; give a number.")
