"""Purchases, sales, returns, losses: what the books keep, and what they refuse."""

import pytest
from support.entries import acquired, bought, day, head, lines, moved, paid, returned, sold

from exergue.money.books import Books
from exergue.money.events import Away, Back, BadEntry, Cost, In, Lost, Out, Return, Void, Withdrawn
from exergue.money.ledger import check


@pytest.fixture
def books():
    """A purchase of two coins by weight, with its shipping."""
    books = Books()
    books.take(bought("2026-01-01", In("A", weight=3), In("B", weight=1), price=100_00, shipping=10_00))
    return books


def refused(books, event, why):
    before = books.ledger.balances(), books.stock()
    with pytest.raises(BadEntry, match=why):
        books.take(event)
    assert (books.ledger.balances(), books.stock()) == before
    assert event.id not in books.taken


def test_each_line_of_cost_names_the_entry_that_it_came_from(books):
    cost = Cost(**head("2026-02-01"), coins=(Out("A"), Out("B")), costs=lines(grading=61), payment="check")
    books.take(cost)
    told = books.cost_of("A")
    assert [(line.what, line.cents) for line in told.lines] == [("price", 75_00), ("shipping", 7_50), ("grading", 31)]
    assert told.lines[2].fact == cost.id
    assert (told.total, told.acquired, told.held, told.state, told.pieces) == (82_81, day("2026-01-01"), "stock", "in stock", 1)
    assert books.cost_of("B").total == 27_80
    assert books.ledger.balance("cash:check") == -61


def test_what_a_sold_coin_cost_is_still_known(books):
    books.take(sold("2026-02-01", "A", price=120_00))
    assert (books.cost_of("A").total, books.cost_of("A").state) == (82_50, "sold")


def test_stock_is_what_is_there_on_a_day(books):
    books.take(sold("2026-03-01", "A", price=120_00))
    assert [each.coin for each in books.stock()] == ["B"]
    assert [(each.coin, each.cost) for each in books.stock(day("2026-02-28"))] == [("A", 82_50), ("B", 27_50)]
    assert books.stock(day("2025-12-31")) == []


def test_a_sale_of_several_coins_is_shared_by_asking_prices(books):
    books.take(sold("2026-02-01", Out("A", weight=200), Out("B", weight=100), price=250_01, fee=10_00))
    assert [(each.coin, each.proceeds, each.gain) for each in books.gains()] == [
        ("A", 166_67 - 6_67, 77_50), ("B", 83_34 - 3_33, 52_51)]  # fmt: skip
    assert books.ledger.balance("sales") == -250_01
    assert books.ledger.balance("expense:fee") == 10_00
    assert books.ledger.balance("cost of sales") == 110_00


def test_prices_of_the_lines_come_to_the_total(books):
    event = sold("2026-02-01", Out("A", price=100_00), Out("B", price=50_00), price=149_00)
    refused(books, event, r"come to \$150.00, and the sale to \$149.00")
    refused(books, sold("2026-02-01", Out("A", price=100_00), Out("B"), price=149_00), "every coin sold a price")
    refused(books, sold("2026-02-01", Out("A", weight=1), Out("B"), price=149_00), "weight")
    refused(books, sold("2026-02-01", "A", price=None), "what the coins were sold for")
    books.take(sold("2026-02-01", Out("A", price=100_00), Out("B", price=50_00), price=150_00))
    assert [each.proceeds for each in books.gains()] == [100_00, 50_00]


def test_sales_tax_is_no_income_and_is_owed_until_paid(books):
    books.take(sold("2026-02-01", "A", price=100_00, tax=6_63, place="Ohio"))
    assert books.gains()[0].proceeds == 100_00
    assert books.ledger.balance("sales tax:Ohio") == -6_63
    assert books.ledger.balance("cash:cash") == -110_00 + 106_63
    books.take(moved("2026-04-01", "tax_paid", 6_63, how="transfer", place="Ohio"))
    assert books.ledger.balance("sales tax:Ohio") == 0


def test_payments_come_to_what_is_due(books):
    event = sold("2026-02-01", "A", price=100_00, tax=5_00, payments=paid(cash=60_00, check=44_00))
    refused(books, event, r"payments come to \$104.00, and \$105.00 is due")
    refused(books, bought("2026-02-01", "C", price=10_00, payments=paid(cash=9_00)), r"\$9.00, and \$10.00 is due")
    books.take(sold("2026-02-01", "A", price=100_00, tax=5_00, payments=paid(cash=60_00, check=45_00)))
    assert (books.ledger.balance("cash:cash"), books.ledger.balance("cash:check")) == (-110_00 + 60_00, 45_00)


