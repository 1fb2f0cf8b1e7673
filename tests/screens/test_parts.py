"""Small parts, run in the browser they are for."""

import json

import pytest
from support import browser as browsers
from support.desk import Desk

from exergue.coins import grades
from exergue.money import cents
from exergue.records.book import Book
from exergue.sync import reference

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("parts") / "book"
    Book.create(folder, name="Table nine")
    with Desk(folder) as desk:
        yield desk.address


@pytest.fixture(scope="module")
def page(browser, site):
    """One page for all: nothing here changes it."""
    context = browser.new_context(**browsers.PHONE)
    page = context.new_page()
    page.goto(site + "/healthz")  # a page of the site, without the app
    yield page
    context.close()


def call(page, module, function, *arguments):
    return page.evaluate(f"([...a]) => import('/web/{module}').then((m) => m.{function}(...a))", list(arguments))


@pytest.mark.parametrize("typed", ["1,234.50", "$40", "12", "0.5", "1,000", "12,5", "1234567.89", "", ".75"])
def test_amounts_are_read_as_the_desk_reads_them(page, typed):
    assert call(page, "parts/money.js", "parse", typed) == cents.parse(typed)


@pytest.mark.parametrize("typed", ["12.345", "abc", "1.2.3", "--", "$"])
def test_what_is_no_amount_is_not_taken_for_one(page, typed):
    assert page.evaluate("(t) => import('/web/parts/money.js').then((m) => Number.isNaN(m.parse(t)))", typed)


@pytest.mark.parametrize("amount", [0, 5, 123_450, 100_000_000, -2_050])
def test_amounts_are_shown_as_the_desk_shows_them(page, amount):
    assert call(page, "parts/money.js", "show", amount) == cents.show(amount, "USD").replace("-", "\u2212")


def test_every_grade_of_the_ladder_is_read_and_written_the_same(page):
    known = json.loads(reference.text())["grades"]
    texts = [line[0] for line in known["ladder"] + known["proofs"]]
    texts += ["MS-64 RB", "PF-65 RD CAM", "AU-50 Details (cleaned)", "MS-64+ RB", "VF", ""]
    assert all(text == "" or str(grades.parse(text)) == text for text in texts)
    written = page.evaluate("""([texts, known]) => import('/web/parts/grade-picker.js').then((m) =>
        texts.map((text) => m.writeGrade(m.readGrade(text, known))))""", [texts, known])  # fmt: skip
    assert written == texts


def test_years_are_gathered_into_runs(page):
    assert call(page, "parts/dates.js", "showYears", [1800, 1802, 1803, 1804, 1808]) == "1800, 1802–1804, 1808"


@pytest.mark.parametrize(("text", "code"), [
    ("https://desk.local:2646/#pair=7K3M9QX2", "7K3M9QX2"), ("7k3m-9qx2", "7K3M9QX2"), ("HTTPS://DESK/C/7K3M9QX2BE", None), ("7K3M9QX2BE", None),
])  # fmt: skip
def test_a_pairing_code_is_told_from_a_coins_label(page, text, code):
    assert call(page, "parts/pairing.js", "codeIn", text) == code


@pytest.mark.parametrize("owned, grade, told", [
    ([], "VF-20", "None of this type in your stock."),
    (["VF-20", "G-4"], "", "You have 2 coins of this type, VF-20 at best."),
    (["VF-20", "G-4"], "VF-30", "You have 2 coins of this type, in a lower grade: VF-20 at best."),
    (["VF-20"], "VF-20", "You have 1 coin of this type, one in the same grade."),
    (["VF-20", "PF-65"], "F-12", "You have 2 coins of this type, in a better grade: VF-20."),
    (["", ""], "F-12", "You have 2 coins of this type, none to compare by grade."),
    ([""], "", "You have 1 coin of this type, none graded."),
])  # fmt: skip
def test_a_coin_in_the_hand_is_set_beside_the_stock(page, owned, grade, told):
    assert call(page, "parts/owned.js", "standing", [{"grade": one} for one in owned], grade, json.loads(reference.text())["grades"]) == told


@pytest.mark.parametrize("day, more, stage", [
    ("2026-03-13", {}, "before"), ("2026-03-14", {}, "during"), ("2026-03-15", {"counted": True, "owner": True}, "during"),
    ("2026-03-16", {"owner": True}, "count"), ("2026-03-16", {"counted": True, "owner": True}, "close"), ("2026-03-16", {"counted": True}, "count"),
])  # fmt: skip
def test_what_is_next_at_a_show_follows_its_days(page, day, more, stage):
    show = {"starts": "2026-03-14", "ends": "2026-03-15"}
    assert call(page, "floor/stage.js", "stageOf", show, day, more) == stage
    assert call(page, "floor/stage.js", "stageOf", {"starts": "2026-03-14", "ends": ""}, "2026-03-15", {}) == "count"
    assert call(page, "floor/stage.js", "stageOf", show | {"closed": day}, day, more) is None
    assert call(page, "floor/stage.js", "stageOf", {}, day, {}) == "during"


def test_a_round_of_counting_is_one_line_among_the_entries(page):
    def entry(key, kind, **body):
        return {"fact": {"id": key, "kind": kind, "body": body}, "state": "taken", "verdict": None}

    scans = [entry("a", "count", count="r", place="Case 2", seen=[{"coin": "1"}, {"coin": "2"}]), entry("b", "note", text="x"),
             entry("c", "count", count="r", place="Case 10", seen=[{"coin": "2"}]), entry("d", "count", count="s", seen=[{"coin": "1"}])]  # fmt: skip
    lines = call(page, "parts/entry-lines.js", "linesOf", scans)
    assert [[one["fact"]["id"] for one in line["rows"]] for line in lines] == [["a", "c"], ["b"], ["d"]]
    assert call(page, "parts/entry-lines.js", "roundWords", lines[0]["rows"]) == "Count, Case 2, Case 10: 2 labels in 2 entries"
