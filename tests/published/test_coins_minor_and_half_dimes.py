"""Small cents, two and three cents, half dimes and nickels against the Acts and the Mint's figures.

Everything here is from memory. Acts: April 2, 1792 (1 Stat. 246); January 18, 1837 (5 Stat. 136); March 3, 1851
(9 Stat. 587); February 21 and March 3, 1853 (10 Stat. 160, 181); February 21, 1857 (11 Stat. 163); April 22, 1864
(13 Stat. 54); March 3, 1865 (13 Stat. 517); May 16, 1866 (14 Stat. 47); February 12, 1873 (17 Stat. 424); December 18,
1942 (56 Stat. 1064); 31 U.S.C. 5112. Mintages: annual reports of the Director of the Mint, and the Mint's production
figures of 2004 to 2009. Which designs count as types: the usual type set, common practice.
"""

from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
GROUP = ("small-cent", "two-cents", "three-cents-silver", "three-cents-nickel", "half-dime", "five-cents")


def years(denomination):
    return {year for t in KNOWN.of(denomination) for year in t.years}


def struck(key, mint):
    return {issue.year for issue in KNOWN.type(key).issues if issue.mint == mint}


def silver(key, year):
    """Grains of pure silver in a lawful piece of that year."""
    found = KNOWN.type(key)
    weight = next(w for w in found.weights if year in w.years)
    return metal.pure(weight.grains, metal.ALLOYS[weight.composition or found.composition].fineness("silver"))


@pytest.mark.parametrize(
    "key, year, grains",
    [
        ("small-cent/flying-eagle", 1857, "72"), ("small-cent/indian-copper-nickel", 1864, "72"),  # 1857, § 4
        ("small-cent/indian-bronze", 1864, "48"), ("two-cents/shield", 1864, "96"),  # 1864, § 1
        ("small-cent/lincoln-wheat", 1909, "48"), ("small-cent/lincoln-memorial-bronze", 1982, "48"),  # 1873, § 16
        ("three-cents-silver/no-outlines", 1851, "12.375"),  # 1851, § 11: twelve grains and three eighths
        ("three-cents-silver/three-outlines", 1854, "11.52"),  # March 3, 1853, § 7
        ("three-cents-nickel/liberty", 1865, "30"),  # 1865, § 1
        ("half-dime/half-disme", 1792, "20.8"), ("half-dime/draped-bust-heraldic", 1805, "20.8"),  # 1792, § 9
        ("half-dime/capped-bust", 1836, "20.8"), ("half-dime/capped-bust", 1837, "20.625"),  # 1837, § 9
        ("half-dime/seated-no-stars", 1838, "20.625"), ("half-dime/seated-arrows", 1853, "19.2"),  # Feb. 21, 1853, § 1
        ("half-dime/seated-legend", 1873, "19.2"),
        ("five-cents/shield-rays", 1866, "77.16"), ("five-cents/liberty-cents", 1912, "77.16"),  # 1866, § 1
    ],
)
def test_each_type_weighs_what_the_act_of_its_year_asked(key, year, grains):
    assert KNOWN.type(key).grains(year) == (Fraction(grains),)


def test_half_dimes_before_and_after_1853_weigh_what_their_years_asked():
    seated = KNOWN.type("half-dime/seated-stars")
    assert {seated.grains(year) for year in range(1840, 1854)} == {(Fraction("20.625"),)}
    assert {seated.grains(year) for year in range(1856, 1860)} == {(Fraction("19.2"),)}


@pytest.mark.parametrize(
    "key, year, grams",
    [
        ("small-cent/lincoln-memorial-bronze", 1981, "3.11"),  # 31 U.S.C. 5112(a)(6)
        ("small-cent/lincoln-union", 2010, "2.5"), ("five-cents/jefferson-monticello-2006", 2006, "5"),  # (a)(5)
        ("five-cents/shield-no-rays", 1867, "5"), ("five-cents/jefferson-wartime", 1943, "5"),  # 1866: five grams
        ("small-cent/flying-eagle", 1858, "4.67"), ("two-cents/shield", 1865, "6.22"),  # as commonly printed
        ("three-cents-silver/no-outlines", 1852, "0.80"), ("three-cents-silver/two-outlines", 1860, "0.75"),
        ("three-cents-nickel/liberty", 1880, "1.94"), ("half-dime/flowing-hair", 1795, "1.35"),
        ("half-dime/seated-stars", 1845, "1.34"), ("half-dime/seated-legend", 1861, "1.24"),
    ],
)
def test_the_weights_in_grams_are_those_commonly_printed(key, year, grams):
    assert [round(metal.grams(g), 2) for g in KNOWN.type(key).grains(year)] == [Fraction(grams)]


