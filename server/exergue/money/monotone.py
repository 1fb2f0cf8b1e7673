"""Curves that never fall: weighted isotonic regression, and a monotone cubic between its points."""

from collections.abc import Sequence
from itertools import pairwise


def isotonic(values: Sequence[float], weights: Sequence[float]) -> list[float]:
    """The non-decreasing values nearest to `values` in weighted least squares; weights are more than zero.

    Adjacent violators are pooled into their weighted mean (Barlow, Bartholomew, Bremner & Brunk 1972). It keeps
    order: where one list is nowhere above another, neither is its fit, given the same weights.
    """
    if all(before <= after for before, after in pairwise(values)):
        return list(values)
    blocks: list[tuple[float, float, int]] = []  # mean, weight, length
    for mean, weight in zip(values, weights, strict=True):
        length = 1
        while blocks and blocks[-1][0] >= mean:
            before, heft, count = blocks.pop()
            mean = before + (mean - before) * (weight / (heft + weight))
            weight, length = weight + heft, length + count
        blocks.append((mean, weight, length))
    fitted = [mean for mean, _, length in blocks for _ in range(length)]
    for at in range(1, len(fitted)):  # pooling may leave a fall in the last binary place
        fitted[at] = max(fitted[at], fitted[at - 1])
    return fitted


def curve(places: Sequence[float], values: Sequence[float], at: Sequence[float]) -> list[float]:
    """The monotone cubic through (places, values), read `at` places inside; places ascend.

    Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980), with the slopes of Fritsch & Butland (1984): scipy's PCHIP.
    One point alone is a level line.
    """
    if len(places) == 1:
        return [values[0]] * len(at)
    from scipy.interpolate import PchipInterpolator

    low, high = values[0], values[-1]  # rounding must not step over the ends
    return [min(max(float(each), low), high) for each in PchipInterpolator(places, values)(at)]
