"""What fills a set: slots, what they accept, upgrades, what is spare, what is unclear."""

import pytest

from exergue.coins import catalogue
from exergue.collecting.filling import fill
from exergue.collecting.slots import BadSlot, Piece, Slot, judge, read

TYPES = catalogue.load().types
DRAPED, CLASSIC, WHEAT, BRONZE = "half-cent/draped-bust", "half-cent/classic-head", "small-cent/lincoln-wheat", "small-cent/indian-bronze"


def slot(key=DRAPED, *types, **more):
    return Slot(key, key, types or (key,), **more)


def test_the_best_coin_of_a_type_fills_its_slot_and_the_other_is_spare():
    found = fill([slot()], [Piece("low", DRAPED, 1806, "", "F-12", cost=100), Piece("high", DRAPED, 1806, "", "VF-20", cost=900)], TYPES)
    assert found.filled == {DRAPED: "high"} and found.spare == ("low",) and found.cost == 900 and found.open == ()


def test_of_equal_coins_the_one_that_ties_up_less_money():
    found = fill([slot()], [Piece("a", DRAPED, grade="VF-20", cost=900), Piece("b", DRAPED, grade="VF-20", cost=800)], TYPES)
    assert found.filled == {DRAPED: "b"}


def test_a_coin_fills_one_slot_only_and_goes_where_it_is_needed():
    """The 1804 serves both; the 1806 only the first. Both slots are filled, though the 1804 would better the first."""
    slots = [slot("any", DRAPED), slot("1804", DRAPED, years="1804")]
    found = fill(slots, [Piece("x", DRAPED, 1804, grade="VF-30"), Piece("y", DRAPED, 1806, grade="VF-20")], TYPES)
    assert found.filled == {"any": "y", "1804": "x"} and found.better == {"any": "x"}


def test_the_window_holds_and_says_what_would_be_better():
    window = slot(grade_from="VF-20", grade_to="EF-45")
    found = fill([window], [Piece("a", DRAPED, grade="F-15"), Piece("b", DRAPED, grade="AU-50"), Piece("c", DRAPED, grade="VF-30")], TYPES)
    assert found.filled == {DRAPED: "c"} and found.upgrades == {DRAPED: ("VF-35", "EF-45")} and found.spare == ()
    assert fill([window], [Piece("d", DRAPED, grade="EF-45")], TYPES).upgrades == {}


def test_a_problem_coin_is_bettered_by_a_sound_one_of_its_grade():
    bad, good = Piece("a", DRAPED, grade="VF-20 Details (scratched)"), Piece("b", DRAPED, grade="VF-20")
    assert fill([slot(grade_to="VF-20")], [bad], TYPES).upgrades == {DRAPED: ("VF-20", "VF-20")}
    assert fill([slot()], [bad, good], TYPES).filled == {DRAPED: "b"}
    assert fill([slot(problem_free=True)], [bad], TYPES).open == (DRAPED,)


def test_steps_of_the_ladder_count_alike():
    """From EF-45 to AU-50 is as far as from MS-63 to MS-64, though five numbers against one."""
    slots = [slot("a", DRAPED, years="1806"), slot("b", DRAPED, years="1806-1807")]
    coins = [Piece("p", DRAPED, 1806, grade="AU-50"), Piece("q", DRAPED, 1807, grade="EF-45"), Piece("r", DRAPED, 1806, grade="EF-45", cost=1)]
    assert set(fill(slots, coins, TYPES).filled.values()) == {"p", "r"}


