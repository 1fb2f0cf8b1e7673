"""Reports at the desk."""

import csv
import html
import io

import pytest
from desk.cast import ada, buy, charlie, phone  # noqa: F401 - fixtures

from exergue.labels import ids
from exergue.records import books, reporting

YEAR = "from=2026-01-01&to=2026-12-31"


@pytest.mark.parametrize("name", reporting.KINDS)
def test_each_report_opens_and_comes_as_csv_and_pdf(ada, book, buy, name):
    book.act("sale", {"coin": buy(), "price": 15_000, "date": "2026-05-02"})
    buy(year=1807, place="Box A")
    page = ada.get(f"/desk/reports/{name}")
    assert page.status_code == 200 and reporting.KINDS[name].title in html.unescape(page.text) or name == "gains"
    listed = ada.get("/desk/reports").text
    assert f"/desk/reports/{name}" in listed and reporting.KINDS[name].answers in listed
    file = ada.get(f"/desk/reports/{name}.csv?{YEAR}")
    assert file.status_code == 200 and file.data.startswith(b"\xef\xbb\xbf") and "attachment" in file.headers["Content-Disposition"]
    pdf = ada.get(f"/desk/reports/{name}.pdf?{YEAR}")
    assert pdf.status_code == 200 and pdf.data.startswith(b"%PDF")


def rows(answer) -> list[list[str]]:
    return list(csv.reader(io.StringIO(answer.data.decode("utf-8-sig"))))


def test_a_gain_is_long_from_the_day_after_a_year(ada, book, buy):
    """IRS Pub. 544, holding period: held since 5 February, it is long from 6 February of the next year on."""
    book.act("setting", {"key": "held", "value": "investment"})
    short, long = buy(cents=10_000, date="2025-02-05"), buy(cents=20_000, date="2025-02-05", year=1807)
    book.act("sale", {"coin": short, "price": 13_000, "date": "2026-02-05", "costs": [{"what": "fee", "cents": 500}]})
    book.act("sale", {"coin": long, "price": 25_000, "date": "2026-02-06"})
    found = {line[9]: line for line in rows(ada.get("/desk/reports/gains.csv?year=2026")) if len(line) > 9}
    assert found[ids.show(short)][0].startswith("Part I:") and found[ids.show(short)][4:6] == ["125.00", "100.00"]
    assert found[ids.show(short)][8] == "25.00"
    assert found[ids.show(long)][0].startswith("Part II:") and found[ids.show(long)][8] == "50.00"
    page = ada.get("/desk/reports/gains?year=2026").text
    assert page.count('class="caution"') == 1 and "25.00" in page and "50.00" in page
    assert ids.show(long) not in ada.get("/desk/reports/gains?year=2025").text


def test_cost_of_sales_is_opening_stock_and_purchases_less_closing_stock(ada, book, buy):
    """IRS Pub. 334 (2016), ch. 7: opening 37,845, purchases 285,900, own use 2,650, closing 32,955, gross receipts 400,000,
    returns 14,940: cost of goods sold 288,140, gross profit 96,920. The returned goods are taken as of no cost."""
    def sell(coin, dollars):
        return book.act("sale", {"coin": coin, "price": dollars * 100, "date": "2026-05-02"})

    opening, own, rest = buy(3_784_500, "2025-03-14"), buy(265_000, "2026-02-01"), buy(25_029_500, "2026-02-01")
    buy(3_295_500, "2026-02-01")
    free = buy(0, "2026-02-01")
    book.act("withdrawn", {"coins": [own], "to": "personal", "date": "2026-03-01"})
    sell(opening, 50_000), sell(rest, 335_060)
    book.act("return", {"of": sell(free, 14_940).fact, "refund": 1_494_000, "date": "2026-05-09"})
    found = {line[1]: line[3] for line in rows(ada.get(f"/desk/reports/dealer.csv?{YEAR}")) if len(line) == 4}
    assert found["Opening stock at cost"] == "37845.00" and found["Purchases"] == "285900.00" and found["Withdrawn"] == "-2650.00"
    assert found["Closing stock at cost"] == "-32955.00" and found["Gross receipts"] == "400000.00" and found["Returns"] == "-14940.00"
    assert found["Gross profit"] == "96920.00" and found["Difference"] == "0.00"


