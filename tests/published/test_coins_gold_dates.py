"""Dates, mints, types and figures of United States gold.

Years of the mints from their published histories; counts of issues and totals of a type from printed summaries. All
from memory.
"""

import pytest

from exergue.coins import catalogue

KNOWN = catalogue.load()
DENOMINATIONS = ("gold-dollar", "quarter-eagle", "three-dollars", "half-eagle", "eagle", "double-eagle")
GOLD = [t for key in DENOMINATIONS for t in KNOWN.of(key)]
WITH_PATTERNS = [*GOLD, *KNOWN.of("four-dollars")]

OPEN = {
    "": [(1795, 1933)], "C": [(1838, 1861)], "D": [(1838, 1861), (1906, 1931)], "O": [(1838, 1861), (1879, 1909)],
    "S": [(1854, 1930)], "CC": [(1870, 1893)],
}


def issues(mint, denominations):
    return [i for t in GOLD if t.denomination in denominations for i in t.issues if i.mint == mint]


def test_no_mint_strikes_outside_its_years():
    """Charlotte and Dahlonega from 1838 to 1861; New Orleans to 1861 and 1879 to 1909; Carson City 1870 to 1893."""
    for t in GOLD:
        for i in t.issues:
            assert any(first <= i.year <= last for first, last in OPEN[i.mint]), (t.key, i.year, i.mint)


@pytest.mark.parametrize(
    "mint, denominations, years, count",
    [
        ("CC", ("half-eagle",), (1870, 1893), 19), ("CC", ("eagle",), (1870, 1893), 19),
        ("CC", ("double-eagle",), (1870, 1893), 19), ("O", ("double-eagle",), (1850, 1879), 13),
        ("O", ("three-dollars",), (1854, 1854), 1), ("D", ("gold-dollar",), (1849, 1861), 13),
        ("D", ("quarter-eagle",), (1839, 1859), 20), ("D", ("half-eagle",), (1838, 1861), 24),
        ("C", ("quarter-eagle",), (1838, 1860), 19), ("C", ("half-eagle",), (1838, 1861), 23),
        ("S", ("three-dollars",), (1855, 1870), 5),
    ],
)
def test_the_set_of_a_mint_is_as_long_as_is_printed(mint, denominations, years, count):
    found = [i for i in issues(mint, denominations) if years[0] <= i.year <= years[1]]
    assert len(found) == count


@pytest.mark.parametrize(
    "keys, count",  # by date and mint; varieties left aside
    [
        (["gold-dollar/indian-princess-small"], 6), (["quarter-eagle/indian"], 15), (["half-eagle/indian"], 24),
        (["eagle/indian-no-motto", "eagle/indian-motto"], 30), (["double-eagle/coronet-motto-twenty-d"], 29),
        (["double-eagle/high-relief", "double-eagle/saint-gaudens-no-motto", "double-eagle/saint-gaudens-motto"], 52),
    ],
)
def test_the_set_of_a_type_is_as_long_as_is_printed(keys, count):
    assert sum(len(KNOWN.type(key).issues) for key in keys) == count



def test_number_of_types_of_each_denomination():
    """As the usual complete set of gold counts: 33 of regular coins, with the two four-dollar heads 35."""
    counts = {key: len(KNOWN.of(key)) for key in [*DENOMINATIONS, "four-dollars"]}
    assert counts == {
        "gold-dollar": 3, "quarter-eagle": 8, "three-dollars": 1, "half-eagle": 9, "eagle": 6, "double-eagle": 6,
        "four-dollars": 2,
    }


def test_types_of_one_year():
    assert [t.key for t in WITH_PATTERNS if t.single_year] == [
        "quarter-eagle/capped-bust-right-no-stars", "quarter-eagle/capped-bust-left", "double-eagle/high-relief",
    ]


@pytest.mark.parametrize(
    "denomination, gaps",
    [
        ("gold-dollar", set()), ("three-dollars", set()), ("four-dollars", set()),
        ("quarter-eagle", {1799, 1800, 1801, 1803, *range(1809, 1821), 1822, 1823, 1828, *range(1916, 1925)}),
        ("half-eagle", {1801, 1816, 1817, *range(1917, 1929)}),
        ("eagle", {1802, *range(1805, 1838), 1917, 1918, 1919, *range(1921, 1926), 1927, 1928, 1929, 1931}),
        ("double-eagle", {1917, 1918, 1919}),
    ],
)
def test_years_without_coins(denomination, gaps):
    struck = {year for t in KNOWN.of(denomination) for year in t.years}
    assert set(range(min(struck), max(struck) + 1)) - struck == gaps


