"""Rows of wants, shows and past sales."""

import uuid

import pytest

from exergue.records.intake.present import Evidences


def fact(row):
    ((_, body),) = row.facts
    return body["set"]


def errors(row):
    return [str(message) for message in row.messages if message.level == "error"]


# --- which kind of file ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("header", "kind"),
    [
        ("Denomination,Type,Date,Grade", "coins"),
        ("Denom,Date,Grade,Price,Dealer,Purchase date", "coins"),
        ("Denomination,Type,Years,Grade from,Grade to,Ceiling", "wants"),
        ("Coin,Date,Grade,Max price,Priority", "wants"),
        ("Date,Price realized,Denomination,Year,Grade,Source", "evidence"),
        ("Sold on,Price,Fee included,Type,Coin date,Grade", "evidence"),
        ("Show,City,Table,Start date,End date,Cash float", "shows"),
    ],
)
def test_the_columns_tell_what_a_file_holds(read, header, kind):
    assert read(header + "\r\n").kind == kind


def test_the_kind_can_be_chosen(read):
    text = "Denomination,Type,Date,Grade,Price\r\ndime,,1807,F-12,900\r\n"
    assert read(text).kind == "coins"
    assert read(text, kind="evidence").kind == "evidence"


# --- wants ----------------------------------------------------------------------------------------


def test_a_want_is_read(row):
    found = row({"Denomination": "half cent", "Type": "Draped Bust", "Years": "1800-1808", "Grade from": "vf20",
                 "Grade to": "ef40", "Ceiling": "$350", "Priority": "urgent", "Note": "smooth"})  # fmt: skip
    assert fact(found) == {
        "denom": "half-cent", "type": "half-cent/draped-bust", "years": "1800-1808", "grade_from": "VF-20",
        "grade_to": "EF-40", "ceiling": 35000, "priority": "high", "note": "smooth",
    }  # fmt: skip


def test_a_want_in_one_column_is_read(row):
    body = fact(row({"Wanted": "1793 Wreath cent", "Max price": "5000"}))
    assert body == {"denom": "large-cent", "type": "large-cent/wreath", "years": "1793", "ceiling": 500000}


@pytest.mark.parametrize(
    ("text", "grades"),
    [("VF-20 to EF-40", ("VF-20", "EF-40")), ("VF20-XF40", ("VF-20", "EF-40")), ("EF40 - VF20", ("VF-20", "EF-40")),
     ("VF-20", ("VF-20", None)), ("F12 or better", ("F-12", None)), ("AU50 and up", ("AU-50", None))],
)  # fmt: skip
def test_a_range_of_grades_in_one_cell_is_read(row, text, grades):
    body = fact(row({"Denomination": "half cent", "Grade": text, "Max price": "100"}))
    assert (body["grade_from"], body.get("grade_to")) == grades


def test_a_want_for_dates_never_struck_is_refused_and_one_that_holds_some_is_not(row):
    want = {"Denomination": "half cent", "Type": "Draped Bust", "Ceiling": "9"}
    assert "1801" in errors(row(want | {"Years": "1801"}))[0]
    assert row(want | {"Years": "1800-1802"}).fate == "new"
    assert fact(row(want | {"Years": "1804 or later"}))["years"] == "1804 or later"


def test_the_years_say_which_of_two_types_is_wanted(row):
    found = row({"Denomination": "half cent", "Type": "Liberty Cap", "Years": "1794-1797", "Ceiling": "9"})
    assert fact(found)["type"] == "half-cent/liberty-cap-right"


def test_a_want_upside_down_is_refused(row):
    found = row({"Denomination": "half cent", "Grade from": "EF-40", "Grade to": "VF-20", "Ceiling": "9"})
    assert "below" in errors(found)[0]


def test_a_want_that_the_book_has_is_the_same_once(read, paper):
    held = {"denom": "half-cent", "type": "", "title": "", "years": "1806", "grade_from": "", "grade_to": "",
            "ceiling": 900, "priority": "usual", "note": ""}  # fmt: skip
    key = str(uuid.uuid4())
    paper.held_wants = {key: held}
    text = "Denomination,Years,Ceiling\r\nhalf cent,1806,9\r\nhalf cent,1806,9\r\n"
    assert [r.fate for r in read(text).rows] == ["same", "new"]
    edit = read(f"ID,Denomination,Ceiling\r\n{key},half cent,12\r\n").rows[0]
    assert edit.facts == [("want.edit", {"want": key, "base": {"ceiling": 900}, "set": {"ceiling": 1200}})]


# --- shows ----------------------------------------------------------------------------------------


def test_a_show_is_read(row):
    found = row({"Show": "Coin Days", "Venue": "Hall", "Table": "17", "Start date": "2026-03-19",
                 "End date": "2026-03-20", "Cash float": "$400"})  # fmt: skip
    assert fact(found) == {
        "name": "Coin Days", "place": "Hall", "table": "17", "starts": "2026-03-19", "ends": "2026-03-20",
        "float": 40000,
    }  # fmt: skip


def test_a_show_of_the_same_name_and_day_is_the_one_of_the_book(row, paper):
    key = str(uuid.uuid4())
    paper.held_shows = {key: {"name": "Coin Days", "place": "", "table": "", "starts": "2026-03-19", "ends": "",
                              "float": None, "note": ""}}  # fmt: skip
    found = row({"Name": "coin days", "Starts": "2026-03-19", "Table": "17"})
    assert found.facts[0][0] == "show.edit" and found.facts[0][1]["show"] == key
    assert found.fate == "change"


def test_a_show_that_ends_before_it_starts_is_refused(row):
    assert "before" in errors(row({"Name": "X", "Starts": "2026-03-19", "Ends": "2026-03-18"}))[0]


# --- past sales -----------------------------------------------------------------------------------


SALE = {"Sold on": "2025-05-06", "Price": "180", "Fee included": "yes", "Denomination": "half cent",
        "Type": "Draped Bust", "Coin date": "1806", "Grade": "VF-20", "Source": "Orrinvale Auctions"}  # fmt: skip
KEPT = {"date": "2025-05-06", "price": 18000, "fee_included": True, "denom": "half-cent",
        "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20", "source": "Orrinvale Auctions"}  # fmt: skip


def test_a_past_sale_is_read(row):
    found = row(SALE)
    assert (found.facts[0][0], fact(found)) == ("sale.seen", KEPT)


@pytest.mark.parametrize(("column", "why"), [("Sold on", "its day"), ("Price", "its price")])
def test_a_past_sale_without_day_or_price_is_refused(row, column, why):
    assert why in errors(row(SALE | {column: ""}))[0]


def test_a_past_sale_of_a_date_never_struck_is_refused(row):
    assert "1812" in errors(row(SALE | {"Coin date": "1812"}))[0]


def test_as_many_equal_sales_as_the_book_has_are_the_same(read, paper):
    paper.held_evidence = Evidences()
    paper.held_evidence.alike[Evidences.key(KEPT)] = 1
    lines = ",".join(SALE) + "\r\n" + (",".join(SALE.values()) + "\r\n") * 2
    assert [r.fate for r in read(lines).rows] == ["same", "new"]
