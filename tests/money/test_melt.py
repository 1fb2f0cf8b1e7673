"""The worth of the metal in coins of the catalogue."""

from datetime import date
from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal
from exergue.money import melt

SPOT = melt.read({"silver": {"cents": 3000, "date": "2026-06-29"}, "gold": {"cents": 400_000, "date": "2026-06-30"}})
TYPES = catalogue.load().types


def test_base_metal_has_no_melt_value():
    def metals(found):
        alloys = {found.composition, *(weight.composition for weight in found.weights)} - {""}
        return {name for key in alloys for name in metal.ALLOYS[key].parts}

    base = [t for t in TYPES.values() if not metals(t) & set(melt.PRECIOUS)]
    assert base and all(melt.of_type(t, SPOT) is None for t in base)


def test_every_type_of_precious_metal_with_a_lawful_weight_has_a_melt_value():
    dear = [t for t in TYPES.values() if set(metal.ALLOYS[t.composition].parts) & {"silver", "gold"} and t.weights]
    found = {t.key: melt.of_type(t, SPOT, t.years[0]) for t in dear}
    assert len(found) > 100 and [key for key, worth in found.items() if worth is None or worth.cents <= 0] == []


def test_years_of_base_metal_leave_a_type_without_a_melt_value_that_holds_for_all():
    """Shillings of George VI: half silver to 1946, copper-nickel from 1947."""
    shilling = TYPES["gb-shilling/george-vi"]
    assert [melt.of_type(shilling, SPOT, year) is None for year in (1946, 1947, None)] == [False, True, True]


def test_where_several_weights_were_lawful_the_least_counts():
    several = [t for t in TYPES.values() if len(t.grains()) > 1 and melt.of_type(t, SPOT)]
    assert several
    for each in several:
        worths = [melt.of_type(each, SPOT, year) for year in each.years]
        assert melt.of_type(each, SPOT).cents == min(worth.cents for worth in worths if worth)


def test_a_metal_without_a_price_gives_no_melt_value():
    silver = {"silver": SPOT["silver"]}
    assert melt.of_piece(25, "gold-900", silver) is None
    assert melt.of_piece(25, "silver-900", {}) is None


def test_a_piece_keeps_its_exact_ounces_and_the_date_of_the_price():
    worth = melt.of_piece("25", "silver-900", SPOT)
    assert worth.ounces == {"silver": Fraction("22.5") / metal.GRAMS_IN_OUNCE}
    assert worth.oldest == date(2026, 6, 29)
    assert worth.cents == metal.melt("22.5", 3000)


@pytest.mark.parametrize(
    ("spot", "said"),
    [
        ({"tin": {"cents": 1, "date": "2026-06-30"}}, "“tin” is no precious metal"),
        ({"gold": {"cents": 0, "date": "2026-06-30"}}, "whole number of cents"),
        ({"gold": {"cents": 12.5, "date": "2026-06-30"}}, "whole number of cents"),
        ({"gold": 5}, "whole number of cents"),
        ({"gold": {"cents": 5, "date": "yesterday"}}, "needs the date"),
        ({"gold": {"cents": 5}}, "needs the date"),
    ],
)
def test_a_price_that_cannot_be_meant_is_told(spot, said):
    with pytest.raises(melt.BadSpot, match=said):
        melt.read(spot)
