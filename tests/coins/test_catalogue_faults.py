"""Faults of an owner's file are told with file, type and field; the file is left out, and the rest stays."""

import pytest

from exergue.coins import catalogue

SOUND = """
denomination = "half-penny"
begun = "the first were struck in 1770."

[denomination_is]
name = "Halfpenny"
plural = "halfpence"
country = "XX"
face = "1/2"
years = "1770-1775"

[gaps]
"1773" = "the mint was closed."

[[type]]
key = "young-head"
name = "Young Head"
years = "1770-1772"
obverse = "Head to the left."
reverse = "A wreath."
edge = "Plain"
axis = "coin"
composition = "copper"
diameter_mm = ["27", "29"]

[[type.issue]]
year = 1770
[[type.issue]]
year = 1771
[[type.issue]]
year = 1772

[[type.look]]
key = "facing"
feature = "facing"
fits = "Left."
values = ["left"]
seen_at = "G-4"

[[type]]
key = "old-head"
name = "Old Head"
years = "1774-1775"
obverse = "Head to the right."
reverse = "A wreath."
edge = "Plain"
axis = "coin"
composition = "copper"
diameter_mm = ["27", "29"]

[[type.issue]]
year = 1774
[[type.issue]]
year = 1775
mintage = 5000
source = "invented for this test"

[[type.look]]
key = "facing"
feature = "facing"
fits = "Right."
values = ["right"]
seen_at = "G-4"
"""


def faults(folder, text):
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    return catalogue.load(folder)


def test_a_sound_file_joins_the_catalogue(tmp_path):
    known = faults(tmp_path, SOUND)
    assert known.problems == []
    assert known.title("half-penny/old-head") == "Halfpenny, Old Head"
    assert known.check_date("half-penny/old-head", 1773) == "No halfpence are dated 1773: the mint was closed."
    assert "half-cent/draped-bust" in known.types and catalogue.mark(tmp_path) != catalogue.mark()


@pytest.mark.parametrize(
    "old, new, told",
    [
        ('years = "1770-1772"', 'years = "1772-1770"', "mine.toml, half-penny/young-head, years: “1772-1770” is not a range"),
        ('years = "1770-1772"', 'years = "17x0"', "mine.toml, half-penny/young-head, years: “17x0” is no year"),
        ('years = "1770-1772"', "", "mine.toml, half-penny/young-head, years: is missing."),
        ('years = "1774-1775"', 'years = "1773-1775"', "mine.toml, half-penny/old-head, years: 1773 is a gap in mine.toml."),
        ('key = "old-head"', 'key = "young-head"', "mine.toml, half-penny/young-head, key: the type already stands in mine.toml."),
        ('feature = "facing"', 'feature = "hat"', "mine.toml, half-penny/young-head, look facing: there is no feature “hat”."),
        ('values = ["left"]', 'values = ["up"]', "mine.toml, half-penny/young-head, look facing: the feature facing has no value “up”."),
        ('values = ["right"]', 'values = ["left"]', "mine.toml, half-penny/old-head, look: no diagnostic separates it from half-penny/young-head"),
        ('seen_at = "G-4"', 'seen_at = "G-40"', "mine.toml, half-penny/young-head, look facing, seen_at: Good (G) is 4 or 6; 40 belongs to"),
        ('axis = "coin"', 'axis = "sideways"', "mine.toml, half-penny/young-head, axis: should be coin, medal or either"),
        ('composition = "copper"', 'composition = "tin foil"', "mine.toml, half-penny/young-head, composition: there is no alloy “tin foil”."),
        ('diameter_mm = ["27", "29"]', 'diameter_mm = ["wide", "29"]', "mine.toml, half-penny/young-head, diameter_mm: “wide” is no number"),
        ('edge = "Plain"', 'edge = "Plain"\nmood = "good"', "mine.toml, half-penny/young-head, mood: is not a field of the catalogue."),
        ('edge = "Plain"', "edge = 7", "mine.toml, half-penny/young-head, edge: should be text, not 7."),
        ('\n[[type.issue]]\nyear = 1772', "", "mine.toml, half-penny/young-head, issue: 1772 has none."),
        ('source = "invented for this test"', "", "mine.toml, half-penny/old-head, issue: the mintage of 1775 needs a source."),
        ('"1773" = "the mint was closed."', "", "mine.toml, half-penny, gaps: 1773 is no year of a type and no gap."),
        ('fits = "Left."', 'fits = "Left."\ninstead = { nobody = "Up." }', "look facing: “half-penny/nobody” is no other type"),
        ('[[type.look]]\nkey = "facing"', 'checks = ["x-ray"]\n[[type.look]]\nkey = "facing"', "is not a field of the catalogue."),
        ('face = "1/2"', "", "mine.toml, denomination_is: is not complete"),
        ("denomination =", "denomination ==", "mine.toml: cannot be read as TOML"),
    ],
)
def test_a_fault_is_told_with_its_place_and_the_file_left_out(tmp_path, old, new, told):
    assert old in SOUND
    known = faults(tmp_path, SOUND.replace(old, new, 1))
    assert any(told in problem for problem in known.problems), known.problems
    assert known.types.keys() == catalogue.load().types.keys()


