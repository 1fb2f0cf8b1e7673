"""Coins of Great Britain and Canada against laws and reports; they show that the catalogue holds more than one country.

Coinage Act 1870 (33 & 34 Vict. c. 10), first schedule, with its note on the Act of 1816: Encyclopaedia Britannica, ninth
edition, volume 16, article Mint (read). Pennies to the pound of copper: note of July 11, 1808, in the papers of Sir Joseph
Banks (read). Silver of Canada in proportion to that of the United Kingdom, 37/40 fine: proclamation of 1907 under the
Revised Statutes of 1906 (read in a newspaper's summary). All else from memory, said beside the check.
"""

from collections import Counter
from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
TROY, AVOIRDUPOIS = 5760, 7000  # grains in a pound
FIVE_PLACES = Fraction(1, 100_000)


def types(country):
    return [t for t in KNOWN.types.values() if KNOWN.denominations[t.denomination].country == country]


def weight(key, year):
    return KNOWN.type(key).grains(year)[0]


def alloy_of(key, year):
    found = KNOWN.type(key)
    named = {w.composition or found.composition for w in found.weights if year in w.years}
    assert len(named) == 1
    return metal.ALLOYS[named.pop()]


def struck(denomination):
    return {year for t in KNOWN.of(denomination) for year in t.years}


def test_enough_types_of_two_other_countries():
    counted = Counter(d.country for t in KNOWN.types.values() for d in [KNOWN.denominations[t.denomination]])
    assert counted["GB"] >= 30 and counted["CA"] >= 27


@pytest.mark.parametrize("country, mark", [("GB", "gb"), ("CA", "ca")])
def test_every_type_says_which_country_and_which_monarch_it_names(country, mark):
    for t in types(country):
        assert t.shows["country"] == (mark,), t.key
        assert t.shows["subject"] == ("monarch",) and len(t.shows["monarch"]) == 1, t.key
        assert t.key.startswith(f"{mark}-")


# --- Weights by law ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "denomination, key, printed, remedy",
    [
        ("gb-sovereign", "gb-sovereign/jubilee", "123.27447", "0.20000"),
        ("gb-shilling", "gb-shilling/victoria-young", "87.27272", "0.36363"),
        ("gb-penny", "gb-penny/bun-head", "145.83333", "2.91666"),
    ],
)
def test_the_schedule_of_1870(denomination, key, printed, remedy):
    law = KNOWN.laws["1870-04-04"]
    assert 0 <= weight(key, 1887) - Fraction(printed) < FIVE_PLACES  # the schedule drops what follows
    assert law.grains[denomination] == (weight(key, 1887),)
    assert law.tolerance[denomination] == Fraction(remedy)


@pytest.mark.parametrize("key, grams", [("gb-sovereign/old-head", "7.98805"), ("gb-shilling/victoria-young", "5.65518"), ("gb-penny/bun-head", "9.44984")])
def test_the_grams_that_the_schedule_prints(key, grams):
    year = KNOWN.type(key).years[-1]
    assert abs(metal.grams(weight(key, year)) - Fraction(grams)) < Fraction(1, 10_000)


def test_sixty_six_shillings_from_a_troy_pound_of_which_eleven_ounces_two_pennyweights_are_fine():
    shilling = weight("gb-shilling/george-iii", 1816)
    assert 66 * shilling == TROY
    fine = metal.pure(66 * shilling, alloy_of("gb-shilling/george-iii", 1816).fineness("silver"))
    assert fine == 11 * metal.GRAINS_IN_OUNCE + 2 * metal.GRAINS_IN_PENNYWEIGHT


def test_934_sovereigns_and_a_ten_shilling_piece_from_twenty_troy_pounds_of_twenty_two_carats():
    sovereign = weight("gb-sovereign/george-iii", 1817)
    assert (934 + Fraction(1, 2)) * sovereign == 20 * TROY
    assert alloy_of("gb-sovereign/george-iii", 1817).fineness("gold") == Fraction(22, 24)


def test_a_sovereign_holds_what_is_commonly_printed():
    """7.322 g or 0.2354 troy ounce of gold: bullion tables, from memory."""
    fine = metal.pure(metal.grams(weight("gb-sovereign/george-v", 1911)), "11/12")
    assert round(fine, 3) == Fraction("7.322") and round(metal.troy_ounces(fine), 4) == Fraction("0.2354")


