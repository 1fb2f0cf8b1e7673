"""Weights, quantiles and the width of an interval, against tables.

Student's t: any handbook's table (from memory). Quantiles: the textbook data 15, 20, 35, 40, 50 with nearest rank; lower
weighted median; numpy's inverted_cdf. Next observation: Hahn (1970) and Hahn & Meeker, Statistical Intervals (1991), from memory,
recomputed. Half-life weights: worked by hand.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom

from exergue.money.evidence import age_weight
from exergue.money.interval import quantile, student, widening


@pytest.mark.parametrize(
    ("freedom", "factor"), [(1, 3.078), (2, 1.886), (3, 1.638), (4, 1.533), (10, 1.372), (30, 1.310), (1e6, 1.282)]
)
def test_four_fifths_of_students_t(freedom, factor):
    assert student(0.80, freedom) == pytest.approx(factor, abs=5e-4)


def test_the_interval_for_one_further_observation():
    """Mean 50.10, s 1.3134; 95 %: 46.1054 to 54.0946, a factor of 3.0414433 on s."""
    data = np.array([51.4, 49.5, 48.7, 49.3, 51.6])
    factor = student(0.95, 4) * math.sqrt(1 + 1 / 5)
    assert factor == pytest.approx(3.0414433, abs=1e-6)
    assert data.mean() - factor * data.std(ddof=1) == pytest.approx(46.1054, abs=1e-4)


@pytest.mark.parametrize(("part", "value"), [(0.05, 15), (0.30, 20), (0.40, 20), (0.50, 35), (1.0, 50)])
def test_quantiles_by_nearest_rank(part, value):
    assert quantile(np.array([50.0, 20, 35, 15, 40]), np.ones(5), part) == value


@pytest.mark.parametrize(
    ("values", "weights", "median"),
    [([1, 2, 3, 4, 5], [0.15, 0.1, 0.2, 0.3, 0.25], 4), ([1, 2, 3, 4], [0.49, 0.01, 0.25, 0.25], 2)],
)
def test_the_lower_weighted_median(values, weights, median):
    assert quantile(np.array(values, float), np.array(weights), 0.5) == median


@given(st.lists(st.tuples(st.floats(0, 9), st.integers(1, 9)), min_size=1, max_size=30), st.sampled_from([0.25, 0.5, 0.8, 0.9]))
def test_weighted_quantiles_as_numpy_has_them(pairs, part):
    values, weights = map(np.array, zip(*pairs, strict=True))
    assert quantile(values, weights, part) == np.quantile(values, part, weights=weights, method="inverted_cdf")


def test_weights_of_a_half_life_of_a_year():
    ages = np.array([0, 90, 365, 730, 1095])
    assert age_weight(ages, 365) == pytest.approx([1, 0.842894899, 0.5, 0.25, 0.125], abs=1e-9)


def test_the_width_of_many_normal_surprises_holds_four_in_five():
    """Binomial: of 2,000 further normal draws 80 % inside, give or take four standard deviations of that count."""
    rng = np.random.default_rng(3)
    width = widening([(np.abs(rng.normal(size=50)), np.ones(50)) for _ in range(60)], 0.80, 20)
    inside = int((np.abs(rng.normal(size=2000)) <= width).sum())
    assert binom.ppf(3e-5, 2000, 0.8) <= inside <= binom.ppf(1 - 3e-5, 2000, 0.8)


def test_without_surprises_the_width_is_students():
    assert widening([], 0.80, 20) == pytest.approx(1.638, abs=5e-4)
