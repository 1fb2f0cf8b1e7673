"""Rarity scales against their published edges.

Sheldon, Early American Cents (1949): R-1 over 1,250, R-2 501 to 1,250, R-3 201 to 500, R-4 76 to 200, R-5 31 to 75,
R-6 13 to 30, R-7 4 to 12, R-8 1 to 3. Universal rarity scale (1992): 0 none, 1 one, 2 two, 3 three or four, 4 five to
eight, … 7 33 to 64, 8 65 to 124, 9 125 to 249, … 12 1,000 to 1,999, then doubling. Both from memory.
"""

import pytest

from exergue.coins import rarity


@pytest.mark.parametrize("known, step", [
    (1, 8), (3, 8), (4, 7), (12, 7), (13, 6), (30, 6), (31, 5), (75, 5), (76, 4), (200, 4), (201, 3), (500, 3), (501, 2),
    (1250, 2), (1251, 1), (10**9, 1),
])  # fmt: skip
def test_sheldons_edges(known, step):
    assert rarity.sheldon(known) == f"R-{step}"


@pytest.mark.parametrize("known, step", [
    (0, 0), (1, 1), (2, 2), (3, 3), (4, 3), (5, 4), (8, 4), (9, 5), (16, 5), (17, 6), (32, 6), (33, 7), (64, 7), (65, 8), (124, 8),
    (125, 9), (249, 9), (250, 10), (499, 10), (500, 11), (999, 11), (1000, 12), (1999, 12), (2000, 13), (3999, 13), (4000, 14),
    (7999, 14), (8000, 15), (15_999, 15), (16_000, 16),
])  # fmt: skip
def test_the_universal_scales_edges(known, step):
    assert rarity.universal(known) == step


def test_a_number_that_is_none_is_refused():
    with pytest.raises(ValueError):
        rarity.sheldon(0)
    with pytest.raises(ValueError):
        rarity.universal(-1)
