"""Half dollars and dollars against the laws and the Mint's reports.

Statutes, from memory: Acts of April 2, 1792 (1 Stat. 246), January 18, 1837 (5 Stat. 136), February 21, 1853 (10 Stat.
160), February 12, 1873 (17 Stat. 424), February 28, 1878 (20 Stat. 25); Public Laws 89-81, 91-607, 93-127, 95-447;
31 U.S.C. 5112 (read). Totals: Annual Reports of the Director of the Mint, from memory.
"""

from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
HALVES = {t.key.partition("/")[2]: t for t in KNOWN.of("half-dollar")}
DOLLARS = {t.key.partition("/")[2]: t for t in KNOWN.of("dollar")}
INCH = Fraction("25.4")


def total(key):
    return sum(issue.mintage or 0 for issue in KNOWN.type(key).issues)


def struck(t, mint):
    return {i.year for i in t.issues if i.mint == mint}


@pytest.mark.parametrize(
    "key, year, grains",
    [
        ("half-dollar/flowing-hair", 1795, "208"),  # 1792, § 9: 208 grains of standard silver
        ("half-dollar/capped-bust-lettered", 1836, "208"),
        ("half-dollar/capped-bust-half-dol", 1838, "206.25"),  # 1837, § 9: 206 1/4
        ("half-dollar/seated-no-drapery", 1839, "206.25"),
        ("half-dollar/seated-drapery", 1852, "206.25"),
        ("half-dollar/seated-drapery", 1856, "192"),  # 1853, § 1: 192
        ("half-dollar/seated-arrows-rays", 1853, "192"),
        ("half-dollar/seated-arrows", 1855, "192"),
        ("half-dollar/seated-motto", 1872, "192"),
        ("dollar/flowing-hair", 1794, "416"),  # 1792, § 9: 416
        ("dollar/seated-no-motto", 1840, "412.5"),  # 1837, § 9: 412 1/2
        ("dollar/seated-motto", 1873, "412.5"),
        ("dollar/trade", 1873, "420"),  # 1873, § 15: 420
        ("dollar/morgan", 1878, "412.5"),  # 1878: as the Act of 1837
        ("dollar/peace", 1935, "412.5"),
    ],
)
def test_grains_by_the_acts(key, year, grains):
    assert KNOWN.type(key).grains(year) == (Fraction(grains),)


@pytest.mark.parametrize(
    "key, year, grams",
    [
        ("half-dollar/seated-motto-arrows", 1873, ["12.5"]),  # 1873, § 15: twelve grams and a half
        ("half-dollar/seated-motto", 1875, ["12.5"]),
        ("half-dollar/barber", 1892, ["12.5"]),
        ("half-dollar/kennedy-silver", 1964, ["12.5"]),
        ("half-dollar/kennedy-40", 1965, ["11.5"]),  # Pub. L. 89-81
        ("half-dollar/kennedy-clad", 1971, ["11.34"]),  # Pub. L. 91-607
        ("half-dollar/kennedy-clad", 1982, ["11.34"]),  # 31 U.S.C. 5112(a)(2)
        ("half-dollar/kennedy-clad", 1992, ["12.5", "11.34"]),  # Pub. L. 101-585, silver proofs
        ("half-dollar/kennedy-bicentennial", 1976, ["11.5", "11.34"]),  # Pub. L. 93-127 and 91-607
        ("dollar/eisenhower", 1972, ["24.592", "22.68"]),  # Pub. L. 91-607
        ("dollar/eisenhower", 1978, ["22.68"]),
        ("dollar/susan-b-anthony", 1979, ["8.1"]),  # Pub. L. 95-447
        ("dollar/sacagawea", 2000, ["8.1"]),  # 31 U.S.C. 5112(a)(1)
        ("dollar/presidential", 2016, ["8.1"]),
        ("dollar/morgan-revival", 2021, ["26.73"]),  # Pub. L. 116-286
    ],
)
def test_grams_by_the_acts(key, year, grams):
    assert [metal.grams(g) for g in KNOWN.type(key).grains(year)] == [Fraction(g) for g in grams]


def silver(key, year):
    """Grains of pure silver in the heaviest lawful piece of that year."""
    t = KNOWN.type(key)
    weight = max((w for w in t.weights if year in w.years), key=lambda w: w.grains)
    return metal.pure(weight.grains, metal.ALLOYS[weight.composition or t.composition].fineness("silver"))