def test_cash_over_the_limit_is_flagged_with_its_day(ada, book, buy):
    """IRC 6050I; Treas. Reg. 1.6050I-1: more than $10,000 in cash, reported within 15 days. $10,000 itself is not more."""
    def sell(cents, to):
        book.act("ticket", {"sold": [{"coin": buy(year=1803)}], "price": cents, "payments": [{"how": "cash", "cents": cents}], "to": to,
                            "date": "2026-05-02"})  # fmt: skip

    sell(1_000_000, "A. Marsh")
    sell(1_000_100, "R. Holt")
    page = ada.get(f"/desk/reports/cash?{YEAR}").text
    assert "R. Holt: to be reported by 17 May 2026" in page and "A. Marsh" not in page


def test_a_page_says_days_as_the_desk_does_and_the_file_as_iso_8601(ada, buy):
    buy()
    page, file = ada.get(f"/desk/reports/stock?{YEAR}").text, ada.get(f"/desk/reports/stock.csv?{YEAR}").text
    assert "14 Mar 2026" in page and "2026-03-14" not in page
    assert "2026-03-14" in file


def test_sales_tax_is_summed_by_place_and_a_return_takes_it_back(ada, book, buy):
    """8.25 % of 100.00 is 8.25 (arithmetic); what is given back is taken off."""
    first = book.act("ticket", {"sold": [{"coin": buy()}], "price": 10_000, "date": "2026-05-02",
                                "tax": {"place": "Ohio", "rate": "8.25", "cents": 825}})  # fmt: skip
    book.act("ticket", {"sold": [{"coin": buy(year=1807)}], "price": 20_000, "date": "2026-05-02",
                        "tax": {"place": "Ohio", "rate": "8.25", "cents": 1650}})  # fmt: skip
    book.act("return", {"of": first.fact, "refund": 10_000, "tax": 825, "date": "2026-05-09"})
    (line,) = [line for line in rows(ada.get(f"/desk/reports/sales-tax.csv?{YEAR}")) if line and line[0] == "Ohio"]
    assert line[1:] == ["8.25", "3", "200.00", "0.00", "200.00", "16.50"]


def test_an_entry_whose_date_contradicts_is_listed_with_its_coin(ada, book, buy):
    coin = buy(date="2026-03-14")
    book.act("sale", {"coin": coin, "price": 15_000, "date": "2026-01-02"})  # before it came
    page = ada.get("/desk/reports").text
    assert "2026-01-02" in page and "counts from 2026-03-14" in page and f"/desk/coins/{coin}" in page
    assert "counts from another day" in ada.get(f"/desk/reports/dealer?{YEAR}").text


def test_a_coin_of_unknown_cost_is_listed_and_in_no_sum(ada, book, buy):
    coin, known = ids.new_id(), buy(cents=10_000)
    book.act("acquired", {"how": "opening", "coins": [{"coin": coin, "set": {"title": "a find"}}], "date": "2026-01-02"})
    assert f"/desk/coins/{coin}" in ada.get("/desk/reports").text
    page = ada.get("/desk/reports/stock").text
    assert "1 entry without a known cost" in page and ids.show(known) in page
    (total,) = [line for line in rows(ada.get("/desk/reports/stock.csv")) if "Total" in line]
    assert "100.00" in total


@pytest.mark.parametrize("query, said", [
    ("from=x", "is not a day"), ("from=2026-05-02&to=2026-05-01", "before it begins"), ("year=20x6", "is no year"),
    ("year=2026&from=2026-01-01", "not for both"), ("year=0000", "is no year"),
])  # fmt: skip
def test_days_that_cannot_be_are_told(ada, query, said):
    answer = ada.get(f"/desk/reports/dealer?{query}")
    assert answer.status_code == 400 and said in answer.text
    assert ada.get(f"/desk/reports/dealer.csv?{query}").status_code == 400


def test_a_report_that_is_not_there_is_told(ada):
    assert ada.get("/desk/reports/none").status_code == 404


@pytest.mark.parametrize("path", ["", "/stock", "/gains.csv", "/dealer.pdf"])
def test_strangers_and_phones_of_helpers_see_no_report(app, ada, charlie, book, buy, path):
    from exergue.records import devices

    buy()
    _, token = devices.pair(devices.new_code("helper", "Phone"), "Phone")
    charlie.client.set_cookie("exergue-device", token)
    answer = charlie.get(f"/desk/reports{path}")
    assert (answer.status_code, answer.location.partition("?")[0]) == (302, "/desk/sign-in")


def test_the_accounts_are_made_once_for_several_pages(book, buy):
    coin = buy()
    first = books.books(book)
    assert books.books(book) is first
    book.act("sale", {"coin": coin, "price": 15_000, "date": "2026-05-02"})
    assert books.books(book) is not first and books.books(book).books.stock() == []