def test_the_house_that_sold_may_have_kept_its_costs(books):
    event = sold("2026-02-01", "A", price=100_00, fee=15_00, payments=paid(check=90_00))
    refused(books, event, r"\(\$85.00 after costs\) is due")
    books.take(sold("2026-02-01", "A", price=100_00, fee=15_00, payments=paid(check=85_00)))
    books.take(sold("2026-02-01", "B", price=100_00, fee=15_00, payments=paid(check=100_00)))
    assert books.ledger.balance("cash:check") == 2 * 85_00
    assert books.ledger.balance("expense:fee") == 30_00


@pytest.mark.parametrize(("event", "why"), [
    (sold("2026-02-01", "C", price=1), "C is not in these books"),
    (sold("2025-12-31", "A", price=1), "A is not in these books"),
    (sold("2026-02-01", "A", "A", price=1), "goes out once"),
    (sold("2026-02-01", price=1), "which coins went out"),
    (bought("2026-02-01", "A", price=1), "A is here already"),
    (bought("2026-02-01", "C", "C", price=1), "comes in once"),
    (bought("2026-02-01", price=1), "which coins came in"),
    (bought("2026-02-01", In("C", 0), price=1), "at least 1"),
    (bought("2026-02-01", In("C", held="lent"), price=1), "not as “lent”"),
    (bought("2026-02-01", In("C", weight=0), In("D", weight=0), price=1), "more than zero"),
    (acquired("2026-02-01", "found", In("A", value=1)), "A is here already"),
    (Cost(**head("2026-02-01"), coins=(Out("C"),), costs=lines(grading=1)), "enter it as an expense"),
    (Cost(**head("2026-02-01"), coins=(Out("A"), Out("A")), costs=lines(grading=1)), "bears a cost once"),
    (Cost(**head("2026-02-01"), coins=(), costs=lines(grading=1)), "which coins it is for"),
    (Lost(**head("2026-02-01"), coin="A", how="eaten"), "not “eaten”"),
    (Lost(**head("2026-02-01"), coin="C"), "C is not in these books"),
    (Back(**head("2026-02-01"), coins=("A",)), "A was not away"),
    (Back(**head("2026-02-01"), coins=()), "which coins came back"),
    (Away(**head("2026-02-01"), coins=("A", "A")), "each once"),
    (Withdrawn(**head("2026-02-01"), coins=("A",), to="gift"), "not as “gift”"),
    (moved("2026-02-01", "transfer", 1), "from which kind of money"),
    (moved("2026-02-01", "consignor", 1), "whose coins"),
    (moved("2026-02-01", "bet", 1), "“bet” is no movement"),
    (Void(**head("2026-02-01"), of="nothing"), "nothing in these books to be undone"),
])  # fmt: skip
def test_what_cannot_be_is_refused_with_a_sentence(books, event, why):
    refused(books, event, why)


def test_the_same_entry_twice_is_refused(books):
    event = sold("2026-02-01", "A", price=1)
    books.take(event)
    with pytest.raises(BadEntry, match="in these books already"):
        books.take(event)


def test_a_coin_is_sold_once(books):
    books.take(sold("2026-02-01", "A", price=1))
    refused(books, sold("2026-02-02", "A", price=1), "no longer here: it was sold")


def test_a_sold_coin_may_be_bought_back_at_a_new_cost(books):
    books.take(sold("2026-02-01", "A", price=100_00))
    books.take(bought("2026-03-01", "A", price=95_00))
    assert (books.cost_of("A").total, books.cost_of("A").acquired) == (95_00, day("2026-03-01"))


def test_settings_that_do_not_exist_are_refused():
    for settings in ({"lots": "average"}, {"held": "lent"}):
        with pytest.raises(BadEntry):
            Books(**settings)


def test_a_return_puts_the_coin_back_at_its_old_cost_and_time(books):
    sale = sold("2026-06-01", "A", "B", price=200_00, tax=10_00, fee=8_00)
    books.take(sale)
    books.take(returned("2026-06-10", sale, "A", refund=90_00, tax=5_00, shipping=3_00))
    told = books.cost_of("A")
    assert (told.total, told.acquired, told.state) == (82_50, day("2026-01-01"), "in stock")
    assert [each.coin for each in books.gains()] == ["B"]
    assert books.ledger.balances() == {
        "cash:cash": -110_00 + 202_00 - 98_00, "coins:stock": 82_50, "cost of sales": 27_50, "sales": -200_00,
        "sales returns": 100_00, "income:restocking": -10_00, "sales tax": -5_00, "expense:fee": 8_00,
        "expense:shipping": 3_00}  # fmt: skip
    books.take(sold("2027-01-02", "A", price=100_00))
    assert books.gains()[-1].term == "long"


