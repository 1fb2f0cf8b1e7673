"""Naming coins of the real catalogue: what is likely, what is asked, when asking ends, what is said of a candidate."""

import itertools
import random

import pytest

from exergue.coins import catalogue, grades, metal

pytestmark = pytest.mark.browser
KNOWN = catalogue.load()
HALF = "half-cent/draped-bust"
SEEN = {"value": "half-cent", "facing": "right", "date": "1806"}


@pytest.fixture
def weigh(naming):
    """Answers → {type: p, "none": p}."""
    ask = "(() => { const w = it.weigh(naming, given); return {...Object.fromEntries(w.ranking.map((one) => [one.type, one.p])), none: w.none}; })()"
    return lambda answers=None, **more: naming(ask, {"answers": answers or {}, **more})


def likeliest(found):
    return max(found, key=found.get)


@pytest.fixture
def asked(naming):
    return lambda answers=None, **more: naming("it.ask(naming, given, it.weigh(naming, given).shares)", {"answers": answers or {}, **more})


@pytest.fixture
def open_questions(naming):
    return lambda answers=None, **more: naming("it.questions(naming, given, it.weigh(naming, given).shares)", {"answers": answers or {}, **more})


@pytest.fixture
def explained(naming):
    return lambda key, answers, **more: naming("it.explain(naming, given.state, it.weigh(naming, given.state).shares, given.key)", {"key": key, "state": {"answers": answers, **more}})


def test_shares_add_up_to_one_and_rank(weigh):
    found = weigh(SEEN)
    assert sum(found.values()) == pytest.approx(1) and likeliest(found) == HALF and found[HALF] > 0.95


def test_the_order_of_answers_does_not_matter(weigh):
    answers = {**SEEN, "weight": {"g": 5.3}, "size": {"mm": 23}, "headgear": "bare"}
    for order in itertools.islice(itertools.permutations(answers.items()), 0, 720, 97):
        assert weigh(dict(order)) == pytest.approx(weigh(answers), rel=1e-9)


def test_cannot_tell_tells_nothing_and_is_not_asked_again(weigh, open_questions):
    unsure = {"value": "?", "facing": "?", "date": "?", "size": "?", "weight": "?", "mint": "?"}
    assert weigh(unsure) == pytest.approx(weigh())
    assert not set(unsure) & {one["feature"] for one in open_questions(unsure)}


def test_one_wrong_answer_does_not_lose_the_coin(weigh):
    wrong = {**SEEN, "facing": "left", "headgear": "bare", "liberty": "field", "stars": "none"}
    assert likeliest(weigh(wrong)) == HALF


def test_what_fits_no_type_is_none_of_these(weigh):
    odd = {"country": "other", "subject": "monarch", "facing": "front", "colour": "gold", "date": "1750", "weight": {"g": 35}}
    assert likeliest(weigh(odd)) == "none"


def test_a_date_with_a_gap_leaves_the_types_that_fit_it(weigh):
    found = weigh({"denom": "half-cent", "date": "179?"})
    first, second, *rest = sorted(found, key=found.get, reverse=True)
    assert {first, second} == {"half-cent/liberty-cap-left", "half-cent/liberty-cap-right"} and found[first] + found[second] > 0.9


def test_the_weight_is_held_against_the_law_of_that_date(weigh):
    """Large cents of the Liberty Cap type weigh 13.48 g to 1795 and 10.89 g after; a late one may not borrow the early law."""
    late, early = ({"denom": "large-cent", "date": year, "weight": {"g": 13.4}} for year in ("1796", "1794"))
    assert weigh(early)["large-cent/liberty-cap"] > 0.9 > weigh(late)["large-cent/liberty-cap"]


def test_survivors_shift_the_start_only_as_far_as_asked(weigh):
    even, kept = weigh(), weigh(prior="survivors")
    common, rare = "half-cent/classic-head", "half-cent/liberty-cap-left"
    assert even[common] == pytest.approx(even[rare]) and kept[common] > kept[rare] and kept["none"] == pytest.approx(even["none"])