def test_steel_cents_have_the_two_weights_of_1943_and_are_the_only_metal_a_magnet_draws():
    assert [round(metal.grams(g), 3) for g in KNOWN.type("small-cent/lincoln-steel").grains(1943)] == [
        Fraction("2.754"), Fraction("2.689"),  # 42½ and 41½ grains
    ]
    drawn = {t.key for name in GROUP for t in KNOWN.of(name) if metal.ALLOYS[t.composition].fineness("iron") > 0}
    assert drawn == {"small-cent/lincoln-steel"}
    assert not any(d.key == "magnet" for d in KNOWN.checklist("small-cent/lincoln-steel"))


def test_the_half_dime_kept_its_silver_in_1837_and_lost_seven_hundredths_of_it_in_1853():
    """371¼ grains in the dollar by the Acts of 1792 and 1837; 345.6 in two half dollars by that of 1853."""
    kept = {silver("half-dime/draped-bust-small-eagle", 1796), silver("half-dime/capped-bust", 1836),
            silver("half-dime/capped-bust", 1837), silver("half-dime/seated-stars", 1850)}
    assert kept == {Fraction("371.25") / 20}
    assert silver("half-dime/seated-arrows", 1854) == Fraction("345.6") / 20


def test_the_three_cent_piece_of_1853_is_three_fiftieths_of_a_half_dollar_and_holds_more_silver():
    assert KNOWN.type("three-cents-silver/two-outlines").grains(1859) == (192 * Fraction(3, 50),)
    assert silver("three-cents-silver/no-outlines", 1851) == Fraction("9.28125")
    assert silver("three-cents-silver/three-outlines", 1854) == Fraction("10.368")


def test_a_wartime_nickel_holds_a_gram_and_three_quarters_of_silver():
    assert round(silver("five-cents/jefferson-wartime", 1944) * metal.GRAMS_IN_GRAIN, 4) == Fraction("1.75")


def test_metals_follow_the_acts():
    """1857: 88 copper, 12 nickel. 1864: 95 copper, 5 tin and zinc. 1865, 1866: at most a quarter of nickel."""
    of = {name: metal.ALLOYS[KNOWN.type(name).composition] for name in KNOWN.types}
    assert of["small-cent/indian-laurel"].fineness("nickel") == Fraction(12, 100)
    assert of["two-cents/shield"].fineness("copper") == of["small-cent/indian-bronze"].fineness("copper") == Fraction(95, 100)
    for key in ("three-cents-nickel/liberty", "five-cents/shield-rays", "five-cents/buffalo-line", "five-cents/jefferson-ocean"):
        assert of[key].fineness("nickel") == Fraction(1, 4)
    wheat = KNOWN.type("small-cent/lincoln-wheat")
    assert {y for w in wheat.weights if w.composition == "brass-95" for y in w.years} == {1944, 1945, 1946}


def test_types_of_the_usual_set():
    assert {name: len(KNOWN.of(name)) for name in GROUP} == {
        "small-cent": 13, "two-cents": 1, "three-cents-silver": 3, "three-cents-nickel": 1, "half-dime": 10, "five-cents": 13,
    }


def test_types_of_a_single_year():
    assert {(t.key, t.years[0]) for name in GROUP for t in KNOWN.of(name) if t.single_year} == {
        ("small-cent/indian-laurel", 1859), ("small-cent/lincoln-steel", 1943),
        ("small-cent/lincoln-birthplace", 2009), ("small-cent/lincoln-formative", 2009),
        ("small-cent/lincoln-professional", 2009), ("small-cent/lincoln-presidency", 2009),
        ("half-dime/half-disme", 1792), ("five-cents/liberty-no-cents", 1883), ("five-cents/buffalo-mound", 1913),
        ("five-cents/jefferson-peace", 2004), ("five-cents/jefferson-keelboat", 2004),
        ("five-cents/jefferson-bison", 2005), ("five-cents/jefferson-ocean", 2005),
    }


