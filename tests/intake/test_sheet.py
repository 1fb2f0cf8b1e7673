"""Files as spreadsheets leave them: letters, delimiters, where the header is, what is no row."""

import pytest

from exergue.records.intake import FileRefused
from exergue.records.intake.sheet import clean, is_totals, plain_header, read_sheet

PLAIN = "Denomination,Date,Grade\r\n½ cent,1806,VF-20\r\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-16-be"])
def test_letters_are_read_in_every_usual_encoding(encoding):
    assert read_sheet(PLAIN.encode(encoding)).rows == [(2, ["½ cent", "1806", "VF-20"])]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_the_delimiter_is_found(delimiter):
    sheet = read_sheet(PLAIN.replace(",", delimiter).encode())
    assert (sheet.delimiter, sheet.rows[0][1][1]) == (delimiter, "1806")


def test_a_declared_delimiter_counts_as_a_row():
    sheet = read_sheet(b"sep=;\r\nDenomination;Grade\r\nDime;F-12\r\n")
    assert (sheet.delimiter, sheet.rows) == (";", [(3, ["Dime", "F-12"])])


def test_the_header_may_stand_below_a_title_and_rows_keep_their_number():
    sheet = read_sheet(b"My stock,,\r\n,,\r\nDenomination,Date,Grade\r\n,,\r\nDime,1807,F-12\r\n,,\r\n,,\r\n")
    assert (sheet.header[0], sheet.rows) == (3, [(5, ["Dime", "1807", "F-12"])])


def test_a_line_break_inside_a_cell_is_one_row():
    sheet = read_sheet(b'Denomination,Notes\r\nDime,"first\r\nsecond"\r\nCent,x\r\n')
    assert [line for line, _ in sheet.rows] == [2, 3]


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "empty"), (b" \r\n,\r\n", "No row of names"), (b"PK\x03\x04rest", "save it as CSV"),
        (b"a,b\r\n1,2\r\n", "No row of names"), (b"Denomination,Grade\r\nDi\0me,F\r\n", "no text file"),
    ],
)  # fmt: skip
def test_what_is_no_table_is_refused_in_a_sentence(data, why):
    with pytest.raises(FileRefused, match=why):
        read_sheet(data)


@pytest.mark.parametrize(
    ("name", "plain"),
    [("Buyer's fee ($)", "buyers fee"), ("Buyer\u2019s Fee", "buyers fee"), ("Cert. #", "cert no"), ("S&H", "s h"),
     ("(Grade)", "grade"), ("  Mint\u00a0Mark ", "mint mark"), ("Purchase_Date", "purchase date")],
)  # fmt: skip
def test_signs_and_units_in_a_column_name_do_not_matter(name, plain):
    assert plain_header(name) == plain


def test_odd_spaces_go_and_inner_line_breaks_stay():
    assert clean("\u00a0 Case\u00a0 1 \ufeff") == "Case 1"
    assert clean(" one \r\n two ") == "one\ntwo"


def test_rows_of_totals_are_known():
    assert is_totals(["Total", "", "$1,234.50"])
    assert is_totals(["", "", "Grand total:", "77"])
    assert is_totals(["", "", "", "$1,234.50", "1,300"])
    assert not is_totals(["Dime", "1807", "", "$5"])
    assert not is_totals(["", "1807", "", "5"])
