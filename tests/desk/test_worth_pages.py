"""Worth at the desk: a coin, a type, a want, and the settings behind them."""

import csv
import json
from datetime import date, timedelta

import pytest

from exergue.money import cents

TYPE = "half-cent/draped-bust"
WANT = "01890000-0000-7000-8000-000000000001"


def sales(book, *rows):
    """Recorded sales (grade, cents, days ago) of a half cent of 1806."""
    day = date.today()
    book.act_all([("sale.seen", {"set": {"date": (day - timedelta(days=ago)).isoformat(), "price": cents, "denom": "half-cent",
                   "type": TYPE, "year": 1806, "grade": grade, "fee_included": True}}) for grade, cents, ago in rows])  # fmt: skip


@pytest.fixture
def known(book):
    sales(book, ("F-12", 9_000, 40), ("VF-20", 15_000, 30), ("VF-20", 16_000, 90), ("VF-30", 21_000, 200), ("EF-40", 33_000, 60))


def test_a_coin_shows_estimate_floor_and_picture(ada, book, buy, known):
    page = ada.get(f"/desk/coins/{buy(cents=10_000)}").text
    assert "four in five further sales" in page and "The least to take" in page
    assert page.count("<circle class=\"own\"") == 5
    assert "Its cost, $100.00, is marked." in page


def test_a_coin_without_evidence_is_told_so(ada, buy):
    page = ada.get(f"/desk/coins/{buy()}").text
    assert "No evidence: no sale of this type is recorded." in page and 'class="worth"' not in page
    assert "$110.00" in page  # the floor of cost and a margin of 10 %, rule.toml


def test_nothing_is_said_far_from_the_evidence(ada, book, buy, known):
    assert "No evidence near MS-65" in ada.get(f"/desk/coins/{buy(grade='MS-65')}").text


def test_a_type_shows_its_picture_without_a_coin(ada, book, known):
    page = ada.get("/desk/types/half-cent/draped-bust").text
    assert 'class="worth"' in page and "is marked" not in page


def test_a_want_shows_its_ceiling_as_arithmetic(ada, book, known):
    book.act("want.add", {"want": WANT, "set": {"denom": "half-cent", "type": TYPE, "grade_from": "VF-20"}})
    page = ada.get(f"/desk/wants/{WANT}").text
    assert "The most to pay" in page and "85 %" in page


def test_settings_are_kept_and_change_the_floor(ada, book, buy):
    coin = buy(cents=10_000)
    ada.post("/desk/settings/worth", {"half_life_days": "700", "buyers_fee": "17,5 %", "floor_margin": "25", "silver": "30.00",
                                      "silver_date": "2026-06-30"})  # fmt: skip
    assert book.setting("worth") == {"half_life_days": 700, "buyers_fee": "17.5", "floor": {"margin": "25"}}
    assert book.setting("spot") == {"silver": {"cents": 3000, "date": "2026-06-30"}}
    assert "$125.00" in ada.get(f"/desk/coins/{coin}").text


def test_every_figure_of_the_rule_can_be_set_and_goes_back_when_it_is_usual(ada, book):
    own = {"ceiling_of": "low", "ceiling_percent": "70", "floor_of": "mid", "floor_melt": "95", "follow_market": "no", "factor_sales": "8"}
    ada.post("/desk/settings/worth", own)
    assert book.setting("worth") == {"ceiling": {"of": "low", "percent": "70"}, "floor": {"of": "mid", "melt": "95"},
                                     "follow_market": False, "factor_sales": 8}  # fmt: skip
    page = ada.get("/desk/settings/worth").text
    assert page.count('<option selected value="low">') == 1 and '<option selected value="no">' in page
    usual = {"ceiling_of": "mid", "ceiling_percent": "85", "floor_of": "low", "floor_melt": "100", "follow_market": "yes", "factor_sales": "5"}
    ada.post("/desk/settings/worth", usual | {"seen": json.dumps({"worth": book.setting("worth"), "spot": {}})})
    assert book.setting("worth") == {}


def test_an_example_shows_the_arithmetic_before_anything_is_kept(ada, book):
    """Estimate 80/100/130, cost 60, metal 12, worked by hand: 85 % of 100 is 85 to pay; 10 % over 60 is 66 to take, and
    with a fee of 10 % 73.33, of which 7.33 go and 66.00 stay."""
    page = ada.get("/desk/settings/worth").text
    assert "$85.00" in page and "$66.00" in page and "$120.00" in page
    tried = ada.post("/desk/settings/worth", {"floor_fee": "10", "buyers_fee": "25", "half_life_days": "3653", "do": "try"}).text
    assert "$73.33" in tried and "$125.00" in tried and "Nothing is kept yet" in tried
    assert book.setting("worth") == {}


@pytest.mark.parametrize("typed, told", [
    ({"factor_sales": "0"}, "from 1 to 1000"),
    ({"half_life_days": "3"}, "from 30 to 36500"), ({"buyers_fee": "900"}, "percent from 0 to 100"),
    ({"floor_margin": "much"}, "Give a percent such as 10 or 7.5."), ({"ceiling_fee": "91"}, "percent from 0 to 90"),
    ({"gold": "2000"}, "Give the day on which you saw the price of gold."), ({"gold_date": "2026-01-01"}, "Give the price of gold"),
    ({"gold": "0", "gold_date": "2026-01-01"}, "more than 0"),
])  # fmt: skip
def test_bad_settings_are_told_beside_the_field_and_nothing_is_kept(ada, book, typed, told):
    page = ada.post("/desk/settings/worth", typed).text
    assert told in page and 'aria-invalid="true"' in page
    assert (book.setting("worth"), book.setting("spot")) == ({}, {})


def test_strangers_see_no_worth(charlie, book, known):
    assert charlie.get("/desk/settings/worth").status_code == 302


def test_the_stock_list_says_what_it_is_worth_and_from_what(ada, buy, known):
    one, lot, bare = buy(), buy(pieces=3), buy(grade="MS-65")
    said = {row["ID"].replace("-", ""): row for row in csv.DictReader(ada.get("/desk/reports/stock.csv").text.lstrip("\ufeff").splitlines())}
    each = cents.parse(said[one]["Estimate"])
    assert 15_000 <= each <= 16_000  # between the two sales in the same grade
    assert cents.parse(said[lot]["Estimate"]) == 3 * each and said[bare]["Estimate"] == ""
    assert said[one]["Estimate rests on"].startswith("5 sales, the last 2")