def test_the_grade_hides_what_it_cannot_show(open_questions):
    for grade in ("P-1", "AG-3", "G-4", "VG-8", "MS-65"):
        number = grades.parse(grade).number
        for one in open_questions(grade=grade):
            assert grades.parse(one["seenAt"]).number <= number, (grade, one["feature"])
    low, high = ({one["feature"] for one in open_questions(grade=grade)} for grade in ("P-1", "MS-65"))
    assert low < high and "liberty" in high - low


def test_without_a_scale_or_a_glass_nothing_is_asked_that_needs_one(open_questions):
    bare = {one["feature"]: one for one in open_questions(tools={"glass": False, "scale": False})}
    assert "weight" not in bare and "gravity" not in bare and all(one["effort"] == 1 or name == "size" for name, one in bare.items())
    assert "gravity" in {one["feature"] for one in open_questions(tools={"water": True})}


def test_the_question_asked_is_the_one_worth_most_an_effort(asked, open_questions):
    for answers in ({}, {"value": "one-cent"}, {"date": "18?4"}, SEEN | {"date": "?"}):
        question, best = asked(answers)["question"], open_questions(answers)[0]
        assert question["feature"] == best["feature"] and question["gain"] / question["effort"] == pytest.approx(best["worth"])


def test_a_question_that_cannot_change_anything_is_not_asked(open_questions):
    """What every type of the catalogue shows alike, and what nobody looks at to tell types apart."""
    features = {one["feature"] for one in open_questions()}
    stated = {key: {frozenset(t.stated.get(key, ())) for t in KNOWN.types.values()} - {frozenset()} for key in KNOWN.features}
    assert features and not {key for key in features if KNOWN.features[key].values and len(stated[key]) < 2}
    assert not features & {"seam", "skin", "copy", "surface"}


def test_asking_ends_when_the_coin_is_named_or_nothing_is_left(asked, naming):
    assert asked({**SEEN, "headgear": "bare", "stars": "none"}) == {"question": None, "why": "sure"}
    everything = naming("Object.fromEntries(naming.asked.map((one) => [one.key, '?']))")
    assert asked(everything) == {"question": None, "why": "nothing"}


def test_the_answers_of_a_choice_come_with_how_likely_they_are(open_questions):
    for one in open_questions():
        if one["kind"] == "choice":
            assert sum(a["p"] for a in one["answers"]) == pytest.approx(1) and all(a["words"] for a in one["answers"])
            assert 0 < one["gain"] <= one["offered"] + 1e-9


def test_a_coin_of_every_type_is_named_by_right_answers(naming):
    """What is asked is answered as the type shows; every type is named within eight questions."""
    walk = """Object.fromEntries(naming.keys.map((key, at) => {
        const state = {answers: {}, grade: 'MS-63'};
        const type = naming.types[at];
        const issue = type.issues[type.issues.length >> 1];
        const weight = type.weights.find((one) => one.years.includes(issue.year)) ?? type.weights[0];
        for (let count = 0; count < 40; count++) {
            const weighed = it.weigh(naming, state);
            const {question} = it.ask(naming, state, weighed.shares);
            if (!question) return [key, [weighed.top.type, count]];
            state.answers[question.feature] = {date: String(issue.year), mint: issue.mint, size: {mm: (type.mm[0] + type.mm[1]) / 2}, weight: {g: weight?.grams}}[question.kind] ?? type.shows[question.feature]?.[0] ?? '?';
        }
        return [key, ['', 40]];
    }))"""
    found = naming(walk)
    assert {key: named for key, (named, _) in found.items()} == {key: key for key in KNOWN.types}
    assert max(count for _, count in found.values()) <= 8


def test_fits_and_contradictions_are_told_in_words(explained):
    told = explained(HALF, {"value": "half-cent", "facing": "left", "date": "1806", "stars": "?"})
    assert [(one["name"], one["said"], one["shows"]) for one in told["fits"]] == [("Value as written", "HALF CENT", "HALF CENT"), ("Date", "1806", "1800, 1802–1808")]
    assert [(one["name"], one["said"], one["shows"]) for one in told["contradicts"]] == [("Facing", "left", "right")]


def test_what_to_look_at_parts_the_candidate_from_its_rival(explained):
    told = explained("half-cent/liberty-cap-right", {"denom": "half-cent", "facing": "right", "colour": "copper"})
    assert told["rival"] == HALF and told["sure"]
    by_feature = {one["feature"]: one for one in told["sure"]}
    assert by_feature["cap"]["rival"] == "No cap: hair tied with a ribbon." and "facing" not in by_feature


