"""Days of deals, and dates of coins."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.records.intake import dates, issue

TODAY = date(2026, 6, 30)


@pytest.mark.parametrize(
    "text",
    ["2021-04-03", "2021/4/3", "20210403", "2021-04-03T00:00:00", "3 Apr 2021", "3-Apr-21", "3rd April 2021",
     "April 3, 2021", "Apr. 3 2021", "Sat, 3 Apr 2021", "03.04.2021", "3.4.21", "44289", "44289.5"],
)  # fmt: skip
def test_a_clear_day_is_read(text):
    assert dates.parse(text, TODAY) == "2021-04-03"


def test_a_day_that_can_be_read_two_ways_is_asked_and_never_guessed():
    with pytest.raises(dates.TwoWays, match="3 April or 4 March"):
        dates.parse("03/04/2021", TODAY)
    assert dates.parse("03/04/2021", TODAY, day_first=True) == "2021-04-03"
    assert dates.parse("03/04/2021", TODAY, day_first=False) == "2021-03-04"
    assert dates.parse("04/04/2021", TODAY) == "2021-04-04"
    assert dates.parse("15/04/2021", TODAY, day_first=False) == "2021-04-15"


def test_one_clear_date_settles_the_file_and_two_that_disagree_do_not():
    assert dates.leaning(["03/04/2021", "15/04/2021"]) is True
    assert dates.leaning(["03/04/2021", "4/15/2021"]) is False
    assert dates.leaning(["15/04/2021", "4/15/2021"]) is None
    assert dates.leaning(["03/04/2021", "", "soon"]) is None


@pytest.mark.parametrize(
    ("text", "why"),
    [("2/30/2023", "calendar"), ("2023-02-29", "calendar"), ("2019", "year only"), ("soon", "not a day"),
     ("3 Foo 2021", "no month"), ("2321-04-03", "cannot be meant"), ("0021-04-03", "calendar|cannot")],
)  # fmt: skip
def test_what_is_no_day_is_refused_with_what_would_be_right(text, why):
    with pytest.raises(dates.BadDate, match=why):
        dates.parse(text, TODAY)


@given(st.dates(date(1950, 1, 1), date(2030, 1, 1)))
def test_a_spreadsheets_day_number_is_read(day):
    """Day 1 is 1900-01-01 in a spreadsheet that takes 1900 for a leap year, so day 60 on counts from 1899-12-30."""
    assert dates.parse(str((day - date(1899, 12, 30)) // timedelta(1)), TODAY) == day.isoformat()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("1793", (1793, "", "")), ("1793.0", (1793, "", "")), ("1,893", (1893, "", "")), ("1893-S", (1893, "S", "")),
        ("1893S", (1893, "S", "")), ("1893 s", (1893, "S", "")), ("1889-CC", (1889, "CC", "")),
        ("1853 Arrows", (1853, "", "Arrows")), ("1853-O Arrows", (1853, "O", "Arrows")),
        ("1942/1", (1942, "", "1942/1")), ("1942/1-D", (1942, "D", "1942/1")), ("1802/1801", (1802, "", "1802/1801")),
        ("1798 8 over 7", (1798, "", "8 over 7")), ("1801 (3 errors)", (1801, "", "3 errors")),
        ("1828 13 stars", (1828, "", "13 stars")), ("1804 Spiked chin", (1804, "", "Spiked chin")),
        ("1795 plain edge", (1795, "", "plain edge")), ("ND", (None, "", "")), ("no date", (None, "", "")),
    ],
)  # fmt: skip
def test_a_coins_date_is_read_as_collectors_write_it(text, found):
    assert issue.parse(text) == found


@pytest.mark.parametrize(("text", "why"), [("17", "four digits"), ("?7 worn", "four digits"), ("9999", "no year"),
                                           ("2-Jan", "spreadsheet"), ("Jan-06", "spreadsheet")])  # fmt: skip
def test_what_is_no_date_of_a_coin_is_refused(text, why):
    with pytest.raises(issue.BadIssue, match=why):
        issue.parse(text)


def test_mint_marks_by_letter_and_by_name():
    assert [issue.mint(t) for t in ("s", "CC", "San Francisco", "Philadelphia", "none", "N/A", "New Orleans mint")] == \
        ["S", "CC", "S", "", "", "", "O"]  # fmt: skip
    with pytest.raises(issue.BadIssue, match="no mint mark"):
        issue.mint("S?")


def test_a_p_before_1942_only_says_philadelphia():
    assert issue.drop_early_p(1909, "P") == ""
    assert issue.drop_early_p(1943, "P") == "P"
