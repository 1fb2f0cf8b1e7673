"""Dimes, twenty cents and quarters against statutes and mint reports.

All from memory: Acts of April 2, 1792 (1 Stat. 246), January 18, 1837 (5 Stat. 136), February 21, 1853 (10 Stat. 160),
February 12, 1873 (17 Stat. 424), March 3, 1875 (18 Stat. 478), July 23, 1965 (79 Stat. 254), October 18, 1973 (87 Stat.
455), and the dates and mintages of the annual reports of the Director of the Mint as commonly printed. The weights of
31 U.S.C. 5112(a) were read.
"""

from fractions import Fraction

import pytest

from exergue.coins import catalogue, metal

KNOWN = catalogue.load()
SERIES = ("dime", "twenty-cents", "quarter")
CENTS = {"dime": 10, "twenty-cents": 20, "quarter": 25}


def years(denomination):
    return {year for t in KNOWN.of(denomination) for year in t.years}


def slugs(denomination, family=None):
    return [t.key.partition("/")[2] for t in KNOWN.of(denomination) if family in (None, t.family)]


def mintage(key, year, mint=""):
    return next(i.mintage for i in KNOWN.type(key).issues if (i.year, i.mint) == (year, mint))


def silver(key, year):
    """Grains of pure silver that the law put into one coin of that year, heaviest first."""
    t = KNOWN.type(key)
    return [
        metal.pure(w.grains, metal.ALLOYS[w.composition or t.composition].fineness("silver"))
        for w in t.weights if year in w.years
    ]


# --- weights and silver --------------------------------------------------------------------------------------------

@pytest.mark.parametrize(
    "key, year, grains",
    [
        ("dime/draped-bust-small-eagle", 1796, "41.6"),       # 1792: 416 grains a dollar
        ("dime/capped-bust-large", 1809, "41.6"),
        ("dime/seated-no-stars", 1837, "41.25"),              # 1837: 412½ grains a dollar
        ("dime/seated-drapery", 1853, "41.25"),
        ("dime/seated-arrows-1853", 1853, "38.4"),            # 1853: 192 grains a half dollar
        ("dime/seated-drapery", 1856, "38.4"),
        ("dime/seated-legend", 1873, "38.4"),
        ("quarter/draped-bust-small-eagle", 1796, "104"),
        ("quarter/seated-no-drapery", 1838, "103.125"),
        ("quarter/seated-drapery", 1853, "103.125"),
        ("quarter/seated-arrows-rays", 1853, "96"),
        ("quarter/seated-motto", 1866, "96"),
    ],
)
def test_grains_of_the_law_in_force(key, year, grains):
    assert KNOWN.type(key).grains(year) == (Fraction(grains),)


@pytest.mark.parametrize(
    "key, year, grams",
    [
        ("dime/seated-arrows-1873", 1873, "2.5"), ("dime/seated-legend", 1875, "2.5"), ("dime/barber", 1892, "2.5"),
        ("dime/winged-liberty", 1916, "2.5"), ("dime/roosevelt-silver", 1964, "2.5"),
        ("dime/roosevelt-clad", 1965, "2.268"),               # 1965; 31 U.S.C. 5112(a)(4)
        ("twenty-cents/seated-liberty", 1875, "5"),
        ("quarter/seated-motto-arrows", 1874, "6.25"), ("quarter/barber", 1916, "6.25"),
        ("quarter/standing-liberty-no-stars-below", 1917, "6.25"), ("quarter/washington-silver", 1932, "6.25"),
        ("quarter/washington-clad", 1974, "5.67"),            # 1965; 31 U.S.C. 5112(a)(3)
        ("quarter/semiquincentennial", 2026, "5.67"),
    ],
)
def test_grams_of_the_law_in_force(key, year, grams):
    assert [metal.grams(g) for g in KNOWN.type(key).grains(year)] == [Fraction(grams)]


