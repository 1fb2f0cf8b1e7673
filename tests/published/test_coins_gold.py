"""Gold of the United States against the Acts.

Acts of April 2, 1792 (§§ 9, 10, 12), June 28, 1834, January 18, 1837 (§§ 8, 10, 25), March 3, 1849, February 21, 1853,
February 12, 1873 (§§ 14, 18), March 14, 1900 (Gold Standard Act) and May 18, 1908, from memory.
"""

from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
DOLLARS = {
    "gold-dollar": 1, "quarter-eagle": Fraction(5, 2), "three-dollars": 3, "half-eagle": 5, "eagle": 10,
    "double-eagle": 20,
}
GOLD = [t for key in DOLLARS for t in KNOWN.of(key)]
WITH_PATTERNS = [*GOLD, *KNOWN.of("four-dollars")]


def fine_grains(t, year):
    """Grains of pure gold that the law asked of that year, each in its alloy."""
    return {
        metal.pure(w.grains, metal.ALLOYS[w.composition or t.composition].fineness("gold"))
        for w in t.weights if year in w.years
    }


def a_dollar(year):
    """Grains of pure gold in a dollar of face: 247½ in ten from 1792, 232 from 1834, 232 1/5 from 1837."""
    return Fraction("24.75") if year < 1834 else Fraction("23.2") if year < 1837 else Fraction("23.22")


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_every_year_of_every_type_holds_the_gold_that_the_law_of_that_year_asked(t):
    for year in t.years:
        wanted = {a_dollar(year) * DOLLARS[t.denomination]}
        if year == 1834 and "capped-head" in t.key:
            wanted = {Fraction("24.75") * DOLLARS[t.denomination]}  # struck before July 31, 1834
        assert fine_grains(t, year) == wanted, year


@pytest.mark.parametrize(
    "denomination, pure", [("eagle", "247.5"), ("half-eagle", "123.75"), ("quarter-eagle", "61.875")]
)
def test_act_of_1792_as_it_is_written(denomination, pure):
    """§ 9: 247 grains and four eighths pure, 123 and six eighths, 61 and seven eighths."""
    assert fine_grains(KNOWN.of(denomination)[0], KNOWN.of(denomination)[0].years[0]) == {Fraction(pure)}


def test_gold_standard_act_of_1900_twenty_five_grains_and_eight_tenths_in_the_dollar():
    for t in GOLD:
        assert {g / DOLLARS[t.denomination] for y in t.years if y >= 1837 for g in t.grains(y)} <= {Fraction("25.8")}


def test_an_ounce_of_fine_gold_was_coined_into_twenty_dollars_sixty_seven():
    assert round(metal.GRAINS_IN_OUNCE / a_dollar(1900), 2) == Fraction("20.67")


def test_act_of_1837_allowed_a_quarter_of_a_grain_on_a_piece():
    assert {KNOWN.laws["1837-01-18"].tolerance[d] for d in ("quarter-eagle", "half-eagle", "eagle")} == {Fraction(1, 4)}


@pytest.mark.parametrize(
    "denomination, grams", [
        ("gold-dollar", "1.672"), ("quarter-eagle", "4.18"), ("three-dollars", "5.015"), ("half-eagle", "8.359"),
        ("eagle", "16.718"), ("double-eagle", "33.436"),
    ],
)
def test_the_weights_in_grams_are_those_commonly_printed(denomination, grams):
    last = KNOWN.of(denomination)[-1]
    assert round(metal.grams(last.grains()[0]), 3) == Fraction(grams)


def test_the_four_dollar_alloy_is_the_one_in_its_legend():
    """6 G, .3 S, .7 C, 7 grams: the legend itself."""
    content = metal.content("7", metal.ALLOYS["gold-metric"])
    assert content == {"gold": 6, "silver": Fraction("0.3"), "copper": Fraction("0.7")}
    assert {t.composition for t in KNOWN.of("four-dollars")} == {"gold-metric"}


# -- what the Acts put on the coins ------------------------------------------------------------------------------


def test_an_eagle_on_every_reverse_but_those_of_the_dollar_and_three_dollars():
    """1792, § 10, and 1873, § 18, which leaves the eagle off these two."""
    for t in GOLD:
        has_eagle = all("eagle" in back for back in t.shows["back"])
        assert has_eagle == (t.denomination not in ("gold-dollar", "three-dollars")), t.key


def test_liberty_and_the_country_on_every_coin():
    assert all(t.shows["liberty"] != ("none",) and t.shows["country"] == ("us",) for t in WITH_PATTERNS)


def test_the_motto_came_under_the_law_of_1865_and_was_ordered_back_in_1908():
    """Act of March 3, 1865, § 5: the motto may stand on coins that have room; May 18, 1908: it shall be restored."""
    with_motto = [t for t in GOLD if t.shows["god"] == ("reverse",)]
    assert min(y for t in with_motto for y in t.years) == 1866
    for t in GOLD:
        if t.years[-1] > 1908 and t.denomination in ("quarter-eagle", "half-eagle", "eagle", "double-eagle"):
            assert t in with_motto, t.key