def test_tax_is_given_back_once(books):
    sale = sold("2026-06-01", "A", "B", price=200_00, tax=10_00)
    books.take(sale)
    books.take(returned("2026-06-10", sale, "A", refund=100_00, tax=6_00))
    refused(books, returned("2026-06-11", sale, "B", refund=100_00, tax=4_01), r"\$4.00 is left of it")
    books.take(returned("2026-06-11", sale, "B", refund=100_00, tax=4_00))
    assert books.ledger.balance("sales tax") == 0 and books.gains() == []


def test_pieces_that_come_back_do_not_bring_home_the_rest_of_the_lot():
    sale = sold("2026-02-01", Out("LOT", 2), price=80_00)
    away = Away(**head("2026-02-02"), coins=("LOT",), why="grading")
    books = Books.of([bought("2026-01-01", In("LOT", 5), price=50_00), sale, away])
    books.take(returned("2026-02-03", sale, refund=80_00))
    assert [(each.pieces, each.cost, each.state) for each in books.stock()] == [(5, 50_00, "at grading")]


def test_a_return_of_an_investment_takes_its_gain_back():
    books = Books.of([bought("2026-01-01", "A", price=50_00)], held="investment")
    sale = sold("2026-06-01", "A", price=80_00, fee=5_00)
    books.take(sale)
    assert books.ledger.balance("gains:investment") == -25_00
    books.take(returned("2026-06-10", sale, refund=80_00))
    assert books.ledger.balances() == {"cash:cash": -55_00, "coins:investment": 50_00, "expense:fee": 5_00}


def test_what_was_not_sold_is_not_returned(books):
    sale = sold("2026-06-01", "A", price=80_00, tax=1_00)
    refused(books, returned("2026-06-02", sale, refund=1), "Nothing was sold")
    books.take(sale)
    refused(books, returned("2026-06-02", sale, "B", refund=1), "B was not sold by that sale")
    refused(books, returned("2026-06-02", sale, refund=80_01), r"\$80.01 cannot be given back, since the price was \$80.00")
    refused(books, returned("2026-06-02", sale, refund=80_00, tax=1_01), r"\$1.00 is left of it")
    books.take(returned("2026-06-02", sale, refund=80_00))
    refused(books, returned("2026-06-03", sale, refund=1), "returned already")
    refused(books, returned("2026-06-03", sale, "A", refund=1), "returned already")


def test_a_coin_that_came_again_otherwise_is_not_returned(books):
    sale = sold("2026-06-01", "A", price=80_00)
    books.take(sale)
    books.take(bought("2026-06-05", "A", price=70_00))
    refused(books, returned("2026-06-06", sale, refund=80_00), "came here again by another entry")


def test_a_loss_is_told_at_its_cost_and_undone_when_the_coin_is_found(books):
    books.take(Lost(**head("2026-02-01"), coin="A", how="stolen", reimbursed=60_00, payment="check"))
    (gone,) = books.gains()
    assert (gone.why, gone.proceeds, gone.gain, books.records["A"].state) == ("stolen", 60_00, -22_50, "missing")
    assert (books.ledger.balance("cost of sales"), books.ledger.balance("income:reimbursed")) == (82_50, -60_00)
    refused(books, bought("2026-02-02", "A", price=1), "missing; book it back")
    books.take(Back(**head("2026-03-01"), coins=("A",)))
    assert books.gains() == [] and books.cost_of("A").total == 82_50
    assert books.ledger.balance("cost of sales") == 0


def test_what_is_sold_was_found(books):
    books.take(Lost(**head("2026-02-01"), coin="A", how="stolen", reimbursed=60_00, payment="check"))
    books.take(sold("2026-02-02", "A", price=100_00))
    (gone,) = books.gains()
    assert (gone.why, gone.gain, books.records["A"].state) == ("sold", 17_50, "sold")
    assert books.ledger.balance("income:reimbursed") == -60_00  # until it is paid back


def test_of_a_lot_as_many_are_found_as_are_sold_beyond_what_was_there():
    books = Books.of([bought("2026-01-01", In("L", 10), price=10_03)])
    books.take(Lost(**head("2026-02-01"), coin="L", pieces=4, how="missing"))
    books.take(sold("2026-02-02", Out("L", 8), price=80_00))
    (left,) = [each for each in books.gains() if each.why == "missing"]
    assert (left.pieces, books.records["L"].state) == (2, "missing") and check(books).ok
    books.take(Back(**head("2026-02-03"), coins=("L",)))
    assert sum(unit.cents for unit in books.records["L"].units) + sum(each.basis for each in books.gains()) == 10_03
    assert check(books).ok