@pytest.mark.parametrize(
    "key, year",
    [
        ("flowing-hair", 1794), ("draped-bust-heraldic-eagle", 1803), ("gobrecht", 1836), ("gobrecht", 1839),
        ("seated-no-motto", 1840), ("seated-motto", 1873), ("morgan", 1904), ("peace-high-relief", 1921), ("peace", 1935),
    ],
)
def test_the_dollar_holds_371_and_a_quarter_grains_of_silver_from_1794_to_1935(key, year):
    """Act of April 2, 1792, § 9, and every later act to that of 1878."""
    assert silver(f"dollar/{key}", year) == Fraction("371.25")


@pytest.mark.parametrize(
    "key, year, grains",
    [
        ("dollar/trade", 1875, "378"),  # nine tenths of 420
        ("half-dollar/draped-bust-heraldic-eagle", 1803, "185.625"),  # Act of 1792, § 9: 185 10/16 grains
        ("half-dollar/seated-drapery", 1840, "185.625"),  # the same by the Act of 1837
        ("half-dollar/seated-arrows-rays", 1853, "172.8"),  # nine tenths of 192
    ],
)
def test_pure_silver_in_grains(key, year, grains):
    assert silver(key, year) == Fraction(grains)


@pytest.mark.parametrize(
    "key, year, grams",
    [
        ("half-dollar/walking-liberty", 1947, "11.25"),
        ("half-dollar/kennedy-40", 1969, "4.6"),
        ("half-dollar/kennedy-bicentennial", 1976, "4.6"),
        ("dollar/eisenhower", 1971, "9.8368"),
        ("dollar/eisenhower-bicentennial", 1976, "9.8368"),
    ],
)
def test_pure_silver_in_grams(key, year, grams):
    assert metal.grams(silver(key, year)) == Fraction(grams)


@pytest.mark.parametrize("key", ["half-dollar/kennedy-clad", "dollar/susan-b-anthony", "dollar/presidential"])
def test_no_silver_in_clad_and_brass(key):
    assert metal.ALLOYS[KNOWN.type(key).composition].fineness("silver") == 0


@pytest.mark.parametrize(
    "key, inches",
    [
        ("dollar/eisenhower", "1.5"),  # Pub. L. 91-607, § 203
        ("dollar/susan-b-anthony", "1.043"),  # Pub. L. 95-447, § 2
        ("dollar/american-innovation", "1.043"),  # 31 U.S.C. 5112(a)(1)
        ("half-dollar/kennedy-clad", "1.205"),  # 31 U.S.C. 5112(a)(2)
        ("dollar/peace-revival", "1.5"),  # Pub. L. 116-286, § 2
    ],
)
def test_diameters_by_the_acts(key, inches):
    least, greatest = KNOWN.type(key).diameter
    assert least <= Fraction(inches) * INCH <= greatest


def test_the_early_dollars_add_up_to_the_coinage_under_the_act_of_1792():
    """1,439,517 dollars from 1794 to 1805, of which 321 were delivered in 1805 with older dates."""
    early = ("flowing-hair", "draped-bust-small-eagle", "draped-bust-heraldic-eagle")
    assert sum(total(f"dollar/{key}") for key in early) == 1_439_517 - 321


def test_the_dollars_of_1795_add_up():
    """203,033 in the reports for both designs."""
    assert sum(i.mintage or 0 for t in DOLLARS.values() for i in t.issues if i.year == 1795) == 203_033


def test_the_trade_dollars_add_up_to_the_total_of_the_reports():
    """35,965,924 to 1883; the fifteen of 1884 and 1885 stand in no report."""
    late = sum(i.mintage for i in DOLLARS["trade"].issues if i.year > 1883)
    assert late == 15
    assert total("dollar/trade") - late == 35_965_924


def test_the_dollars_of_1921_to_1928_replace_those_melted_under_the_act_of_1918():
    """Act of April 23, 1918 (40 Stat. 535): 270,232,722 dollars were melted, and as many were to be struck anew."""
    anew = sum(
        i.mintage for key in ("morgan", "peace-high-relief", "peace") for i in DOLLARS[key].issues if 1921 <= i.year <= 1928
    )
    assert anew == 270_232_722


