"""Dates and mintages of early copper against published lists.

Years, gaps and figures of half cents: general encyclopedias and several printed summaries (read); totals by type: two
published type summaries (read). Large cents by year: from memory, their Draped Bust total from a published summary.
"""

import pytest

from exergue.coins import catalogue

KNOWN = catalogue.load()


def years(denomination):
    return {year for t in KNOWN.of(denomination) for year in t.years}


def total(key):
    return sum(issue.mintage or 0 for issue in KNOWN.type(key).issues)


def test_no_half_cents_of_these_years():
    gaps = {1798, 1799, 1801, *range(1812, 1825), 1827, 1830, 1837, 1838, 1839}
    assert years("half-cent") == set(range(1793, 1858)) - gaps


def test_large_cents_of_every_year_but_one():
    assert years("large-cent") == set(range(1793, 1858)) - {1815}


def test_half_cents_of_the_1840s_to_1848_and_of_1836_and_1852_are_proofs_only():
    only = {year for t in KNOWN.of("half-cent") for year in t.proof_only}
    assert only == {1836, *range(1840, 1849), 1852}


def test_1831_is_struck_and_its_making_disputed():
    classic = KNOWN.type("half-cent/classic-head")
    assert 1831 in classic.years and classic.proof_disputed == (1831,)
    assert next(i.mintage for i in classic.issues if i.year == 1831) == 2200


@pytest.mark.parametrize(
    "key, figure",
    [
        ("half-cent/liberty-cap-left", 35_334),
        ("half-cent/draped-bust", 3_416_950),
        ("half-cent/classic-head", 3_517_912),
        ("half-cent/braided-hair", 544_510),
        ("large-cent/chain", 36_103),
        ("large-cent/wreath", 63_353),
        ("large-cent/liberty-cap", 1_577_902),  # from memory
        ("large-cent/draped-bust", 16_111_810),
        ("large-cent/classic-head", 4_757_722),  # from memory
    ],
)
def test_the_figures_of_a_type_add_up_to_the_published_total(key, figure):
    assert total(key) == figure


def test_the_cents_of_1793_are_of_three_types():
    assert [t.key for t in KNOWN.find_type("large-cent", "", 1793)] == [
        "large-cent/chain", "large-cent/wreath", "large-cent/liberty-cap",
    ]