@pytest.mark.parametrize(
    "key, year, to_the_pound",
    [
        ("gb-penny/cartwheel", 1797, 16), ("gb-twopence/cartwheel", 1797, 8), ("gb-penny/george-iii", 1806, 24),
        ("gb-penny/victoria-copper", 1858, 24), ("gb-penny/bun-head", 1860, 48), ("gb-penny/elizabeth", 1967, 48),
        ("ca-large-cent/victoria-laureate", 1859, 100),  # coinage of 1858, from memory
        ("ca-large-cent/victoria-diadem", 1876, 80),  # coinage of 1876, from memory
    ],
)
def test_copper_and_bronze_by_the_pound_avoirdupois(key, year, to_the_pound):
    assert weight(key, year) * to_the_pound == AVOIRDUPOIS


@pytest.mark.parametrize(
    "year, silver",
    [(1919, "37/40"), (1920, "1/2"), (1946, "1/2"), (1947, "0"), (1966, "0")],  # Acts of 1920 and 1946, from memory
)
def test_a_shilling_keeps_its_weight_while_its_silver_goes(year, silver):
    found = next(t for t in KNOWN.of("gb-shilling") if year in t.years)
    assert found.grains(year) == (Fraction(TROY, 66),)
    assert alloy_of(found.key, year).fineness("silver") == Fraction(silver)


@pytest.mark.parametrize("key, year, cents", [("ca-five-cents/victoria", 1858, 5), ("ca-twenty-cents/victoria", 1858, 20)])
def test_early_silver_of_canada_stands_in_proportion_to_the_shilling(key, year, cents):
    """A pound of twenty shillings passed for 4.86⅔ dollars."""
    shilling_in_cents = Fraction("486") + Fraction(2, 3)
    assert weight(key, year) == Fraction(TROY, 66) * cents / (shilling_in_cents / 20)


@pytest.mark.parametrize(
    "key, year, grams",  # as commonly printed, from memory
    [
        ("ca-five-cents/victoria", 1880, "1.16"), ("ca-five-cents/george-v-silver", 1915, "1.17"),
        ("ca-twenty-cents/victoria", 1858, "4.65"), ("ca-five-cents/george-v-nickel", 1925, "4.54"),
        ("ca-large-cent/victoria-laureate", 1858, "4.54"), ("ca-large-cent/george-v", 1915, "5.67"),
        ("ca-small-cent/george-v", 1923, "3.24"), ("ca-silver-dollar/jubilee", 1935, "23.33"),
        ("gb-threepence/george-vi", 1937, "6.80"), ("gb-shilling/george-v", 1911, "5.66"),
        ("gb-penny/george-iii", 1806, "18.90"), ("gb-penny/cartwheel", 1797, "28.35"),
    ],
)
def test_weights_in_grams_as_commonly_printed(key, year, grams):
    assert round(metal.grams(weight(key, year)), 2) == Fraction(grams)


def test_a_silver_dollar_of_canada_holds_six_tenths_of_an_ounce():
    """360 grains of 800 fine, Currency Act 1910 and its amendment of 1920, from memory."""
    fine = metal.pure(weight("ca-silver-dollar/goose", 1967), alloy_of("ca-silver-dollar/goose", 1967).fineness("silver"))
    assert fine / metal.GRAINS_IN_OUNCE == Fraction("0.6")


def test_five_cents_of_canada_in_seven_metals():
    """Silver of two standards, nickel, tombac, steel, copper-nickel, plated steel: mint reports, from memory."""
    used = {alloy_of("ca-five-cents/" + key, year).key for key, year in (
        ("victoria", 1858), ("george-v-silver", 1920), ("george-v-nickel", 1922), ("tombac-victory", 1943),
        ("steel-victory", 1944), ("elizabeth-tiara", 1982), ("charles-iii", 2023),
    )}
    assert used == {"silver-925", "silver-800", "nickel", "tombac", "steel-chromium", "copper-nickel-25", "steel-nickel"}


