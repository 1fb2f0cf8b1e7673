"""Sets made from the catalogue, with what is not settled as switches."""

import pytest

from exergue.coins import catalogue
from exergue.collecting import templates
from exergue.collecting.slots import KEY_LENGTH, read

KNOWN = catalogue.load()


def keys(text, answers=None, **wish):
    return [slot.key for slot in templates.slots(KNOWN, templates.find(KNOWN, text), answers, **wish)]


def test_one_of_each_type_of_a_denomination():
    assert keys("denomination/half-cent") == [t.key for t in KNOWN.of("half-cent")]


def test_a_series_is_a_family_within_a_denomination():
    assert [key for key in keys("series/dime/Seated Liberty")] == [t.key for t in KNOWN.of("dime") if t.family == "Seated Liberty"]


def test_a_family_runs_over_denominations():
    found = {key.partition("/")[0] for key in keys("family/US/Seated Liberty")}
    assert {"half-dime", "dime", "quarter", "half-dollar", "dollar", "twenty-cents"} <= found


def test_a_design_of_one_year_apart_with_its_neighbour_or_left_out():
    apart = keys("denomination/half-cent")
    assert "half-cent/liberty-cap-left" in apart
    template = templates.find(KNOWN, "denomination/half-cent")
    (joined,) = [s for s in templates.slots(KNOWN, template, {"one-year": "with"}) if "half-cent/liberty-cap-left" in s.types]
    assert joined.key == "half-cent/liberty-cap-right" and "Liberty Cap" in joined.note
    assert keys("denomination/half-cent", {"one-year": "out"}) == apart[1:]


def test_each_open_question_of_the_literature_is_a_switch():
    template = templates.find(KNOWN, "denomination/small-cent")
    asked = {s.key for s in template.switches}
    for t in template.types:
        assert {f"{t.key}:{q.key}" for q in t.questions if q.splits or q.joins} <= asked
    steel = "small-cent/lincoln-steel"
    (wheat,) = [s for s in templates.slots(KNOWN, template, {f"{steel}:metal": "with"}) if steel in s.types]
    assert wheat.key == "small-cent/lincoln-wheat"
    split = templates.slots(KNOWN, template, {"small-cent/indian-bronze:l-on-ribbon": "apart"})
    assert [s.subtype for s in split if s.subtype] == ["no-l", "with-l"]


def test_the_four_cents_of_2009_can_count_as_one():
    names = [f"small-cent/lincoln-{name}:set" for name in ("formative", "professional", "presidency")]
    assert len(keys("denomination/small-cent")) - len(keys("denomination/small-cent", dict.fromkeys(names, "with"))) == 3


def test_gold_and_proof_only_types_can_be_left_out_or_in():
    with_gold, without = keys("century/US/19"), keys("century/US/19", {"gold": "out"})
    assert "eagle/coronet-motto" in with_gold and not any(key.startswith("eagle/") for key in without)
    assert "four-dollars/flowing-hair" not in with_gold
    assert "four-dollars/flowing-hair" in keys("century/US/19", {"proofs": "in"})


def test_a_century_by_hundreds_or_by_the_calendar():
    draped = "half-cent/draped-bust"  # 1800 to 1808
    def of(answer):
        template = templates.find(KNOWN, "century/US/19")
        return {s.key: s for s in templates.slots(KNOWN, template, {"century": answer})}
    assert of("19/hundreds")[draped].years == "" and of("19/calendar")[draped].years == "1802-1808"
    assert of("19/hundreds")["dime/barber"].years == "1892-1899" and of("19/calendar")["dime/barber"].years == "1892-1900"
    assert draped in {s.key for s in templates.slots(KNOWN, templates.find(KNOWN, "century/US/18"), {"century": "18/calendar"})}


def test_dates_of_a_type_with_mints_together_or_apart():
    barber = KNOWN.types["dime/barber"]
    together, apart = keys("dates/dime/barber"), keys("dates/dime/barber", {"mints": "apart"})
    assert len(together) == len({i.year for i in barber.issues if not i.proof_only})
    assert "dime/barber@1901-S" in apart and len(apart) == len({(i.year, i.mint) for i in barber.issues if not i.proof_only})


@pytest.mark.parametrize("text", [text for of in templates.offered(KNOWN).values() for text, _ in of])
def test_every_template_gives_slots_that_can_be_kept(text):
    template = templates.find(KNOWN, text)
    for answers in ({}, {s.key: s.choices[-1][0] for s in template.switches}, {s.key: s.choices[1][0] for s in template.switches}):
        try:
            made = templates.slots(KNOWN, template, answers, grade_from="VF-20")
        except templates.BadTemplate:
            raise AssertionError(text) from None
        assert len({s.key for s in made}) == len(made)
        assert all(len(s.key) <= KEY_LENGTH and len(s.title) <= 120 and len(s.years) <= 40 and len(s.note) <= 500 for s in made)
        assert all(read(s.row()) == s for s in made)
        assert len(templates.text(template, answers)) <= 200


def test_an_unknown_template_or_answer_is_refused_in_a_sentence():
    with pytest.raises(templates.BadTemplate, match="no template"):
        templates.find(KNOWN, "denomination/nothing")
    with pytest.raises(templates.BadTemplate, match="is no answer"):
        keys("denomination/half-cent", {"one-year": "perhaps"})
