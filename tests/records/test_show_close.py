"""The close of a show from the book."""

import pytest

from exergue.records import cards, reading, show_close
from exergue.records.books import books
from exergue.records.reporting.floor import close_of_show
from exergue.records.tables import Coin, Seen, Show
from exergue.reports.csv_file import to_csv

SHOW, ROUND, WANT = (f"01890000-0000-7000-8000-0000000000{n}" for n in ("aa", "c1", "01"))
DAY = {"date": "2026-03-15", "show": SHOW}


@pytest.fixture
def day(book, anna):
    """A whole day: five packed, two sold, one traded for another, one bought for a want, one sent away, all counted."""
    anna.say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days", "starts": "2026-03-14", "ends": "2026-03-15", "float": 50_000, "budget": 60_000})
    anna.say("want.add", want=WANT, set={"title": "A large cent"})
    first, second, third, fourth, stays = coins = [anna.buy(cents=10_000)[0] for _ in range(5)]
    anna.say("pack", show=SHOW, coins=coins, box="Box 1")
    anna.say("sale", coin=first, price=16_000, costs=[{"what": "fee", "cents": 500}], payment="cash", **DAY)
    anna.say("ticket", sold=[{"coin": second}], price=9_000, payments=[{"how": "cash", "cents": 4_000}, {"how": "card", "cents": 5_000}], **DAY)
    got = anna.new_id()
    anna.say("trade", out=[{"coin": third, "value": 12_000}], **{"in": [{"coin": got, "set": {"title": "traded in"}, "value": 13_000}]}, boot=-1_000,
             payments=[{"how": "cash", "cents": 1_000}], **DAY)  # fmt: skip
    wanted, _ = anna.buy(cents=20_000, show=SHOW, payment="cash", want=WANT)
    anna.say("away", coins=[fourth], why="grading", date="2026-03-15")
    anna.say("money", what="expense", cents=3_000, how="card", about="table", **DAY)
    anna.say("money", what="expense", cents=1_200, how="cash", about="food", **DAY)
    anna.say("count", count=ROUND, show=SHOW, place="Box 1", seen=[{"coin": coin} for coin in sorted((stays, got, wanted))])
    anna.say("drawer", show=SHOW, date="2026-03-15", pieces=[{"cents": 10_000, "number": 4}, {"cents": 2_000, "number": 3}, {"cents": 100, "number": 18}])
    return dict(zip(("first", "second", "third", "fourth", "stays", "got", "wanted"), (*coins, got, wanted), strict=True))


def closed(book):
    return show_close.done(book, Show.get(), "2026-03-15", lambda ms: f"at {ms}")


def test_stock_and_cash_agree_and_the_result_is_what_a_pencil_says(book, day):
    done = closed(book)
    assert done.close.agrees and done.open == 0
    assert done.close.expected_pieces == 3 == done.counted.expected
    total = next(row for row in done.close.stock if row.mark == "total")
    assert total.cents == sum(Coin.get_by_id(day[name]).cost for name in ("stays", "got", "wanted"))
    assert done.close.expected_cash == 50_000 + 16_000 + 4_000 - 1_000 - 20_000 - 1_200 == 47_800
    assert (done.drawer.off, done.drawer.says) == (0, "agrees")


def test_profit_best_worst_wants_payments_expenses_and_budget(book, day):
    done = closed(book)
    assert (done.close.sales, done.close.cost_of_sales) == (37_000, 30_000)
    assert done.close.net == 7_000 - 500 - 4_200
    assert (done.best.coin, done.best.gain) == (day["first"], 5_500)
    assert (done.worst.coin, done.worst.gain) == (day["second"], -1_000)
    assert [one["coin"] for one in done.wants] == [day["wanted"]]
    assert done.ways == [("cash", 20_000, 22_200), ("card", 5_000, 3_000)]
    assert done.expenses == [("table", 3_000), ("food", 1_200)]
    assert (done.spent, done.left) == (21_000, 39_000)


def test_a_sale_that_came_back_is_no_sale(book, anna, day):
    sale = reading.sales(SHOW)[0]["fact"]
    anna.say("return", of=sale, refund=16_000, payments=[{"how": "cash", "cents": 16_000}], date="2026-03-15")
    done = closed(book)
    assert done.close.sales == 21_000 and done.close.expected_pieces == 4 == done.counted.expected
    assert done.close.expected_cash == 31_800