def test_dates_of_two_types_are_those_of_the_changes():
    shared = {}
    for name in GROUP:
        for year in years(name):
            count = sum(year in t.years for t in KNOWN.of(name))
            if count > 1:
                shared[name, year] = count
    assert shared == {
        ("small-cent", 1864): 2, ("small-cent", 1909): 2, ("small-cent", 1982): 2, ("small-cent", 2009): 4,
        ("half-dime", 1837): 2, ("half-dime", 1838): 2, ("half-dime", 1840): 2, ("half-dime", 1853): 2,
        ("five-cents", 1867): 2, ("five-cents", 1883): 3, ("five-cents", 1913): 3, ("five-cents", 1942): 2,
        ("five-cents", 1938): 2, ("five-cents", 2004): 2, ("five-cents", 2005): 2,
    }


def test_dates_known_in_proof_only():
    assert {(name, year) for name in GROUP for t in KNOWN.of(name) for year in t.proof_only} == {
        ("two-cents", 1873), ("three-cents-silver", 1873), ("three-cents-nickel", 1877), ("three-cents-nickel", 1878),
        ("three-cents-nickel", 1886), ("five-cents", 1877), ("five-cents", 1878),
    }


def test_years_without_coins():
    assert set(range(1792, 1874)) - years("half-dime") == {1793, 1798, 1799, 1804, *range(1806, 1829)}
    assert set(range(1866, 2025)) - years("five-cents") == {1922, 1932, 1933}
    assert set(range(1857, 2026)) <= years("small-cent")
    assert years("two-cents") == set(range(1864, 1874)) and years("three-cents-silver") == set(range(1851, 1874))
    assert years("three-cents-nickel") == set(range(1865, 1890))


@pytest.mark.parametrize(
    "key, year, mint, says",
    [
        ("small-cent/lincoln-wheat", 1943, "", "No Lincoln, wheat ears small cents are dated 1943; small cents of 1943 are Lincoln, steel."),
        ("small-cent/lincoln-wheat", 1922, "S", "were struck with the mint mark S in 1922"),
        ("small-cent/lincoln-wheat", 1921, "D", "were struck with the mint mark D in 1921"),
        ("small-cent/lincoln-wheat", 1934, "S", "were struck with the mint mark S in 1934"),
        ("small-cent/indian-bronze", 1907, "S", "were struck with the mint mark S in 1907"),
        ("small-cent/indian-bronze", 1909, "D", "bear the mint mark D; they bear S"),
        ("small-cent/lincoln-memorial-bronze", 1965, "D", "were struck with the mint mark D in 1965"),
        ("small-cent/lincoln-union", 2016, "P", "were struck with the mint mark P in 2016"),
        ("small-cent/flying-eagle", 1855, "", "No small cents are dated 1855: the first small cents are the patterns of 1856"),
        ("two-cents/shield", 1874, "", "No two-cent pieces are dated 1874: the Act of February 12, 1873"),
        ("two-cents/shield", 1870, "S", "Two-cent pieces bear no mint mark"),
        ("three-cents-silver/no-outlines", 1852, "O", "were struck with the mint mark O in 1852"),
        ("three-cents-nickel/liberty", 1890, "", "No nickel three-cent pieces are dated 1890: the Act of September 26, 1890"),
        ("half-dime/draped-bust-heraldic", 1804, "", "No half dimes are dated 1804: none are known"),
        ("half-dime/capped-bust", 1828, "", "No half dimes are dated 1828: coinage stopped after 1805"),
        ("half-dime/seated-stars", 1843, "O", "were struck with the mint mark O in 1843"),
        ("half-dime/seated-legend", 1861, "O", "were struck with the mint mark O in 1861"),
        ("five-cents/buffalo-line", 1922, "", "No nickel five-cent pieces are dated 1922: none were struck at any mint."),
        ("five-cents/buffalo-line", 1931, "D", "were struck with the mint mark D in 1931"),
        ("five-cents/buffalo-line", 1938, "S", "were struck with the mint mark S in 1938"),
        ("five-cents/jefferson-monticello", 1942, "S", "were struck with the mint mark S in 1942"),
        ("five-cents/jefferson-monticello", 1950, "S", "were struck with the mint mark S in 1950"),
        ("five-cents/jefferson-wartime", 1942, "D", "were struck with the mint mark D in 1942"),
    ],
)
def test_dates_never_struck_are_refused_with_the_reason(key, year, mint, says):
    assert says in KNOWN.check_date(key, year, mint)