def test_the_peace_dollars_add_up():
    assert total("dollar/peace-high-relief") + total("dollar/peace") == 190_577_279


def test_the_halves_of_1861_o_add_up_by_government():
    """330,000 of the Union, 1,240,000 of Louisiana, 962,633 of the Confederacy."""
    of_1861 = next(i for i in HALVES["seated-drapery"].issues if (i.year, i.mint) == (1861, "O"))
    assert of_1861.mintage == 330_000 + 1_240_000 + 962_633


def test_years_without_half_dollars():
    years = {year for t in HALVES.values() for year in t.years}
    gaps = {1798, 1799, 1800, 1804, 1816, 1922, 1924, 1925, 1926, 1930, 1931, 1932, 1975}
    assert years == set(range(1794, 2027)) - gaps


def test_years_without_dollars():
    years = {year for t in DOLLARS.values() for year in t.years}
    gaps = {
        *range(1805, 1836), 1837, *range(1905, 1921), *range(1929, 1934), *range(1936, 1971), 1975, *range(1982, 1999),
    }
    assert years == set(range(1794, 2027)) - gaps


def test_types_of_one_year():
    assert [t.key for t in KNOWN.types.values() if t.denomination in ("half-dollar", "dollar") and t.single_year] == [
        "half-dollar/seated-no-drapery", "half-dollar/seated-arrows-rays", "half-dollar/kennedy-silver",
        "half-dollar/kennedy-bicentennial", "half-dollar/enduring-liberty", "dollar/peace-high-relief", "dollar/eisenhower-bicentennial",
    ]


def test_years_known_in_proof_only():
    assert DOLLARS["trade"].proof_only == tuple(range(1879, 1886))
    assert DOLLARS["seated-no-motto"].proof_only == (1858,)
    assert DOLLARS["draped-bust-heraldic-eagle"].proof_only == (1804,)
    assert KNOWN.date_note("dollar/trade", 1884) == "Dollars dated 1884 are known in proof only."


@pytest.mark.parametrize("year, pieces", [(1851, 1_300), (1852, 1_100)])
def test_the_rare_dollars_of_1851_and_1852_were_coined_for_circulation_too(year, pieces):
    """Mint reports of the two years; the proofs were made later."""
    assert KNOWN.date_note("dollar/seated-no-motto", year) is None
    assert [i.mintage for i in DOLLARS["seated-no-motto"].issues if (i.year, i.mint) == (year, "")] == [pieces]


@pytest.mark.parametrize("key, year, mint", [("trade", 1878, "S"), ("morgan", 1895, "O")])
def test_years_known_in_proof_only_without_a_mint_mark(key, year, mint):
    note = KNOWN.date_note(f"dollar/{key}", year, "")
    assert note == f"Dollars dated {year} without a mint mark are known in proof only."
    assert KNOWN.date_note(f"dollar/{key}", year, mint) is None


def test_mints_of_the_morgan_dollar():
    morgan = DOLLARS["morgan"]
    early = set(range(1878, 1905))
    assert struck(morgan, "") == struck(morgan, "S") == early | {1921}
    assert struck(morgan, "O") == early - {1878}
    assert struck(morgan, "CC") == {*range(1878, 1886), *range(1889, 1894)}  # closed from 1885 to 1889
    assert struck(morgan, "D") == {1921}


@pytest.mark.parametrize(
    "key, count",
    [("walking-liberty", 65), ("franklin", 35), ("barber", 73)],
)
def test_date_and_mint_sets_have_their_usual_number_of_coins(key, count):
    """Common practice, no source; for the Walking Liberty the two places of the mint mark of 1917 count apart."""
    t = HALVES[key]
    twice = 2 if key == "walking-liberty" else 0
    assert len(t.issues) + twice == count


def test_the_peace_dollars_are_twenty_four():
    """Common practice, no source."""
    assert len(DOLLARS["peace"].issues) + len(DOLLARS["peace-high-relief"].issues) == 24


def test_number_of_types_in_the_classic_sets():
    """Fifteen silver halves before Kennedy, ten silver dollars to 1935 with the high relief: common practice."""
    assert sum(t.years[-1] < 1964 for t in HALVES.values()) == 15
    assert sum(t.years[-1] < 1936 for t in DOLLARS.values()) == 10