def test_looks_that_wear_hides_come_last(explained):
    told = explained("half-cent/classic-head", {"denom": "half-cent", "facing": "left"}, grade="AG-3")
    hidden = [one["hidden"] for one in told["sure"]]
    assert hidden == sorted(hidden) and any(hidden) and not all(hidden)


@pytest.mark.parametrize("grams, says", [
    (5.44, None), (5.20, None), (4.5, "17.3 % under the lawful 5.44 g"), (6.2, "13.9 % over the lawful 5.44 g"),
])  # fmt: skip
def test_a_weight_outside_the_law_is_said_plainly_with_the_caution(explained, grams, says):
    told = explained(HALF, {"date": "1806", "weight": {"g": grams, "u": 0.01}})
    assert [one["feature"] for one in told["warnings"]] == (["weight"] if says else [])
    if says:
        (warning,) = told["warnings"]
        assert says in warning["text"] and warning["caution"] == KNOWN.vocabulary.checks["weight"]["caution"]


def test_heavy_wear_excuses_a_light_coin_but_not_a_fine_one(explained):
    light = {"date": "1806", "weight": {"g": 4.9, "u": 0.01}}
    assert not explained(HALF, light, grade="G-4")["warnings"] and explained(HALF, light, grade="MS-63")["warnings"]


def test_the_metal_is_held_against_the_specific_gravity(explained):
    (warning,) = explained(HALF, {"gravity": {"density": 10.3, "u": 0.08}})["warnings"]
    assert warning["text"] == "A specific gravity of 10.30 ± 0.16 is outside the 8.80 to 8.98 of copper." and warning["caution"]
    assert not explained(HALF, {"gravity": {"density": 8.8, "u": 0.08}})["warnings"]


def test_the_alloys_of_the_likely_types_are_those_compared(naming):
    compared = naming("(() => { const {shares} = it.weigh(naming, {answers: {denom: 'half-cent'}}); return it.compareAlloys({density: 8.9, u: 0.05}, it.alloysOf(naming, shares)); })()")
    assert [(one["key"], one["verdict"]) for one in compared] == [("copper", "fits")]


@pytest.mark.parametrize("answers, says", [({"size": {"mm": 3}}, "diameter"), ({"weight": {"g": 500}}, "weight"), ({"gravity": {"density": 0.9}}, "specific gravity")])
def test_measures_that_no_coin_has_get_a_sentence(module, answers, says):
    assert says in module("name/warnings", "it.impossible(given)", answers)
    assert module("name/warnings", "it.impossible(given)", {"size": {"mm": 23}, "weight": "?"}) == ""


def test_every_lawful_weight_and_usual_diameter_may_be_measured(module):
    types = catalogue.load().types.values()
    masses = {float(metal.grams(weight.grains)) for t in types for weight in t.weights}
    across = {float(mm) for t in types for mm in t.diameter}
    answers = [{"weight": {"g": g}} for g in (min(masses), max(masses))] + [{"size": {"mm": mm}} for mm in (min(across), max(across))]
    assert module("name/warnings", "given.map(it.impossible)", answers) == ["", "", "", ""]


def test_nothing_breaks_whatever_is_answered(weigh, naming):
    draw = random.Random(25)
    keys = naming("naming.asked.map((one) => ({key: one.key, kind: one.kind, values: one.values ?? []}))")
    for _ in range(60):
        answers = {}
        for one in draw.sample(keys, draw.randrange(len(keys))):
            answers[one["key"]] = {"date": "".join(draw.choices("0123456789?", k=4)), "mint": draw.choice(["", "S", "XX"]), "size": {"mm": 8 + 37 * draw.random()},
                                   "weight": {"g": 40 * draw.random() + 0.2, "u": 0.001}, "gravity": {"density": 2 + 20 * draw.random(), "u": 0.01}}.get(one["kind"]) or draw.choice([*one["values"], "?"])  # fmt: skip
        found = weigh(answers, grade=draw.choice(["", "G-4", "MS-65 RD", "PF-65 CAM"]), prior=draw.choice(["uniform", "survivors"]))
        assert sum(found.values()) == pytest.approx(1) and min(found.values()) >= 0