# --- Dates: mint reports, from memory ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "key",
    [
        "gb-penny/cartwheel", "gb-twopence/cartwheel", "gb-shilling/george-iv-garnished", "gb-sovereign/george-vi",
        "ca-twenty-cents/victoria", "ca-large-cent/george-v-1911", "ca-five-cents/tombac-beaver", "ca-five-cents/refinery",
        "ca-small-cent/centennial", "ca-silver-dollar/totem", "ca-silver-dollar/royal-visit",
    ],
)
def test_types_of_a_single_year(key):
    assert KNOWN.type(key).single_year


@pytest.mark.parametrize(
    "key, year, why",
    [
        ("gb-penny/george-v", 1924, "stopped"), ("gb-penny/george-vi", 1942, "1940"), ("gb-penny/elizabeth", 1958, "in use"),
        ("gb-threepence/george-vi", 1947, "none were struck"), ("gb-shilling/victoria-young", 1847, "none were struck"),
        ("gb-sovereign/george-vi", 1950, "1925"), ("gb-twopence/cartwheel", 1798, "1797 only"),
        ("ca-large-cent/victoria-diadem", 1865, "supply"), ("ca-small-cent/elizabeth-bare", 2013, "2012"),
        ("ca-five-cents/victoria", 1895, "none were struck"), ("ca-twenty-cents/victoria", 1870, "1858"),
        ("ca-silver-dollar/george-vi", 1942, "war"), ("ca-silver-dollar/goose", 1968, "nickel"),
    ],
)
def test_a_date_never_struck_is_refused_with_its_reason(key, year, why):
    said = KNOWN.check_date(key, year)
    assert said and str(year) in said and why in said


@pytest.mark.parametrize(
    "key, year, mint, sound",
    [
        ("gb-penny/bun-head", 1876, "H", True), ("gb-penny/bun-head", 1894, "H", False), ("gb-penny/george-v", 1919, "KN", True),
        ("gb-penny/george-v", 1912, "KN", False), ("gb-sovereign/george-v", 1918, "I", True), ("gb-sovereign/george-v", 1912, "C", False),
        ("gb-sovereign/edward-vii", 1910, "SA", False), ("ca-large-cent/edward-vii", 1907, "H", True),
        ("ca-large-cent/edward-vii", 1910, "H", False), ("gb-shilling/george-v", 1911, "H", False),
    ],
)
def test_letters_of_branch_mints_and_of_heaton_and_kings_norton(key, year, mint, sound):
    assert (KNOWN.check_date(key, year, mint) is None) == sound


@pytest.mark.parametrize(
    "key, years",
    [
        ("gb-penny/victoria-copper", (1839,)), ("gb-penny/elizabeth", (1970,)), ("gb-threepence/elizabeth", (1970,)),
        ("gb-shilling/william-iv", (1831,)), ("gb-shilling/elizabeth", (1970,)), ("gb-sovereign/george-vi", (1937,)),
    ],
)
def test_dates_known_in_proof_only(key, years):
    assert KNOWN.type(key).proof_only == years
    assert "proof only" in KNOWN.date_note(key, years[0])


def test_small_cents_of_canada_run_without_a_gap_from_1920_to_2012():
    assert struck("ca-small-cent") == set(range(1920, 2013))


def test_no_london_sovereigns_of_1897_though_the_branches_struck_them():
    """London struck none in 1897: mint reports, from memory."""
    issues = {i.mint for i in KNOWN.type("gb-sovereign/old-head").issues if i.year == 1897}
    assert issues == {"M", "S"}


# --- Designs: common practice, no source ------------------------------------------------------------------------------


def test_heads_turn_about_from_reign_to_reign_as_custom_has_it():
    """Each monarch from George IV faces the other way than the one before, but Edward VIII, of whom none were issued."""
    reigns = ["george-iii", "george-iv", "william-iv", "victoria", "edward-vii", "george-v", "george-vi", "elizabeth-ii", "charles-iii"]
    facing = {m: {v for c in ("GB", "CA") for t in types(c) if t.shows["monarch"] == (m,) for v in t.shows["facing"]} for m in reigns}
    assert [facing[m] for m in reigns] == [{w} for w in ("right", "left", "right", "left", "right", "left", "left", "right", "left")]


def test_british_issues_of_1949_and_later_have_lost_the_title_of_emperor():
    for key in ("gb-penny", "gb-threepence", "gb-shilling"):
        for t in KNOWN.of(key):
            if t.years[0] >= 1949:
                assert t.shows["india"] == ("none",), t.key
