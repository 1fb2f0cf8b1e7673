"""What the law asked copper coins to weigh, held against the catalogue.

Texts of the Acts of April 2, 1792 and January 14, 1793 and of the proclamation of January 26, 1796: Statutes at Large,
volume 1, and Richardson, Messages and Papers of the Presidents, volume X (read). Act of January 18, 1837, § 12: from
memory. 24 grains are a pennyweight.
"""

from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
DWT = metal.GRAINS_IN_PENNYWEIGHT


def asked(law):
    """What a law asked of the copper coins, in grains."""
    return {key: KNOWN.laws[law].grains[key][0] for key in ("half-cent", "large-cent")}


def test_act_of_1792_eleven_pennyweights_and_half_of_it():
    grains = asked("1792-04-02")
    assert grains["large-cent"] == 11 * DWT
    assert grains["half-cent"] == 5 * DWT + DWT // 2


def test_act_of_1793_two_hundred_and_eight_and_one_hundred_and_four_grains():
    grains = asked("1793-01-14")
    assert (grains["large-cent"], grains["half-cent"]) == (208, 104)


def test_proclamation_of_1796_seven_pennyweights_and_three_pennyweights_twelve_grains():
    grains = asked("1796-01-26")
    assert grains["large-cent"] == 7 * DWT
    assert grains["half-cent"] == 3 * DWT + 12


def test_the_reduction_was_one_pennyweight_sixteen_grains_and_within_the_two_that_congress_allowed():
    before, after = asked("1793-01-14"), asked("1796-01-26")
    assert before["large-cent"] - after["large-cent"] == DWT + 16 <= 2 * DWT
    assert before["half-cent"] - after["half-cent"] == Fraction(DWT + 16, 2)


def test_act_of_1837_left_the_copper_weights_as_they_were():
    assert asked("1837-01-18") == asked("1796-01-26")


@pytest.mark.parametrize(
    "key, year, grains",
    [
        ("half-cent/liberty-cap-left", 1793, (104,)), ("half-cent/liberty-cap-right", 1794, (104,)),
        ("half-cent/liberty-cap-right", 1795, (104, 84)),  # reduced on December 27 of that year
        ("half-cent/liberty-cap-right", 1796, (84,)), ("half-cent/draped-bust", 1800, (84,)),
        ("half-cent/braided-hair", 1857, (84,)), ("large-cent/chain", 1793, (208,)), ("large-cent/wreath", 1793, (208,)),
        ("large-cent/liberty-cap", 1794, (208,)), ("large-cent/liberty-cap", 1795, (208, 168)),
        ("large-cent/liberty-cap", 1796, (168,)), ("large-cent/draped-bust", 1799, (168,)),
        ("large-cent/matron-head", 1837, (168,)), ("large-cent/braided-hair", 1857, (168,)),
    ],
)
def test_each_type_weighs_what_the_law_of_its_year_asked(key, year, grains):
    assert KNOWN.type(key).grains(year) == grains


@pytest.mark.parametrize(
    "grains, grams",  # as the standard references print them, rounded to 0.01 g (read)
    [("208", "13.48"), ("168", "10.89"), ("104", "6.74"), ("84", "5.44")],
)
def test_the_weights_in_grams_are_those_commonly_printed(grains, grams):
    assert round(metal.grams(grains), 2) == Fraction(grams)