@pytest.mark.parametrize(
    "denomination, slug, year", [("dime", "draped-bust-heraldic-eagle", 1798), ("dime", "seated-stars", 1839),
                                 ("quarter", "capped-bust-large", 1815), ("quarter", "seated-no-drapery", 1839)],
)
def test_before_1853_a_dollar_of_small_silver_held_371_and_a_quarter_grains_fine(denomination, slug, year):
    """Acts of 1792 and 1837: the alloy changed, the silver did not."""
    assert silver(f"{denomination}/{slug}", year) == [Fraction("371.25") * CENTS[denomination] / 100]


def test_the_two_standards_of_1837_hold_the_same_silver():
    for denomination in ("dime", "quarter"):
        heavy, light = silver(f"{denomination}/capped-bust-small", 1837)
        assert heavy == light


@pytest.mark.parametrize("key, year", [("dime/seated-arrows-1853", 1854), ("quarter/seated-arrows", 1855)])
def test_from_1853_a_dollar_of_small_silver_held_345_grains_and_six_tenths_fine(key, year):
    """384 grains of nine tenths."""
    assert silver(key, year) == [Fraction("345.6") * CENTS[key.partition("/")[0]] / 100]


@pytest.mark.parametrize(
    "key, year", [("dime/barber", 1900), ("twenty-cents/seated-liberty", 1876), ("quarter/barber", 1900)]
)
def test_from_1873_a_dollar_of_small_silver_weighs_twenty_five_grams(key, year):
    (grains,) = KNOWN.type(key).grains(year)
    assert metal.grams(grains) * 100 / CENTS[key.partition("/")[0]] == 25


def test_the_silver_clad_bicentennial_quarter_is_two_fifths_silver():
    """Act of October 18, 1973: 40 % silver; 5.75 g hold 2.3 g."""
    clad, part_silver = sorted(w.grains for w in KNOWN.type("quarter/bicentennial").weights)
    assert (metal.grams(clad), metal.grams(part_silver)) == (Fraction("5.67"), Fraction("5.75"))
    fine = metal.pure(part_silver, metal.ALLOYS["silver-400-clad"].fineness("silver"))
    assert metal.grams(fine) == Fraction("2.3")


# --- years and types -----------------------------------------------------------------------------------------------

def test_years_without_dimes():
    gaps = {1799, 1806, 1808, 1810, 1812, 1813, *range(1815, 1820), 1826, 1922, 1932, 1933}
    assert years("dime") == set(range(1796, 2027)) - gaps


def test_years_without_quarters():
    gaps = {*range(1797, 1804), *range(1808, 1815), 1816, 1817, 1826, 1829, 1830, 1922, 1931, 1933, 1975}
    assert years("quarter") == set(range(1796, 2027)) - gaps


def test_twenty_cents_of_four_years_the_last_two_in_proof_only():
    (only,) = KNOWN.of("twenty-cents")
    assert only.years == (1875, 1876, 1877, 1878) and only.proof_only == (1877, 1878)


def test_the_classic_count_of_types():
    """Type sets to 1964 as commonly arranged (common practice, no source): four bust dimes and four bust quarters, six
    seated of each by stars, drapery, arrows, rays, motto and legend; then Barber and what followed."""
    for denomination, bust, seated in (("dime", 4, 6), ("quarter", 4, 6)):
        assert len(slugs(denomination, "Draped Bust")) + len(slugs(denomination, "Capped Bust")) == bust
        assert len(slugs(denomination, "Seated Liberty")) == seated
    assert len([t for t in KNOWN.of("dime") if t.years[0] < 1965]) == 13
    assert len([t for t in KNOWN.of("quarter") if t.years[0] < 1965]) == 14


def test_types_of_a_single_date():
    single = [t.key for d in SERIES for t in KNOWN.of(d) if t.single_year]
    assert single == [
        "dime/emerging-liberty", "quarter/draped-bust-small-eagle", "quarter/seated-arrows-rays",
        "quarter/bicentennial", "quarter/territories", "quarter/crossing-the-delaware", "quarter/semiquincentennial",
    ]