@pytest.mark.parametrize(
    "key, year, mint, says",
    [
        ("quarter-eagle/coronet", 1850, "S", "No Coronet quarter eagles were struck with the mint mark S in 1850."),
        ("quarter-eagle/classic-head", 1828, "", "No quarter eagles are dated 1828: none were struck."),
        ("half-eagle/coronet-no-motto", 1841, "O", "No Coronet, no motto half eagles were struck with the mint mark O in 1841."),
        ("half-eagle/indian", 1908, "O", "No Indian Head half eagles were struck with the mint mark O in 1908."),
        (
            "eagle/coronet-no-motto", 1820, "",
            "No eagles are dated 1820: eagles were stopped at the end of 1804 because they left the country as metal,"
            " and began again in 1838.",
        ),
        ("eagle/indian-motto", 1934, "", "No eagles are dated 1934: gold coinage ended in 1933."),
        (
            "gold-dollar/indian-princess-large", 1890, "",
            "No gold dollars are dated 1890: the Act of September 26, 1890 ended the gold dollar, and the last are"
            " dated 1889.",
        ),
        ("gold-dollar/liberty-head", 1854, "C", "No Liberty Head gold dollars were struck with the mint mark C in 1854."),
        (
            "double-eagle/coronet-twenty-dollars", 1876, "CC",
            "No Coronet, TWENTY DOLLARS double eagles are dated 1876; double eagles of 1876 are Coronet, motto,"
            " TWENTY D.",
        ),
        (
            "half-eagle/capped-head-left-large", 1820, "D",
            "Half eagles before 1838 bear no mint mark: all were struck at Philadelphia. Leave the mint empty.",
        ),
    ],
)
def test_says_why_such_a_coin_was_never_struck(key, year, mint, says):
    assert KNOWN.check_date(key, year, mint) == says


@pytest.mark.parametrize(
    "key, year",
    [
        ("quarter-eagle/coronet", 1863), ("half-eagle/coronet-motto", 1887),
        ("double-eagle/coronet-twenty-dollars", 1883), ("double-eagle/coronet-twenty-dollars", 1884),
        ("double-eagle/coronet-twenty-dollars", 1887),
    ],
)
def test_philadelphia_made_proofs_only_while_san_francisco_struck_for_circulation(key, year):
    struck = {i.mint: i.proof_only for i in KNOWN.type(key).issues if i.year == year}
    assert struck[""] and not struck["S"]
    assert f"{year} without a mint mark are known in proof only." in KNOWN.date_note(key, year)
    assert KNOWN.date_note(key, year, "S") is None


def test_three_dollar_pieces_of_1875_and_1876_are_proofs_and_1873_is_disputed():
    found = KNOWN.type("three-dollars/indian-princess")
    assert found.proof_only == (1875, 1876) and found.proof_disputed == (1873,)


@pytest.mark.parametrize(
    "key, figure",
    [
        ("gold-dollar/indian-princess-small", 1_633_426), ("quarter-eagle/capped-bust-right-stars", 18_524),
        ("quarter-eagle/capped-head-left-large", 17_042), ("quarter-eagle/capped-head-left-reduced", 25_023),
        ("eagle/capped-bust-right-small-eagle", 13_344), ("half-eagle/capped-bust-right-small-eagle", 18_512),
    ],
)
def test_the_figures_of_a_type_add_up_to_the_published_total(key, figure):
    assert sum(i.mintage or 0 for i in KNOWN.type(key).issues) == figure


def test_twelve_gold_coins_that_the_usual_shorter_set_asks_for_are_types_here():
    """Three gold dollars, the three-dollar piece, and the last two designs of the four eagles (common practice)."""
    late = [t for t in GOLD if t.years[-1] >= 1850]
    wanted = {
        "gold-dollar": 3, "three-dollars": 1, "quarter-eagle": 2, "half-eagle": 2, "eagle": 2, "double-eagle": 2,
    }
    found = {key: {t.family for t in late if t.denomination == key} for key in wanted}
    found["gold-dollar"] = {t.key for t in late if t.denomination == "gold-dollar"}
    assert {key: len(designs) for key, designs in found.items()} == wanted
