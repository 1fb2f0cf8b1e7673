"""Half dollars and dollars as data: what a checklist of them must hold."""

import pytest

from exergue.coins import catalogue, grades

KNOWN = catalogue.load()
COINS = [*KNOWN.of("half-dollar"), *KNOWN.of("dollar")]
each_type = pytest.mark.parametrize("t", COINS, ids=lambda t: t.key)


@each_type
def test_every_type_is_weighed_and_held_to_a_magnet_before_the_deal(t):
    assert {"weight", "metal"} <= {d.feature for d in KNOWN.checklist(t.key) if d.kills}


@pytest.mark.parametrize("t", [t for t in COINS if t.years[0] < 1948], ids=lambda t: t.key)
def test_old_silver_is_searched_for_a_seam_and_a_cast_skin(t):
    assert {"edge-seam", "casting"} <= {d.key for d in KNOWN.checklist(t.key) if d.kills}


@each_type
def test_every_look_that_ends_a_deal_on_one_date_carries_a_caution(t):
    assert all(d.caution for d in t.looks if d.kills and d.years)


@each_type
def test_every_type_has_a_look_that_survives_the_heaviest_wear(t):
    assert any(d.asks == "type" and grades.parse(d.seen_at).number <= 3 for d in t.looks)


@pytest.mark.parametrize("t", [t for t in COINS if t.mints], ids=lambda t: t.key)
def test_where_mint_marks_are_borne_a_look_tells_their_place(t):
    assert any(d.feature == "mint-place" and not d.years for d in t.looks)


@pytest.mark.parametrize("t", [t for t in COINS if t.mints and len(t.years) > 1], ids=lambda t: t.key)
def test_a_look_for_a_mark_on_some_dates_passes_a_coin_without_it(t):
    """A look cannot ask for the mint, so it says what is right of the others too."""
    for d in t.looks:
        if d.feature == "mint-place" and d.kills and d.years and d.look.startswith(("On a", "On the", "If there is")):
            assert d.fits.startswith(("None", "No "))


@each_type
def test_texts_are_short_and_have_no_open_blank(t):
    assert all(len(text.split()) <= 36 for text in (t.obverse, t.reverse))
    for d in t.looks:
        assert "{" not in d.look + d.fits + d.caution
        assert all(len(text.split()) <= 40 for text in (d.fits, d.caution, *d.instead.values())), d.key


def test_the_four_seated_halves_without_motto_part_at_the_date_and_the_eagle():
    shows = {key: KNOWN.type(f"half-dollar/{key}").shows for key in (
        "seated-no-drapery", "seated-drapery", "seated-arrows-rays", "seated-arrows")}
    told = {key: (s["drapery"], s["arrows"], s["rays"]) for key, s in shows.items()}
    assert told == {
        "seated-no-drapery": (("none",), ("none",), ("none",)), "seated-drapery": (("yes",), ("none",), ("none",)),
        "seated-arrows-rays": (("yes",), ("yes",), ("yes",)), "seated-arrows": (("yes",), ("yes",), ("none",)),
    }


def test_the_dollars_of_2021_say_that_they_are_no_old_dollars():
    for key, old in (("morgan-revival", "morgan"), ("peace-revival", "peace")):
        t = KNOWN.type(f"dollar/{key}")
        assert [q.joins for q in t.questions] == [f"dollar/{old}"]
        assert t.composition == "silver-999" and KNOWN.type(f"dollar/{old}").composition == "silver-900"
        assert f"dollar/{old}" in KNOWN.near(t.key)
