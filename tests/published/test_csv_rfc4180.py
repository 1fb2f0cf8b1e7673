"""CSV as RFC 4180 writes it: lines end CRLF; commas, quotes and breaks are quoted; a quote is doubled (from memory)."""

import csv
import io

from exergue.records.export import write_csv
from exergue.records.intake.sheet import read_sheet


def written(columns, *rows):
    out = io.StringIO(newline="")
    write_csv(columns, [dict(zip(columns, row, strict=True)) for row in rows], out)
    return out.getvalue()


def test_the_standards_own_example_of_a_doubled_quote():
    """RFC 4180, section 2, rule 7: "aaa","b""bb","ccc"."""
    assert written(["a", "b", "c"], ["aaa", 'b"bb', "ccc"]).splitlines()[1] == '"aaa","b""bb","ccc"'
    sheet = read_sheet(b'Denomination,Grade,Notes\r\n"aaa","b""bb","ccc"\r\n')
    assert sheet.rows == [(2, ["aaa", 'b"bb', "ccc"])]


def test_every_line_ends_with_carriage_return_and_line_feed():
    text = written(["a", "b"], ["1", "2"], ["3", "4"])
    assert text.count("\r\n") == text.count("\n") == 3


def test_commas_and_line_breaks_stay_inside_their_field():
    """Rules 5 and 6, read back by Python's csv module in its strict mode."""
    rows = [["one, two", "three\r\nfour"], [" spaces are part ", ""]]
    back = list(csv.reader(io.StringIO(written(["a", "b"], *rows), newline=""), strict=True))
    assert back == [["a", "b"], *rows]
