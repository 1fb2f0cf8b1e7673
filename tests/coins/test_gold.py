"""The gold coins as data: what a checklist of gold must hold, and a proof of one mint only."""

import pytest

from exergue.coins import catalogue, grades

KNOWN = catalogue.load()
GOLD = [t for t in KNOWN.types.values() if t.shows.get("colour") == ("gold",) and t.denomination in {
    "gold-dollar", "quarter-eagle", "three-dollars", "four-dollars", "half-eagle", "eagle", "double-eagle"}]


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_every_gold_coin_is_weighed_and_searched_before_the_deal(t):
    assert {"weight", "seam", "skin"} <= {d.feature for d in KNOWN.checklist(t.key) if d.kills}


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_the_caution_on_melt_is_told_once_where_a_law_set_the_weight(t):
    assert sum("melt" in d.caution for d in t.looks) == (1 if t.weights else 0)


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_every_look_that_ends_a_deal_on_one_date_carries_a_caution(t):
    assert all(d.caution for d in t.looks if d.kills and d.years)


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_every_type_has_a_look_that_survives_the_heaviest_wear(t):
    assert any(d.asks == "type" and grades.parse(d.seen_at).number <= 3 for d in t.looks)


@pytest.mark.parametrize("t", GOLD, ids=lambda t: t.key)
def test_texts_of_a_checklist_are_short_and_have_no_open_blank(t):
    for d in t.looks:
        assert "{" not in d.look + d.fits + d.caution
        assert all(len(text.split()) <= 40 for text in (d.fits, d.caution, *d.instead.values())), d.key


def test_a_dealers_short_names_find_the_type_of_their_year():
    for denomination, said, year, key in [
        ("gold-dollar", "Type 1", 1851, "liberty-head"), ("gold-dollar", "T2", 1855, "indian-princess-small"),
        ("quarter-eagle", "Liberty", 1902, "coronet"), ("half-eagle", "Indian", 1909, "indian"),
        ("eagle", "Liberty", 1901, "coronet-motto"), ("double-eagle", "Saint", 1924, "saint-gaudens-motto"),
        ("double-eagle", "Saint", 1907, None), ("double-eagle", "Type 2", None, "coronet-motto-twenty-d"),
        ("half-eagle", "Liberty Head, motto", None, "coronet-motto"), ("eagle", "Indian NM", None, "indian-no-motto"),
        ("double-eagle", "St. Gaudens", 1922, "saint-gaudens-motto"), ("double-eagle", "$20 Lib", 1904, "coronet-twenty-dollars"),
        ("double-eagle", "High Relief", None, "high-relief"), ("quarter-eagle", "Classic", 1834, "classic-head"),
    ]:
        found = [t.key for t in KNOWN.find_type(denomination, said, year)]
        assert len(found) == 2 if key is None else found == [f"{denomination}/{key}"], (said, year)


def test_a_proof_of_one_mint_is_noted_for_that_mint_only(tmp_path):
    (tmp_path / "mine.toml").write_text('''
denomination = "half-ducat"
[denomination_is]
name = "Half ducat"
plural = "half ducats"
country = "XX"
face = "50"
years = "1860-1861"
[[type]]
key = "shield"
name = "Shield"
years = "1860-1861"
mints = ["A", "B"]
obverse = "Head."
reverse = "Shield."
edge = "Plain"
axis = "coin"
composition = "gold-900"
diameter_mm = ["20", "20"]
[type.struck]
- = 1860
A = "1860-1861"
[[type.issue]]
year = 1861
mint = "B"
proof_only = true
note = "Ten were made."
[[type.look]]
key = "facing"
feature = "facing"
fits = "Left."
values = ["left"]
seen_at = "G-4"
''', encoding="utf-8")
    known = catalogue.load(tmp_path)
    assert known.problems == []
    note = known.date_note("half-ducat/shield", 1861, "b")
    assert note == "Half ducats dated 1861 with the mint mark B are known in proof only. Ten were made."
    assert known.date_note("half-ducat/shield", 1861, "A") is None
    assert known.date_note("half-ducat/shield", 1861) is None
