"""The reports themselves: what they count, and what they say once."""

from datetime import date

import pytest

from exergue.money.cashreport import Receipt, flags
from exergue.money.dealer import Year
from exergue.money.salestax import Exempt, Taxed
from exergue.money.taxreport import Disposal, tax_year
from exergue.reports import cash, dealer, estate, gains, insurance, sales_tax, stock
from exergue.reports.csv_file import to_csv
from exergue.reports.pdf import write_pdf

DAY = date(2026, 11, 28)
FIRST, LAST = date(2025, 1, 1), date(2025, 12, 31)


def section(report, heading):
    (found,) = [one for one in report.sections if one.heading.startswith(heading)]
    return found


def test_stock_is_counted_apart_and_what_is_not_known_is_not_zero():
    report = stock.report(
        [
            stock.Stock("A", "Cent", cost=10_00, estimate=20_00, rests_on="7 sales"),
            stock.Stock("B", "Dime", cost=None, estimate=None, pieces=20),
            stock.Stock("C", "Dollar", held="personal", cost=5_00, estimate=None, state="at grading", place="Box 1"),
            stock.Stock("D", "Not ours", cost=99_00, estimate=99_00, theirs=True),
        ],
        DAY,
    )
    (total,) = section(report, "Stock for sale").totals
    assert (total["pieces"], total["cost"], total["estimate"]) == (21, 10_00, 20_00)
    assert section(report, "Held for oneself").rows[0]["where"] == "Box 1, at grading"
    (whole,) = section(report, "All that is owned").totals
    assert (whole["pieces"], whole["cost"]) == (22, 15_00)
    assert section(report, "Coins of others").totals == ()
    assert report.notes[0].startswith("1 entry without a known cost")
    assert report.notes[1].startswith("2 entries without evidence")
    assert section(report, "Stock for sale").rows[1]["rests_on"] == "no evidence"


def test_a_total_of_nothing_known_is_empty():
    (total,) = section(stock.report([stock.Stock("A", "Cent")], DAY), "Stock").totals
    assert (total["cost"], total["estimate"]) == (None, None)


def test_gains_stand_in_the_order_of_the_form():
    sold = [
        Disposal("Cent", "A", date(2020, 1, 1), date(2025, 2, 3), 500_00, 300_00, "investment", "long"),
        Disposal("Dime", "B", "various", date(2025, 2, 3), 500_00, None, "investment", "long"),
        Disposal("Dollar", "C", date(2025, 1, 1), date(2025, 2, 3), 500_00, 300_00, "stock", "short"),
    ]
    report = gains.report(tax_year(sold, 2025))
    assert [column.heading[:3] for column in report.columns[:8]] == [f"({letter})" for letter in "abcdefgh"]
    part = section(report, "Part II")
    assert [part.rows[0][key] for key in "abcdefgh"] == [
        "Cent", date(2020, 1, 1), date(2025, 2, 3), 500_00, 300_00, "C", None, 200_00,
    ]  # fmt: skip
    assert section(report, "Basis not known").totals == ()
    assert section(report, "Stock of a dealer").totals[0]["h"] == 200_00
    assert section(report, "Worksheet").totals[0]["amount"] == 200_00
    assert "licensed preparer" in report.caution


def test_the_dealers_view_says_whether_the_pieces_agree():
    year = Year(100_00, 50_00, 0, 80_00, 90_00, sold=60_00)
    (line,) = section(dealer.report(year, FIRST, LAST, [("Travel", 5_00)]), "Do the pieces").totals
    assert line["amount"] == 10_00
    assert line["how"].startswith("does not agree")
    (result,) = section(dealer.report(year, FIRST, LAST, [("Travel", 5_00)]), "Result").totals
    assert result["amount"] == 90_00 - 70_00 - 5_00


def test_sales_tax_by_place_with_the_certificates():
    sales = [
        Taxed(FIRST, "Exampleton", "8.25", 100_00, 8_25),
        Taxed(LAST, "Exampleton", "8.25", 50_00, 0, Exempt("12-34", "resale")),
        Taxed(DAY, "Exampleton", "8.25", 100_00, 8_25),
    ]
    report = sales_tax.report(sales, FIRST, LAST)
    (total,) = section(report, "Collected").totals
    assert (total["sales"], total["exempt"], total["taxable"], total["tax"]) == (150_00, 50_00, 100_00, 8_25)
    assert section(report, "Sales without tax").rows[0]["certificate"] == "12-34"
    assert report.notes == []
    odd = sales_tax.report([Taxed(FIRST, "Exampleton", "8.25", 100_00, 8_00)], FIRST, LAST)
    assert section(odd, "Collected").rows[0]["off"] == -25
    assert odd.columns[-1].key == "off" and odd.notes


def test_cash_to_report_names_its_days():
    report = cash.report(flags([Receipt("B. Buyer", "Ticket 1", date(2025, 1, 10), "cash", 11_000_00)]))
    assert report.sections[0].heading == "B. Buyer: to be reported by 2025-01-25"
    assert "2026-01-31" in report.sections[0].note
    assert cash.report([]).sections[0].rows == []


def test_an_insurance_schedule_begins_with_the_dearest():
    values = {"Cent": 5_00, "Dime": None, "Dollar": 9_00}
    report = insurance.report([insurance.Insured(title[:2], title, value=value) for title, value in values.items()], DAY)
    assert [row["title"] for row in report.sections[0].rows] == ["Dollar", "Cent", "Dime"]
    assert report.sections[0].totals[0]["value"] == 14_00
    assert report.notes == ["1 entry without a value: in the list, in no total."]
    assert "photo" not in [column.kind for column in report.columns]
    seen = insurance.report([insurance.Insured("A", "Cent", reverse=b"a picture")], DAY)
    assert [column.heading for column in seen.columns if column.kind == "photo"] == ["Reverse"]


def test_an_estate_sheet_goes_from_place_to_place_and_names_an_expert():
    pieces = [
        estate.Piece("A", "Cent", place="Desk", cost=1_00, low=2_00, high=3_00, rests_on="4 sales"),
        estate.Piece("B", "Dime", place=""),
        estate.Piece("C", "Dollar", place="Bank box", cost=5_00, expert="M. Example"),
    ]
    report = estate.report(pieces, DAY, contacts=[estate.Contact("M. Example", "dollars", "555-0100")])
    assert [one.heading for one in report.sections] == ["Who can help", "Bank box", "Desk", "Place not noted", "Everywhere"]
    assert section(report, "Desk").rows[0]["ask"] == "an expert, not a buyer"
    assert section(report, "Bank box").rows[0]["ask"] == "M. Example"
    assert section(report, "Everywhere").totals[0]["cost"] == 6_00
    assert "does not want to buy" in report.caution


@pytest.mark.parametrize(
    "report",
    [
        stock.report([], DAY), gains.report(tax_year([], 2025)), dealer.report(Year(0, 0, 0, 0, 0), FIRST, LAST),
        sales_tax.report([], FIRST, LAST), cash.report([]), insurance.report([], DAY), estate.report([], DAY),
    ],
    ids=lambda report: report.title,
)  # fmt: skip
def test_an_empty_book_still_prints(report):
    assert write_pdf(report, "EUR", "a4").startswith(b"%PDF-")
    assert "\r\n" in to_csv(report, "EUR")
