"""Sets and plans at the desk."""

import csv
import io
import zipfile

import pytest
from desk.cast import token_in

from exergue.labels import ids
from exergue.records import export, reading
from exergue.records.tables import Goal

DRAPED = "half-cent/draped-bust"


@pytest.fixture
def half_cents(ada, book):
    """A set of the half cents by type; its address."""
    made = ada.post("/desk/sets/new", {"template": "denomination/half-cent", "name": "Half cents", "strike": "any", "make": "1"})
    assert made.status_code == 302
    return made.location


def sold(book, *sales, key=DRAPED, year=1806):
    for at, (grade, price) in enumerate(sales):
        book.act("sale.seen", {"set": {"date": f"2026-0{1 + at % 6}-05", "price": price, "type": key, "denom": key.partition("/")[0],
                                       "year": year, "grade": grade, "fee_included": True}})  # fmt: skip


def test_a_set_is_made_from_a_template_after_a_look_at_its_slots(ada, book):
    assert "Types of a century" in ada.get("/desk/sets/new").text
    page = ada.get("/desk/sets/new?template=denomination/half-cent").text
    assert "5 slots" in page and "Designs of one year?" in page
    seen = ada.post("/desk/sets/new", {"template": "denomination/half-cent", "one-year": "out", "strike": "any", "preview": "1"}).text
    assert "4 slots" in seen and reading.goals() == []
    made = ada.post("/desk/sets/new", {"template": "denomination/half-cent", "one-year": "out", "strike": "any", "grade_from": "F12", "make": "1"})
    (card,) = reading.goals()
    assert made.location.endswith(card["id"]) and len(card["slots"]) == 4
    assert card["template"] == "denomination/half-cent; one-year=out" and {s["grade_from"] for s in card["slots"]} == {"F-12"}


def test_a_wrong_grade_stands_at_its_field_and_nothing_is_made(ada, book):
    page = ada.post("/desk/sets/new", {"template": "denomination/half-cent", "strike": "any", "grade_from": "splendid", "make": "1"})
    assert page.status_code == 200 and "splendid" in page.text and reading.goals() == []


def test_an_unknown_template_is_one_sentence(ada, book):
    assert "There is no template" in ada.get("/desk/sets/new?template=denomination/none", follow_redirects=True).text


def test_the_board_shows_what_fills_what_is_spare_and_what_is_open(ada, book, buy, half_cents):
    low, high = buy(grade="F-12"), buy(cents=12_345, grade="VF-30")
    sold(book, ("F-12", 9_000), ("VF-20", 15_000), key="half-cent/classic-head", year=1809)
    page = ada.get(half_cents).text
    assert "1 of 5" in page and "$123.45" in page and 'better from <span class="nowrap">VF-35</span>' in page
    assert "no evidence" in page and "F-12" in page.partition("Open</h2>")[2]
    spare = page.partition("Spare</h2>")[2]
    assert f"/coins/{low}" in spare and f"/coins/{high}" not in spare


def test_a_slot_says_which_coins_it_does_not_take_and_can_be_changed(ada, book, buy, half_cents):
    coin = buy(grade="F-12")
    where = f"{half_cents}/slot?slot={DRAPED}"
    assert "Filled by" in ada.get(where).text
    fields = {"title": "Draped Bust", "types": DRAPED, "years": "1800-1808", "strike": "any", "grade_from": "VF-20"}
    assert ada.post(where, fields).status_code == 302
    page = ada.get(where).text
    assert "below the slot’s window" in page and coin in page
    (slot,) = [s for s in reading.goals()[0]["slots"] if s["key"] == DRAPED]
    assert slot["grade_from"] == "VF-20" and slot["years"] == "1800-1808" and "coin" not in slot


def test_a_slot_can_be_added_and_taken_out(ada, book, half_cents):
    assert "names no" not in ada.get(f"{half_cents}/slot").text
    wrong = ada.post(f"{half_cents}/slot", {"title": "Mine", "strike": "any"})
    assert "accepts no type" in wrong.text
    ada.post(f"{half_cents}/slot", {"title": "Mine", "another": DRAPED, "issues": "1806, 1809", "mints": "-", "strike": "any"})
    slot = reading.goals()[0]["slots"][-1]
    assert slot["key"] == "Mine" and slot["issues"] == ["1806", "1809"] and slot["mints"] == [""]
    same = {"title": "Mine", "types": [DRAPED], "another": "half-cent/classic-head", "issues": "1806, 1809", "mints": "-", "strike": "any"}
    ada.post(f"{half_cents}/slot?slot=Mine", same)
    assert reading.goals()[0]["slots"][-1]["types"] == [DRAPED, "half-cent/classic-head"]
    ada.post(f"{half_cents}/slot/drop", {"slot": "Mine"})
    assert len(reading.goals()[0]["slots"]) == 5


def test_wants_are_made_from_open_slots_and_upgrades_and_fill_the_slot(ada, book, buy, half_cents):
    buy(grade="F-12")
    page = ada.get(f"{half_cents}/wants").text
    assert "Better coins for filled slots" in page
    assert "Nothing is ticked" in ada.post(f"{half_cents}/wants", {"priority": "high"}).text
    ada.post(f"{half_cents}/wants", {"priority": "high", "slot": [DRAPED, "half-cent/classic-head"]})
    wants = {want["slot"]: want for want in reading.wants()}
    assert wants[DRAPED]["grade_from"] == "F-15" and "Better than the F-12" in wants[DRAPED]["note"]
    assert wants["half-cent/classic-head"]["priority"] == "high" and wants["half-cent/classic-head"]["types"] == ["half-cent/classic-head"]
    buy(type="half-cent/classic-head", year=1809, want=wants["half-cent/classic-head"]["id"])
    assert [want["slot"] for want in reading.wants()] == [DRAPED] and reading.goals()[0]["filled"] == 2


