"""What stands on a head is called the same on every denomination that bears the design."""

import pytest

from exergue.coins import catalogue

KNOWN = catalogue.load()
COVERED = {
    "Seated Liberty": {"bare", "pole"}, "Barber": {"liberty-cap", "leaves"},
    "Morgan": {"liberty-cap", "soft-cap", "band"}, "Peace": {"rays"},
}


@pytest.mark.parametrize("t", [t for t in KNOWN.types.values() if t.family in COVERED], ids=lambda t: t.key)
def test_a_family_wears_the_same_on_all_its_coins(t):
    assert set(t.shows["headgear"]) == COVERED[t.family]
