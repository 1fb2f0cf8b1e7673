"""The half cents and large cents as data: complete, consistent, in order."""

import pytest

from exergue.coins import catalogue, grades

KNOWN = catalogue.load()
COPPER = [*KNOWN.of("half-cent"), *KNOWN.of("large-cent")]


def test_the_types_of_the_series_stand_in_order_of_time():
    assert [t.name for t in KNOWN.of("half-cent")] == [
        "Liberty Cap, facing left", "Liberty Cap, facing right", "Draped Bust", "Classic Head", "Braided Hair",
    ]
    assert [t.name for t in KNOWN.of("large-cent")] == [
        "Flowing Hair, Chain", "Flowing Hair, Wreath", "Liberty Cap", "Draped Bust", "Classic Head", "Matron Head",
        "Braided Hair",
    ]


def test_single_year_types_are_those_of_1793():
    assert [t.key for t in COPPER if t.single_year] == [
        "half-cent/liberty-cap-left", "large-cent/chain", "large-cent/wreath",
    ]


@pytest.mark.parametrize("t", COPPER, ids=lambda t: t.key)
def test_every_type_can_be_weighed_and_searched_for_a_seam_before_the_deal(t):
    kills = {d.key for d in KNOWN.checklist(t.key) if d.kills}
    assert {"weight", "edge-seam", "casting"} <= kills


@pytest.mark.parametrize("t", COPPER, ids=lambda t: t.key)
def test_every_type_has_a_look_that_survives_the_heaviest_wear(t):
    assert any(d.asks == "type" and grades.parse(d.seen_at).number == 1 for d in t.looks)


@pytest.mark.parametrize("t", COPPER, ids=lambda t: t.key)
def test_every_look_that_ends_a_deal_on_one_date_carries_a_caution(t):
    assert all(d.caution for d in t.looks if d.kills and d.years)


def test_no_blank_of_a_shared_look_stays_open():
    assert not [d for t in COPPER for d in t.looks if "{" in d.fits + d.look + d.caution]


def test_the_weight_look_tells_both_weights_where_the_law_changed():
    fits = next(d.fits for d in KNOWN.type("half-cent/liberty-cap-right").looks if d.key == "weight")
    assert fits.startswith("104 gr (6.74 g) for 1794–1795, 84 gr (5.44 g) for 1795–1797 by law.")
    fits = next(d.fits for d in KNOWN.type("large-cent/matron-head").looks if d.key == "weight")
    assert fits.startswith("168 gr (10.89 g) by law.")


def test_the_two_liberty_cap_half_cents_part_at_the_first_glance():
    left, right = KNOWN.of("half-cent")[:2]
    facing = {t.key: next(d for d in t.looks if d.key == "facing") for t in (left, right)}
    assert facing[left.key].values == ("left",) and facing[right.key].values == ("right",)
    assert facing[left.key].instead[right.key] == "Right."