def test_editing_a_want_keeps_the_slot_that_it_is_for(ada, book, half_cents):
    ada.post(f"{half_cents}/wants", {"priority": "usual", "slot": [DRAPED]})
    (want,) = reading.wants()
    page = ada.get(f"/desk/wants/{want['id']}").text
    fields = {"denom": "half-cent", "type": DRAPED, "title": want["title"], "priority": "usual", "ceiling": "150", "seen": _seen(page)}
    assert ada.post(f"/desk/wants/{want['id']}", fields).status_code == 302
    (want,) = reading.wants()
    assert want["own"]["ceiling"] == 15_000 and want["slot"] == DRAPED


def _seen(page: str) -> str:
    import html
    import re

    return html.unescape(re.search(r'name="seen"[^>]*value="([^"]*)"', page).group(1))


def test_a_plan_buys_within_the_budget_and_names_what_has_no_evidence(ada, book, half_cents):
    sold(book, ("F-12", 9_000), ("F-12", 9_200), ("VF-20", 15_000), ("VF-20", 15_500), ("VF-30", 21_000))
    goal = Goal.get().id
    page = ada.get(f"/desk/plan?set={goal}&budget=120").text
    bought = page.partition("What to buy</h2>")[2]
    assert "Draped Bust" in bought and "No evidence</h2>" in page and "Classic Head" in page.partition("No evidence</h2>")[2]
    assert "What one more $100 buys" in page and "in place of" in page and "<svg" in page
    assert "buys nothing of it" in ada.get(f"/desk/plan?set={goal}&budget=1").text


def test_a_want_with_a_ceiling_is_planned_at_the_ceiling_and_one_above_it_is_told(ada, book):
    sold(book, ("F-12", 9_000), ("F-12", 9_100), ("VF-20", 15_000))
    for number, (key, ceiling) in enumerate((("half-cent/classic-head", 20_000), (DRAPED, 100))):
        book.act("want.add", {"want": f"01890000-0000-7000-8000-00000000020{number}",
                              "set": {"type": key, "denom": "half-cent", "grade_from": "F-12", "ceiling": ceiling}})  # fmt: skip
    page = ada.get("/desk/plan?budget=500").text
    assert "your ceiling; no recorded sale says more" in page and "Draped Bust" in page.partition("Above your ceiling</h2>")[2]


def test_a_plan_over_shows_spends_what_each_has(ada, book, half_cents):
    sold(book, ("F-12", 9_000), ("F-12", 9_200), ("VF-20", 15_000))
    sold(book, ("F-12", 5_000), ("F-12", 5_200), ("VF-20", 9_000), key="half-cent/classic-head", year=1809)
    page = ada.get(f"/desk/plan?set={Goal.get().id}&budget=60&second=100").text
    assert "Show by show" in page and page.index("Classic Head") > page.index("Show 1") and "Show 2" in page


def test_nothing_to_plan_is_said(ada, book):
    assert "nothing to plan" in ada.get("/desk/plan?budget=100").text
    assert "What to buy" not in ada.get("/desk/plan").text


def test_the_journal_says_what_was_done(ada, book, half_cents):
    ada.post(f"{half_cents}/drop")
    page = ada.get("/desk/journal").text
    assert "Made the set Half cents" in page and "5 slots" in page and "Took a set out of the book" in page
    assert "No sets yet" in ada.get("/desk/sets").text


def test_a_stranger_sees_no_set(charlie, ada, book, half_cents):
    for path in ("/desk/sets", half_cents, "/desk/plan", "/desk/sets/new"):
        assert charlie.get(path).status_code == 302
    assert token_in(charlie.get("/desk/sign-in").text)


def test_what_two_people_changed_in_a_set_links_to_the_set(ada, book, half_cents, phone):
    goal = Goal.get().id
    phone("set.edit", {"goal": goal, "base": {"name": "Halves"}, "set": {"name": "My half cents"}})
    assert f'<a href="/desk/sets/{goal}">' in ada.get("/desk/looks").text
    phone("want.add", {"want": goal[:-2] + "aa", "set": {"goal": goal, "slot": DRAPED, "types": [DRAPED], "title": "One"}})
    phone("want.edit", {"want": goal[:-2] + "aa", "base": {"title": "Two"}, "set": {"title": "Three"}})
    assert ada.get("/desk/looks").text.count(f'<a href="/desk/sets/{goal}">') == 2


def test_the_export_has_a_row_for_each_slot_with_its_set_and_what_fills_it(ada, book, half_cents, buy):
    coin = buy(type=DRAPED, year=1806)
    out = io.BytesIO()
    told = export.write_zip(book, out)
    rows = list(csv.DictReader(io.StringIO(zipfile.ZipFile(out).read("sets.csv").decode("utf-8-sig"))))
    card = reading.goals()[0]
    assert told["sets.csv"] == len(rows) == len(card["slots"]) and {row["Set"] for row in rows} == {"Half cents"}
    filled = {row["Slot"]: row["Filled by"] for row in rows if row["Filled by"]}
    assert filled == {DRAPED: ids.show(coin)}
    (row,) = [row for row in rows if row["Slot"] == DRAPED]
    assert (row["Denomination"], row["Type"], row["Strike"]) == ("Half cent", "Draped Bust", "any") and row["Title"]