@pytest.mark.parametrize(
    "denomination, year, types",
    [
        ("dime", 1828, ["capped-bust-large", "capped-bust-small"]),
        ("dime", 1837, ["capped-bust-small", "seated-no-stars"]),
        ("dime", 1838, ["seated-no-stars", "seated-stars"]),
        ("dime", 1853, ["seated-drapery", "seated-arrows-1853"]),
        ("dime", 1860, ["seated-drapery", "seated-legend"]),
        ("dime", 1873, ["seated-legend", "seated-arrows-1873"]),
        ("dime", 1916, ["barber", "winged-liberty"]),
        ("quarter", 1838, ["capped-bust-small", "seated-no-drapery"]),
        ("quarter", 1853, ["seated-drapery", "seated-arrows-rays"]),
        ("quarter", 1916, ["barber", "standing-liberty-no-stars-below"]),
        ("quarter", 1917, ["standing-liberty-no-stars-below", "standing-liberty-stars-below"]),
        ("quarter", 2021, ["national-sites", "crossing-the-delaware"]),
    ],
)
def test_years_in_which_two_types_were_struck(denomination, year, types):
    assert [t.key.partition("/")[2] for t in KNOWN.of(denomination) if year in t.years] == types


# --- issues that were struck, and that never were ------------------------------------------------------------------

@pytest.mark.parametrize(
    "key, year, mint",
    [
        ("dime/seated-no-stars", 1838, "O"), ("dime/seated-drapery", 1860, "S"), ("dime/seated-legend", 1860, "O"),
        ("dime/seated-legend", 1873, "CC"), ("dime/barber", 1894, "S"), ("dime/barber", 1904, "S"),
        ("dime/winged-liberty", 1916, "D"), ("dime/winged-liberty", 1921, "D"), ("dime/roosevelt-silver", 1955, "S"),
        ("dime/roosevelt-clad", 1996, "W"), ("dime/roosevelt-clad", 1985, "P"), ("dime/roosevelt-clad", 1985, ""),
        ("twenty-cents/seated-liberty", 1876, "CC"), ("quarter/seated-no-drapery", 1840, "O"),
        ("quarter/seated-arrows", 1855, "S"), ("quarter/seated-motto", 1891, "O"), ("quarter/barber", 1904, "O"),
        ("quarter/barber", 1913, "S"), ("quarter/standing-liberty-stars-below", 1927, "S"),
        ("quarter/washington-silver", 1932, "S"), ("quarter/national-sites", 2019, "W"),
    ],
)
def test_struck(key, year, mint):
    assert KNOWN.check_date(key, year, mint) is None


@pytest.mark.parametrize(
    "key, year, mint",
    [
        ("dime/seated-arrows-1853", 1855, "O"), ("dime/seated-arrows-1853", 1853, "S"), ("dime/seated-drapery", 1844, "O"),
        ("dime/seated-drapery", 1857, "S"), ("dime/seated-legend", 1873, "S"), ("dime/seated-legend", 1879, "S"),
        ("dime/barber", 1904, "O"), ("dime/barber", 1913, "D"), ("dime/barber", 1900, "CC"),
        ("dime/winged-liberty", 1921, "S"), ("dime/winged-liberty", 1923, "D"), ("dime/winged-liberty", 1930, "D"),
        ("dime/winged-liberty", 1934, "S"), ("dime/roosevelt-silver", 1956, "S"), ("dime/roosevelt-clad", 1966, "D"),
        ("dime/roosevelt-clad", 1979, "P"), ("twenty-cents/seated-liberty", 1876, "S"),
        ("twenty-cents/seated-liberty", 1875, "O"), ("quarter/seated-drapery", 1863, "S"),
        ("quarter/seated-drapery", 1846, "O"), ("quarter/seated-motto", 1873, "S"), ("quarter/seated-motto", 1870, "S"),
        ("quarter/seated-motto-arrows", 1874, "CC"), ("quarter/barber", 1904, "S"), ("quarter/barber", 1912, "D"),
        ("quarter/barber", 1916, "S"), ("quarter/standing-liberty-no-stars-below", 1916, "D"),
        ("quarter/standing-liberty-stars-below", 1925, "S"), ("quarter/washington-silver", 1934, "S"),
        ("quarter/washington-silver", 1938, "D"), ("quarter/washington-silver", 1949, "S"),
        ("quarter/national-sites", 2018, "W"),
    ],
)
def test_a_mint_mark_never_struck_is_refused_with_a_sentence(key, year, mint):
    said = KNOWN.check_date(key, year, mint)
    assert said.startswith("No ") and said.endswith(".") and mint in said