def half_cent(**changes):
    fields = {
        "key": "late", "years": 1857, "grains": "84", "law": "1837-01-18", "look": 'feature = "facing"', **changes,
    }
    return """
denomination = "half-cent"
[[type]]
key = "{key}"
name = "Late one"
years = "{years}"
obverse = "o"
reverse = "r"
edge = "Plain"
axis = "coin"
composition = "copper"
diameter_mm = ["23", "23"]
[[type.weight]]
years = "{years}"
grains = "{grains}"
law = "{law}"
[[type.issue]]
year = {years}
[[type.look]]
key = "all"
feature = "facing"
fits = "Both ways."
seen_at = "G-4"
instead = {{ liberty-cap-left = "a", liberty-cap-right = "b", draped-bust = "c", classic-head = "d", braided-hair = "e" }}
""".format(**fields)


def test_an_owners_type_may_join_a_denomination_that_is_known(tmp_path):
    known = faults(tmp_path, half_cent())
    assert known.problems == [] and known.types["half-cent/late"].years == (1857,)


@pytest.mark.parametrize(
    "changes, told",
    [
        ({"grains": "104"}, "weight: 104 grains contradicts the Act of January 18, 1837, which says 84."),
        ({"law": "1999-01-01"}, "weight: there is no law “1999-01-01”."),
        ({"years": 1793}, "weight: 1793 is before the Act of January 18, 1837."),
        ({"years": 1812}, "years: 1812 is a gap in half-cent.toml."),
        ({"years": 1901}, "years: 1901 is outside the years of the half cent."),
        ({"key": "braided-hair"}, "key: the type already stands in half-cent.toml."),
        ({"grains": "-84"}, "grains: should be a number above 0, not “-84”."),
    ],
)
def test_weights_and_years_are_held_against_laws_and_gaps(tmp_path, changes, told):
    known = faults(tmp_path, half_cent(**changes))
    assert any(told in problem for problem in known.problems), known.problems
    assert all(problem.startswith("mine.toml") for problem in known.problems), known.problems


def test_one_faulty_file_does_not_stop_another(tmp_path):
    (tmp_path / "bad.toml").write_text("denomination = 3", encoding="utf-8")
    known = faults(tmp_path, SOUND)
    assert "half-penny/old-head" in known.types
    assert known.problems and all(problem.startswith("bad.toml") for problem in known.problems)


def test_an_owners_file_may_bring_laws_and_features_of_its_own(tmp_path):
    brought = SOUND.replace("[gaps]", """
[laws.1769-05-01]
name = "Invented Order of 1769"
cite = "invented for this test"
grains = { half-penny = "150" }

[features.hat]
name = "Hat"
look = "Look for a hat."
effort = 1
error = 0.1
values = { on = "a hat", off = "no hat" }

[gaps]""")
    weightless = faults(tmp_path, brought)
    assert weightless.problems == [
        "mine.toml, half-penny/young-head, weight: 1770–1772 has none.",
        "mine.toml, half-penny/old-head, weight: 1774–1775 has none.",
    ]
    for years in ("1770-1772", "1774-1775"):
        weight = f'[[type.weight]]\nyears = "{years}"\ngrains = "150"\nlaw = "1769-05-01"\n\n'
        at = brought.index("[[type.issue]]", brought.index(f'years = "{years}"'))
        brought = brought[:at] + weight + brought[at:]
    known = faults(tmp_path, brought)
    assert known.problems == []
    assert known.features["hat"].values["on"] == "a hat"
    assert "hat" not in catalogue.load().features


def test_types_that_share_years_must_say_so(tmp_path):
    shared = half_cent(years="1855").replace('"1855"', '"1855-1856"')
    shared = shared.replace("[[type.look]]", "[[type.issue]]\nyear = 1856\n[[type.look]]")
    known = faults(tmp_path, shared)
    assert known.problems == [
        "mine.toml, half-cent/late, years: 1855–1856 are also those of half-cent/braided-hair;"
        " name it under alongside if both were struck."
    ]
    said = shared.replace('edge = "Plain"', 'edge = "Plain"\nalongside = ["braided-hair"]')
    assert faults(tmp_path, said).problems == []