@pytest.mark.parametrize(
    "key, year, mint, told",
    [
        ("half-dollar/capped-bust-lettered", 1816, "", "fire"),
        ("half-dollar/draped-bust-heraldic-eagle", 1804, "", "1805"),
        ("half-dollar/walking-liberty", 1922, "", "dollars"),
        ("half-dollar/kennedy-clad", 1975, "D", "1776-1976"),
        ("half-dollar/walking-liberty", 1940, "D", "mint mark D in 1940"),
        ("half-dollar/barber", 1910, "D", "mint mark D in 1910"),
        ("half-dollar/seated-motto", 1873, "S", "mint mark S in 1873"),
        ("half-dollar/seated-arrows", 1853, "", "Seated Liberty, arrows and rays"),
        ("dollar/seated-no-motto", 1837, "", "1836"),
        ("dollar/seated-motto", 1873, "S", "mint mark S in 1873"),
        ("dollar/morgan", 1893, "D", "mint mark D in 1893"),
        ("dollar/morgan", 1910, "", "April 23, 1918"),
        ("dollar/peace", 1964, "D", "melted"),
        ("dollar/peace", 1930, "", "April 23, 1918"),
        ("dollar/susan-b-anthony", 1990, "", "vaults"),
        ("dollar/morgan-revival", 2022, "", "Native American or American Innovation"),
    ],
)
def test_a_coin_that_was_never_struck_is_refused_with_the_reason(key, year, mint, told):
    assert told in KNOWN.check_date(key, year, mint)


@pytest.mark.parametrize(
    "denomination, said, year, key",
    [
        ("half-dollar", "Walker", None, "half-dollar/walking-liberty"),
        ("half-dollar", "Bust half", 1825, "half-dollar/capped-bust-lettered"),
        ("half-dollar", "Seated", 1861, "half-dollar/seated-drapery"),
        ("half-dollar", "Seated", 1880, "half-dollar/seated-motto"),
        ("half-dollar", "arrows", 1874, "half-dollar/seated-motto-arrows"),
        ("half-dollar", "Kennedy", 1968, "half-dollar/kennedy-40"),
        ("half-dollar", "JFK", 1998, "half-dollar/kennedy-clad"),
        ("half-dollar", "silver proof Kennedy", 1998, "half-dollar/kennedy-clad"),
        ("half-dollar", "Kennedy", 1976, "half-dollar/kennedy-bicentennial"),
        ("dollar", "Peace", 1921, "dollar/peace-high-relief"),
        ("dollar", "Peace dollar", 1923, "dollar/peace"),
        ("dollar", "Morgan", 1881, "dollar/morgan"),
        ("dollar", "Ike", 1974, "dollar/eisenhower"),
        ("dollar", "Ike", 1976, "dollar/eisenhower-bicentennial"),
        ("dollar", "SBA", None, "dollar/susan-b-anthony"),
        ("dollar", "Sac", 2001, "dollar/sacagawea"),
        ("dollar", "T$", None, "dollar/trade"),
        ("dollar", "Trade dollar", None, "dollar/trade"),
        ("dollar", "Trade dollar", 1878, "dollar/trade"),
        ("dollar", "Peace", None, "dollar/peace"),
        ("dollar", "Peace", 2023, "dollar/peace-revival"),
        ("dollar", "Liberty Head (Morgan)", 1882, "dollar/morgan"),
        ("half-dollar", "Liberty Head (Barber)", 1912, "half-dollar/barber"),
        ("dollar", "Seated", 1871, "dollar/seated-motto"),
    ],
)
def test_what_dealers_write_on_a_flip_names_the_type(denomination, said, year, key):
    """Common practice, no source."""
    assert [t.key for t in KNOWN.find_type(denomination, said, year)] == [key]


@pytest.mark.parametrize(
    "said, year, keys",
    [
        ("Seated", 1839, {"seated-no-drapery", "seated-drapery"}),
        ("Seated Liberty", 1853, {"seated-drapery", "seated-arrows-rays"}),
        ("Liberty Seated", 1873, {"seated-motto", "seated-motto-arrows"}),
        ("Capped Bust, reeded edge", None, {"capped-bust-50-cents", "capped-bust-half-dol"}),
    ],
)
def test_words_that_fit_two_types_of_a_year_leave_the_choice(said, year, keys):
    assert {t.key.partition("/")[2] for t in KNOWN.find_type("half-dollar", said, year)} == keys