def test_what_is_kept_of_a_sale_that_came_back_is_in_the_result_as_the_accounts_have_it(book, anna, day):
    """160.00 less a refund of 150.00 leaves 10.00; the fee of 5.00 stays spent, and the way back cost 3.00. By hand:
    sold 90.00 + 120.00, cost 200.00, gross 10.00; + 10.00 − 8.00 − 42.00 of expenses = −30.00."""
    sale = reading.sales(SHOW)[0]["fact"]
    costs = [{"what": "shipping", "cents": 300}]
    anna.say("return", of=sale, refund=15_000, costs=costs, payments=[{"how": "cash", "cents": 15_000}], date="2026-03-15")
    done = closed(book)
    rows = {row.label: row for row in done.close.result}
    assert (done.close.sales, done.close.gross_profit) == (21_000, 1_000)
    assert (rows["Kept of sales that came back"].pieces, rows["Kept of sales that came back"].cents) == (1, 1_000)
    assert rows["Costs of selling"].cents == -800
    assert done.close.net == 1_000 + 1_000 - 800 - 4_200 == -3_000
    balances = books(book).books.ledger.balances()
    assert balances["income:restocking"] == -1_000 and balances["expense:fee"] + balances["expense:shipping"] == 800


def test_pieces_of_a_lot_that_come_back_are_no_longer_sold(book, anna, day):
    """4 of 10 pieces for 6.00, 1 back for 1.00: 3 sold for 4.50 at a cost of 3.00, and 0.50 kept."""
    before = closed(book).close
    lot, _ = anna.buy(cents=1_000, set={"pieces": 10})
    anna.say("pack", show=SHOW, coins=[lot])
    sold = anna.say("ticket", sold=[{"coin": lot, "pieces": 4}], price=600, payments=[{"how": "cash", "cents": 600}], **DAY)
    anna.say("return", of=sold.fact, coins=[lot], pieces=1, refund=100, payments=[{"how": "cash", "cents": 100}], date="2026-03-15")
    after = closed(book).close
    assert (after.sales - before.sales, after.cost_of_sales - before.cost_of_sales) == (450, 300)
    assert after.net - before.net == 450 - 300 + 50
    assert next(row for row in after.stock if row.mark == "total").cents == 10_000 + 13_000 + 20_000 + 700


def test_one_missing_and_another_there_do_not_agree(book, anna, day):
    stranger, _ = anna.buy(cents=700)
    anna.say("void", of=Seen.get().fact)
    anna.say("count", count=ROUND, show=SHOW, seen=[{"coin": coin} for coin in sorted((day["stays"], day["got"], stranger))])
    done = closed(book)
    assert (done.close.pieces_off, done.close.swapped, done.close.agrees) == (0, 1, False)
    last = close_of_show(done, "").sections[0].totals[-1]
    assert last["line"].startswith("The number agrees, the coins do not: 1 is missing and 1 other is there") and last["coins"] is None


def test_a_coin_that_nobody_packed_and_that_was_sold_came_along(book, anna, day):
    coin, _ = anna.buy(cents=700)
    anna.say("sale", coin=coin, price=900, payment="cash", **DAY)
    done = closed(book)
    assert done.close.expected_pieces == 3 == done.counted.expected
    assert (show_close.ALONG, 1, 700) in [(row.label, row.pieces, row.cents) for row in done.close.stock]


def test_a_part_of_a_lot_that_is_sold_leaves_its_label_in_the_case(book, anna, day):
    lot, _ = anna.buy(cents=1_000, set={"pieces": 10})
    anna.say("pack", show=SHOW, coins=[lot])
    anna.say("ticket", sold=[{"coin": lot, "pieces": 4}], price=600, payments=[{"how": "cash", "cents": 600}], **DAY)
    done = closed(book)
    assert done.close.expected_pieces == 4 == done.counted.expected
    total = next(row for row in done.close.stock if row.mark == "total")
    assert total.cents == 10_000 + 13_000 + 20_000 + 600


def test_a_cash_difference_is_open_until_it_is_explained_and_again_after_the_next_count(book, anna, day):
    anna.say("drawer", show=SHOW, date="2026-03-15", pieces=[{"cents": 100, "number": 1}])
    assert closed(book).open == 1
    anna.say("settle", show=SHOW, key=show_close.cash_key(SHOW), note="Left in the car")
    assert closed(book).open == 0
    anna.say("drawer", show=SHOW, date="2026-03-15", pieces=[{"cents": 100, "number": 2}])
    assert closed(book).open == 1


def test_the_close_is_a_report(book, day):
    report = close_of_show(closed(book), "14–15 Mar 2026")
    text = to_csv(report, "USD")
    assert report.title == "Close of show: Larkmoor Coin Days" and "Wants filled" in text and "A large cent" in text
    assert "Sent away" in text and "478" not in cards.lookup("show", SHOW).open


def test_a_part_of_a_consignors_lot_costs_its_share_of_what_was_agreed(book, anna):
    anna.say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days", "starts": "2026-03-14", "ends": "2026-03-15"})
    roll = anna.new_id()
    anna.say("memo", way="in", kind="consignment", coins=[{"coin": roll, "set": {"title": "A roll", "pieces": 20}, "net": 10_000}], date="2026-03-01",
             **{"with": "Orla Penhale"})  # fmt: skip
    anna.say("ticket", sold=[{"coin": roll, "pieces": 5}], price=4_000, **DAY)
    assert closed(book).close.cost_of_sales == 10_000 * 5 // 20
