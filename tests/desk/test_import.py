"""Importing at the desk: a preview that changes nothing, then all or nothing."""

import html
import io
import re

import pytest

from exergue.records.tables import Coin, Evidence, Fact
from exergue.site import limits

GOOD = "denomination,type,year,grade,cost,purchase date\nhalf cent,Draped Bust,1806,VF-20,95.00,2026-03-14\n"
MIXED = GOOD + "half cent,Draped Bust,1806,splendid,80.00,2026-03-14\nhalf cent,Draped Bust,1801,F-12,80.00,2026-03-14\n"


def choose(ada, content: str | bytes, name: str = "my coins.csv", kind: str = ""):
    data = content.encode() if isinstance(content, str) else content
    form = {"csrf_token": ada.token, "kind": kind, "file": (io.BytesIO(data), name)}
    return ada.client.post("/desk/import", data=form, content_type="multipart/form-data")


def confirm(ada, where: str):
    page = ada.get(where).text
    outlook = html.unescape(re.search(r'name="outlook" value="([^"]*)"', page).group(1))
    return ada.post(where, {"outlook": outlook})


def kept(book) -> list:
    return [path for path in (book.folder / "tmp").iterdir()]


def test_the_preview_tells_each_rows_fate_and_changes_nothing(ada, book):
    before = Fact.select().count()
    answer = choose(ada, MIXED)
    page = html.unescape(ada.get(answer.location).text)
    assert "Half cent, Draped Bust" in page and "not taken" in page
    assert "<strong>grade:</strong>" in page and "splendid" in page
    assert "<strong>year:</strong>" in page and "1801" in page
    assert Fact.select().count() == before
    assert not Coin.select().exists()


def test_a_confirmed_file_is_taken_and_put_away(ada, book):
    where = choose(ada, MIXED).location
    assert len(kept(book)) == 2
    assert {path.stat().st_mode & 0o777 for path in kept(book)} == {0o600}
    assert confirm(ada, where).location.startswith("/desk/stock")
    assert [(row.year, row.grade, row.cost) for row in Coin.select()] == [(1806, "VF-20", 9_500)]
    assert kept(book) == []
    assert "Imported my coins.csv: 1 row" in ada.get("/desk/journal").text
    assert confirm_again_is_gone(ada, where)


def confirm_again_is_gone(ada, where: str) -> bool:
    return ada.get(where).status_code == 404


def test_a_confirmation_of_another_preview_is_not_taken(ada, book, buy):
    from exergue.labels import ids

    coin = buy()
    content = f"id,grade\n{ids.show(coin)},EF-40\n"
    where = choose(ada, content).location
    page = ada.get(where).text
    outlook = html.unescape(re.search(r'name="outlook" value="([^"]*)"', page).group(1))
    book.act("coin.edit", {"coin": coin, "base": {"grade": "VF-20"}, "set": {"grade": "EF-40"}})
    answer = ada.post(where, {"outlook": outlook})
    assert answer.location == where
    assert "changed since this preview" in ada.get(where).text


def test_nothing_is_taken_without_what_was_previewed(ada):
    where = choose(ada, GOOD).location
    ada.post(where, {})
    assert not Coin.select().exists()


def test_a_file_can_be_put_away(ada, book):
    where = choose(ada, GOOD).location
    assert ada.post(f"{where}/forget").location == "/desk/import"
    assert kept(book) == []


@pytest.mark.parametrize("content, said", [
    ("", "not empty"),
    ("one,two\nthree,four\n", "columns"),
    (b"\x00\x01\x02", ""),
])  # fmt: skip
def test_a_file_that_cannot_be_read_is_told_and_not_kept(ada, book, content, said):
    answer = choose(ada, content)
    assert answer.status_code == 400
    assert said in html.unescape(" ".join(re.findall(r'class="error"[^>]*>([^<]+)<', answer.text)))
    assert not (book.folder / "tmp").exists() or kept(book) == []


def test_a_file_that_is_too_large_is_refused(ada):
    assert choose(ada, b"a" * (limits.CSV + 1)).status_code == 413


def test_a_question_about_the_whole_file_is_asked_and_answered(ada):
    where = choose(ada, "date,price,denomination,grade\n03/04/2021,100,half cent,VF-20\n", kind="evidence").location
    assert "can be read two ways" in ada.get(where).text
    confirm(ada, f"{where}&day_first=True")
    assert Evidence.get().date == "2021-04-03"


def test_what_a_cell_holds_is_shown_as_text(ada):
    where = choose(ada, 'denomination,title,year\nhalf cent,"<img src=x onerror=alert(1)>",1806\n').location
    page = ada.get(where).text
    assert "<img src=x" not in page and "&lt;img src=x" in page

