"""Cells that a spreadsheet would run: OWASP, "CSV Injection" (from memory)."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.records.export import write_csv
from exergue.reports.formulas import guard, unguard

STARTERS = "=+-@\t\r\n\uff1d\uff0b\uff0d\uff20"  # what a formula may start with, full-width forms included


@pytest.mark.parametrize("start", STARTERS)
def test_a_text_that_starts_a_formula_gets_an_apostrophe(start):
    assert guard(f"{start}1+2") == f"'{start}1+2"


def test_the_usual_attack_is_a_text_and_quoted():
    out = io.StringIO(newline="")
    write_csv(["a"], [{"a": '=HYPERLINK("http://x","click"),=1+2'}], out)
    assert out.getvalue().splitlines()[1].startswith("\"'=HYPERLINK")
    assert next(csv.reader(io.StringIO(out.getvalue().splitlines()[1]))) == ['\'=HYPERLINK("http://x","click"),=1+2']


def test_a_number_below_zero_stays_a_number():
    out = io.StringIO(newline="")
    write_csv(["a"], [{"a": Decimal("-5.00")}], out)
    assert out.getvalue().splitlines()[1] == "-5.00"


@given(st.text(st.sampled_from(STARTERS + "'a1 "), max_size=6))
def test_the_import_gives_the_text_back(text):
    assert unguard(guard(text)) == text
    assert not guard(text).startswith(tuple(STARTERS))
