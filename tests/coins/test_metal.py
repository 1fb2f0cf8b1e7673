"""Weights and metal in exact fractions."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.coins import metal

WEIGHTS = st.fractions(min_value=0, max_value=10_000)


@given(WEIGHTS)
def test_grains_and_grams_lose_nothing(weight):
    assert metal.grains(metal.grams(weight)) == weight


@given(WEIGHTS, st.sampled_from(sorted(metal.ALLOYS)))
def test_the_metals_of_a_piece_add_up_to_its_weight(weight, alloy):
    assert sum(metal.content(weight, metal.ALLOYS[alloy]).values()) == weight


def test_a_float_is_refused_since_it_is_already_rounded():
    with pytest.raises(TypeError):
        metal.grams(412.5)


@pytest.mark.parametrize("fineness", ["1.1", "-0.1", 900])
def test_a_fineness_outside_one_is_refused(fineness):
    with pytest.raises(ValueError, match="from 0 to 1"):
        metal.pure("25", fineness)


def test_melt_is_whole_cents():
    assert metal.melt(metal.GRAMS_IN_OUNCE, 3000) == 3000
    assert metal.melt(metal.GRAMS_IN_OUNCE / 2, 3001) == 1500  # half to even


def test_a_missing_metal_has_no_part():
    assert metal.ALLOYS["copper"].fineness("gold") == Fraction(0)
