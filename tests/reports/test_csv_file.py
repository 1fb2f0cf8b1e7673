"""Reports as CSV."""

import csv
import io
from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st
from reports.samples import COLUMNS, stock

from exergue.reports.csv_file import to_csv
from exergue.reports.model import Column, Report, Section


def read(text):
    return list(csv.reader(io.StringIO(text, newline="")))


def test_rows_stand_in_one_table_and_totals_apart():
    lines = read(to_csv(stock(8), "USD"))
    assert lines[0] == [column.heading for column in COLUMNS]
    assert lines[1] == ["7K3M9-00000", "Half dollar 1840 O, seated figure, number 0", "2020-01-01", "1", "13.36", "0.00", "1.00"]
    assert lines[8][-1] == ""  # not known is no zero
    assert lines[9:11] == [[], ["", "Total", "", "", "", "", "14.77"]]
    assert lines[11:] == [[], ["A caution."], ["A note."]]


def test_numbers_are_bare_and_words_are_quoted():
    text = to_csv(stock(1), "USD").split("\r\n")[1]
    assert text == '"7K3M9-00000","Half dollar 1840 O, seated figure, number 0","2020-01-01",1,13.36,0.00,1.00'


def test_sections_are_named_and_those_of_other_columns_stand_apart():
    own = [Column("line", "Line"), Column("amount", "Amount", "money")]
    other = Section("Worksheet", [{"line": "Gain", "amount": -5}], columns=own)
    report = Report("R", "", [Column("a", "A")], [Section("One", [{"a": "x"}]), other, Section("Two", [{"a": "y"}])])
    assert read(to_csv(report, "USD")) == [
        ["Section", "A"], ["One", "x"], ["Two", "y"], [], ["Section", "Line", "Amount"], ["Worksheet", "Gain", "-0.05"],
    ]  # fmt: skip


def test_a_currency_without_decimals():
    report = Report("R", "", [Column("a", "A", "money")], [Section("", [{"a": 1250}])])
    assert read(to_csv(report, "JPY"))[1] == ["1250"]


@given(st.text(st.sampled_from("=+-@\t'a1,\"\n\uff1d"), max_size=6))
def test_no_cell_is_run_by_a_spreadsheet(text):
    """OWASP, "CSV Injection" (from memory): in cells, headings, names of sections, cautions and notes alike."""
    sections = [Section(text, [{"a": text}], [{"a": text}]), Section("", [])]
    report = replace(Report("R", "", [Column("a", text)], sections), caution=text, notes=[text])
    for cell in (cell for line in read(to_csv(report, "USD")) for cell in line):
        assert not cell.startswith(tuple("=+-@\t\n\r\uff1d"))


def test_a_word_in_a_column_of_dates_or_money_stays():
    columns = [Column("b", "B", "date"), Column("c", "C", "money")]
    report = Report("R", "", columns, [Section("", [{"b": "inherited", "c": "not known"}, {"b": date(2025, 1, 2), "c": 5}])])
    assert read(to_csv(report, "USD"))[1:] == [["inherited", "not known"], ["2025-01-02", "0.05"]]