@pytest.mark.parametrize(("more", "coin", "verdict"), [
    ({"years": "1800-1804"}, {"year": 1804}, "yes"),
    ({"years": "1800-1804"}, {"year": 1806}, "no"),
    ({"years": "1800-1804"}, {"year": None}, "unclear"),
    ({"mints": ("S",)}, {"year": 1909, "mint": "S"}, "yes"),
    ({"mints": ("",)}, {"year": 1909, "mint": "S"}, "no"),
    ({"issues": ("1909-S", "1914-D")}, {"year": 1914, "mint": "D"}, "yes"),
    ({"issues": ("1909-S", "1914-D")}, {"year": 1914, "mint": "S"}, "no"),
    ({"issues": ("1909",)}, {"year": 1909}, "yes"),
    ({"strike": "proof"}, {"grade": "PF-65"}, "yes"),
    ({"strike": "proof"}, {"grade": "MS-65"}, "no"),
    ({"strike": "business"}, {"grade": "PF-65"}, "no"),
    ({"strike": "business"}, {"grade": ""}, "unclear"),
    ({"strike": "proof"}, {"grade": "SP-65"}, "no"),
    ({"strike": "business"}, {"grade": "SP-65"}, "no"),
    ({"grade_from": "VF-20"}, {"grade": "VF-20 Details (bent) net F-12"}, "no"),
])  # fmt: skip
def test_what_a_slot_accepts(more, coin, verdict):
    assert judge(slot(WHEAT, **more), Piece("x", WHEAT, **{"year": 1909, **coin}), TYPES)[0] == verdict


@pytest.mark.parametrize(("type_", "subtype", "coin", "verdict"), [
    (BRONZE, "no-l", {"year": 1864}, "unclear"),  # both were struck that year
    (BRONZE, "no-l", {"year": 1864, "variety": "No L"}, "yes"),
    (BRONZE, "with-l", {"year": 1864, "variety": "No L"}, "no"),
    (BRONZE, "with-l", {"year": 1880}, "yes"),  # the date decides
    (WHEAT, "vdb", {"year": 1909, "variety": "VDB"}, "yes"),
    (WHEAT, "vdb", {"year": 1909, "variety": "no V.D.B."}, "no"),
    (WHEAT, "shell-case", {"year": 1945}, "yes"),  # every piece of those years
    (WHEAT, "!shell-case", {"year": 1945}, "no"),
    (WHEAT, "!shell-case", {"year": 1950}, "yes"),
    ("quarter/washington-clad", "silver-proof", {"year": 1995}, "unclear"),
    ("quarter/washington-clad", "silver-proof", {"year": 1970}, "no"),
])  # fmt: skip
def test_a_division_of_a_type_is_known_by_its_variety_or_its_date(type_, subtype, coin, verdict):
    assert judge(slot(type_, subtype=subtype), Piece("x", type_, **coin), TYPES)[0] == verdict


def test_a_coin_of_which_too_little_is_said_is_told_and_not_guessed():
    found = fill([slot(grade_from="VF-20")], [Piece("x", DRAPED, 1806)], TYPES)
    assert found.open == (DRAPED,) and found.spare == ()
    assert [(one.slot, one.coin, one.why) for one in found.unclear] == [(DRAPED, "x", "has no grade entered")]


def test_unknown_costs_are_counted_and_not_added():
    found = fill([slot(), slot(CLASSIC)], [Piece("x", DRAPED, cost=None), Piece("y", CLASSIC, cost=500)], TYPES)
    assert (found.cost, found.unknown) == (500, 1)


@pytest.mark.parametrize(("row", "said"), [
    ({"types": []}, "accepts no type"), ({"types": [DRAPED], "years": "18x"}, "no year"),
    ({"types": [DRAPED], "grade_from": "EF-40", "grade_to": "VF-20"}, "lower grade first"),
    ({"types": [DRAPED, CLASSIC], "subtype": "no-l"}, "one type only"),
])  # fmt: skip
def test_a_slot_that_makes_no_sense_is_refused_by_its_name(row, said):
    with pytest.raises(BadSlot, match=f"My slot.*{said}"):
        read({"key": "k", "title": "My slot", **row})


def test_a_slot_comes_back_from_its_row():
    one = Slot("k", "Title", (DRAPED,), "1806", ("",), ("1806",), "", "VF-20", "EF-40", "business", True, "note")
    assert read(one.row()) == one and read(slot().row()) == slot()