@pytest.mark.parametrize(
    "key, year, says",
    [
        ("dime/winged-liberty", 1922, "No dimes are dated 1922: "), ("dime/winged-liberty", 1933, "No dimes are dated 1933: "),
        ("dime/capped-bust-large", 1826, "No dimes are dated 1826: "), ("dime/barber", 1795, "No dimes are dated 1795: "),
        ("dime/roosevelt-silver", 1965, "No Roosevelt, silver dimes are dated 1965; dimes of 1965 are Roosevelt, clad."),
        ("dime/seated-arrows-1853", 1856, "No Seated Liberty, stars, arrows dimes are dated 1856; "),
        ("quarter/washington-clad", 1975, "No quarter dollars are dated 1975: the Mint struck the bicentennial pieces"),
        ("quarter/capped-bust-large", 1817, "No quarter dollars are dated 1817: a fire"),
        ("quarter/washington-silver", 1933, "No quarter dollars are dated 1933: "),
        ("quarter/standing-liberty-stars-below", 1916, "No Standing Liberty, stars below eagle quarter dollars are dated 1916; "),
        ("twenty-cents/seated-liberty", 1879, "No twenty-cent pieces are dated 1879: the Act of May 2, 1878"),
        ("twenty-cents/seated-liberty", 1874, "No twenty-cent pieces are dated 1874: the Act of March 3, 1875"),
    ],
)
def test_a_date_never_struck_is_refused_with_its_reason(key, year, says):
    assert KNOWN.check_date(key, year).startswith(says)


# --- mintages ------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize(
    "key, figure",
    [
        ("dime/draped-bust-small-eagle", 47_396), ("dime/draped-bust-heraldic-eagle", 422_010),
        ("quarter/draped-bust-small-eagle", 6_146), ("quarter/draped-bust-heraldic-eagle", 554_899),
    ],
)
def test_the_figures_of_a_type_add_up_to_the_total_commonly_printed(key, figure):
    assert sum(i.mintage for i in KNOWN.type(key).issues) == figure


@pytest.mark.parametrize(
    "key, year, mint, figure",
    [
        ("dime/barber", 1894, "S", 24), ("dime/barber", 1895, "O", 440_000), ("dime/winged-liberty", 1916, "D", 264_000),
        ("dime/seated-legend", 1871, "CC", 20_100), ("dime/seated-arrows-1873", 1874, "CC", 10_817),
        ("twenty-cents/seated-liberty", 1876, "CC", 10_000), ("quarter/seated-motto", 1870, "CC", 8_340),
        ("quarter/barber", 1896, "S", 188_039), ("quarter/barber", 1901, "S", 72_664), ("quarter/barber", 1913, "S", 40_000),
        ("quarter/standing-liberty-no-stars-below", 1916, "", 52_000), ("quarter/standing-liberty-stars-below", 1927, "S", 396_000),
        ("quarter/washington-silver", 1932, "D", 436_800), ("quarter/washington-silver", 1932, "S", 408_000),
    ],
)
def test_key_dates_as_the_mint_reported_them(key, year, mint, figure):
    assert mintage(key, year, mint) == figure


def test_every_mintage_says_its_source_and_that_it_is_from_memory():
    assert all("from memory" in i.source for d in SERIES for t in KNOWN.of(d) for i in t.issues if i.mintage)
