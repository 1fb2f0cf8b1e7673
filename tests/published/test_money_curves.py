"""Curves that never fall, against published data and general libraries.

Isotonic: the exercise of Robert & Casella (2005); scikit-learn's documentation; scipy. Monotone cubic: table 1 of Fritsch &
Carlson, SIAM J. Numer. Anal. 17 (1980), its third ordinate e-2; values by scipy's PCHIP, whose slopes are those of
Fritsch & Butland (1984).
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression
from sklearn.isotonic import IsotonicRegression

from exergue.money.monotone import curve, isotonic

X = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20]
Y = [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994]
LINES = st.lists(st.tuples(st.floats(-50, 50), st.floats(0.01, 100)), min_size=1, max_size=40)


@pytest.mark.parametrize(
    ("values", "weights", "fitted"),
    [
        ([23, 27, 25, 28], [1, 1, 1, 1], [23, 26, 26, 28]),
        ([5, 3, 1, 2, 8, 10, 7, 9, 6, 4], [1] * 10, [2.75] * 4 + [44 / 6] * 6),
        ([9, 12, 8, 7, 15], [1, 1, 2, 1, 3], [8.8] * 4 + [15]),  # a cascade, worked by hand
    ],
)
def test_pooling_of_violators(values, weights, fitted):
    assert isotonic(values, weights) == pytest.approx(fitted, abs=1e-12)


@given(LINES)
def test_weighted_isotonic_as_two_libraries_have_it(line):
    values, weights = map(np.array, zip(*line, strict=True))
    ours = isotonic(values, weights)
    assert ours == pytest.approx(isotonic_regression(values, weights=weights).x, abs=1e-9)
    theirs = IsotonicRegression().fit_transform(np.arange(len(values)), values, sample_weight=weights)
    assert ours == pytest.approx(theirs, abs=1e-9)
    assert list(ours) == sorted(ours)


@given(LINES, st.lists(st.floats(0, 20), min_size=40, max_size=40))
def test_pooling_keeps_order_between_two_lines(line, more):
    """Barlow, Bartholomew, Bremner & Brunk (1972): isotonic regression is monotone in the values."""
    values, weights = zip(*line, strict=True)
    upper = [value + extra for value, extra in zip(values, more, strict=False)]
    assert all(low <= high + 1e-9 for low, high in zip(isotonic(values, weights), isotonic(upper, weights), strict=True))


def test_the_data_of_fritsch_and_carlson():
    at = [8.14, 8.45, 9.0, 9.6, 11, 13, 17]
    published = [0.017697167, 0.106589538, 0.337534327, 0.760247639, 0.986043363, 0.999361822, 0.999968026]
    assert curve(X, Y, at) == pytest.approx(published, abs=1e-8)


def test_that_curve_never_falls_nor_passes_its_last_value():
    fine = curve(X, Y, np.linspace(7.99, 20, 5001))
    assert all(one <= other + 1e-15 for one, other in zip(fine, fine[1:], strict=False))
    assert (min(fine), max(fine)) == (0, 0.999994)


def test_four_points_by_hand():
    """Slopes 0.5, 4/3, 6/7, 0 by the three-point and harmonic rules of 1984; the cubic in Hermite form."""
    assert curve([0, 1, 2, 4], [0, 1, 3, 4], [0.5, 1.5, 3]) == pytest.approx([0.3958333, 2.0595238, 3.7142857], abs=1e-7)


def test_a_curve_passes_its_points_and_one_point_is_level():
    assert curve(X, Y, X) == pytest.approx(Y, abs=1e-15)
    assert curve([3], [5.0], [2, 3, 4]) == [5, 5, 5]