@pytest.mark.parametrize(
    "key, mint, first, last",
    [
        ("small-cent/indian-bronze", "S", 1908, 1909), ("small-cent/lincoln-wheat", "D", 1911, 1958),
        ("small-cent/lincoln-wheat", "S", 1909, 1955), ("small-cent/lincoln-union", "P", 2017, 2017),
        ("small-cent/lincoln-union", "W", 2019, 2019), ("five-cents/liberty-cents", "D", 1912, 1912),
        ("five-cents/liberty-cents", "S", 1912, 1912), ("five-cents/jefferson-wartime", "P", 1942, 1945),
        ("five-cents/jefferson-monticello", "P", 1980, 2003), ("five-cents/jefferson-monticello-2006", "W", 2020, 2020),
        ("half-dime/seated-no-stars", "O", 1838, 1838), ("half-dime/seated-legend", "S", 1863, 1873),
        ("three-cents-silver/no-outlines", "O", 1851, 1851),
    ],
)
def test_first_and_last_dates_of_a_mint_mark(key, mint, first, last):
    assert (min(struck(key, mint)), max(struck(key, mint))) == (first, last)


@pytest.mark.parametrize(
    "key, total",
    [
        ("small-cent/flying-eagle", 42_050_000), ("small-cent/indian-copper-nickel", 122_321_000),
        ("small-cent/lincoln-steel", 1_093_838_670), ("small-cent/lincoln-birthplace", 634_800_000),
        ("small-cent/lincoln-formative", 739_600_000), ("small-cent/lincoln-professional", 652_000_000),
        ("small-cent/lincoln-presidency", 327_600_000), ("two-cents/shield", 45_601_000),
        ("three-cents-silver/no-outlines", 36_230_900), ("half-dime/capped-bust", 13_058_700),
        ("five-cents/buffalo-mound", 38_434_000), ("five-cents/jefferson-peace", 733_440_000),
        ("five-cents/jefferson-keelboat", 711_600_000), ("five-cents/jefferson-bison", 936_000_000),
        ("five-cents/jefferson-ocean", 805_200_000),
    ],
)
def test_the_figures_of_a_type_add_up_to_the_total_as_printed(key, total):
    assert sum(issue.mintage or 0 for issue in KNOWN.type(key).issues) == total


@pytest.mark.parametrize(
    "denomination, text, year, keys",
    [
        ("small-cent", "Indian Head", 1859, ["indian-laurel"]),
        ("small-cent", "Indian Head", 1864, ["indian-copper-nickel", "indian-bronze"]),
        ("small-cent", "Wheatie", None, ["lincoln-wheat"]), ("small-cent", "Steelie", None, ["lincoln-steel"]),
        ("small-cent", "Memorial", 1982, ["lincoln-memorial-bronze", "lincoln-memorial-zinc"]),
        ("five-cents", "Buffalo", 1913, ["buffalo-mound", "buffalo-line"]),
        ("five-cents", "V nickel", 1883, ["liberty-no-cents", "liberty-cents"]),
        ("five-cents", "War nickel", None, ["jefferson-wartime"]),
        ("half-dime", "Seated, stars", 1853, ["seated-stars", "seated-arrows"]),
        ("three-cents-silver", "Type II", None, ["three-outlines"]),
    ],
)
def test_the_names_on_a_flip_find_the_type_and_leave_open_what_the_date_leaves_open(denomination, text, year, keys):
    """Spoken names of the trade: common practice, no source."""
    assert [t.key for t in KNOWN.find_type(denomination, text, year)] == [f"{denomination}/{key}" for key in keys]