def test_some_pieces_of_a_line_come_back_at_their_share():
    books = Books.of([bought("2026-01-01", In("L", 10), price=10_03)])
    sale = sold("2026-02-02", Out("L", 7), price=70_01)
    books.take(sale)
    books.take(Return(**head("2026-02-03"), of=sale.id, coins=("L",), pieces=3, refund=30_01))
    assert sum(unit.pieces for unit in books.records["L"].units) == 6 and check(books).ok
    assert books.ledger.balance("sales returns") == 30_01 and "income:restocking" not in books.ledger.balances()
    refused(books, Return(**head("2026-02-04"), of=sale.id, coins=("L",), pieces=5, refund=0), "5 pieces of L cannot come back")
    books.take(Return(**head("2026-02-04"), of=sale.id, refund=40_00))
    assert sum(unit.cents for unit in books.records["L"].units) == 10_03 and books.gains() == [] and check(books).ok


def test_a_cost_of_what_is_gone_is_an_expense(books):
    books.take(sold("2026-02-02", "A", price=100_00))
    books.take(Cost(**head("2026-03-01"), coins=(Out("A"),), costs=({"what": "shipping", "cents": 5_00},)))
    assert books.gains()[0].gain == 17_50 and books.ledger.balance("expense:shipping") == 5_00 and check(books).ok


def test_a_coin_withdrawn_for_own_use_leaves_the_stock_at_its_cost(books):
    books.take(Withdrawn(**head("2026-02-01"), coins=("A",), to="personal"))
    assert (books.ledger.balance("coins:stock"), books.ledger.balance("coins:personal")) == (27_50, 82_50)
    books.take(sold("2026-03-01", "A", price=100_00))
    assert books.gains()[0].held == "personal"
    assert (books.ledger.balance("sales"), books.ledger.balance("gains:personal")) == (0, -17_50)


def test_a_coin_at_grading_is_ours_and_comes_back(books):
    books.take(Away(**head("2026-02-01"), coins=("A",), why="grading", with_="The grader"))
    assert [(each.coin, each.state, each.cost) for each in books.stock()] == [
        ("A", "at grading", 82_50), ("B", "in stock", 27_50)]  # fmt: skip
    (out,) = books.out()
    assert (out.coin, out.party, out.kind, out.date) == ("A", "The grader", "grading", day("2026-02-01"))
    refused(books, Away(**head("2026-02-02"), coins=("A",)), "A is at grading; book it back first")
    books.take(Back(**head("2026-03-01"), coins=("A",)))
    assert books.records["A"].state == "in stock"


def test_what_another_entry_rests_on_is_not_undone(books):
    purchase = next(iter(books.taken))
    books.take(sold("2026-02-01", "A", price=1))
    why = "The purchase of 2026-01-01 cannot be undone while the sale of 2026-02-01 stands: A is not in these books."
    refused(books, Void(**head("2026-02-02"), of=purchase), why)


def test_an_entry_for_an_earlier_day_must_leave_the_later_ones_possible(books):
    books.take(sold("2026-03-01", "A", price=1))
    refused(books, sold("2026-02-01", "A", price=2), "With this, the sale of 2026-03-01 could not be: A is no longer here")


def test_money_without_coins_moves_its_accounts(books):
    for what, cents in (("owner_in", 500_00), ("expense", 20_00), ("income", 5_00), ("transfer", 100_00), ("owner_out", 50_00)):
        books.take(moved("2026-02-01", what, cents, to_how="transfer"))
    assert books.ledger.balances() == {
        "cash:cash": -110_00 + 335_00, "cash:transfer": 100_00, "coins:stock": 110_00, "expense:general": 20_00,
        "income:other": -5_00, "owner": -450_00}  # fmt: skip
    assert check(books).ok


def test_a_history_with_faults_is_read_as_far_as_it_can_be():
    good, bad = bought("2026-01-01", "A", price=100_00), sold("2026-02-01", "B", price=1)
    note = Void(**head("2026-02-01"), of="a note")
    with pytest.raises(BadEntry, match="B is not in these books"):
        Books.of([good, bad, note])
    refused = []
    books = Books.of([bad, good, note], refused)
    assert refused == [(bad, "B is not in these books.")]
    assert list(books.taken) == [good.id] and books.cost_of("A").total == 100_00
