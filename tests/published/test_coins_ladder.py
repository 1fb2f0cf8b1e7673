"""The ladder against the one that began it: W. H. Sheldon, Early American Cents (1949), from memory."""

import pytest

from exergue.coins import grades, ladder

SHELDON = [
    ("Basal State", 1), ("Fair", 2), ("Very Fair", 3), ("Good", 4), ("Good", 5), ("Good", 6), ("Very Good", 7),
    ("Very Good", 8), ("Very Good", 10), ("Fine", 12), ("Fine", 15), ("Very Fine", 20), ("Very Fine", 30),
    ("Extremely Fine", 40), ("About Uncirculated", 50), ("Mint State", 60), ("Mint State", 65), ("Mint State", 70),
]


@pytest.mark.parametrize("name, number", SHELDON)
def test_every_grade_of_1949_is_on_the_ladder_under_its_name(name, number):
    assert grades.parse(f"{name} {number}").number == number


def test_the_ladder_ends_at_seventy_mint_state():
    top = grades.ladder()[-1]
    assert (top.number, top.prefix) == (70, "MS")


def test_mint_state_and_proof_count_every_number_from_sixty():
    """Eleven steps from 60 to 70: common practice, no source."""
    assert ladder.STEPS["MS"].numbers == tuple(range(60, 71))
    assert [g.number for g in grades.ladder("PF") if not g.impaired] == list(range(60, 71))
