"""Basis, gains, gifts and trades against regulations, tax publications and a court's figures, through the books."""

import pytest
from support.entries import acquired, bought, day, head, lines, returned, sold, traded

from exergue.money.books import Books
from exergue.money.events import BadEntry, Cost, In, Out, Withdrawn
from exergue.money.ledger import check


def gains(*events, **settings):
    books = Books.of(events, **settings)
    assert check(books).ok
    return books, [each.gain for each in books.gains()]


def test_apportioned_cost_of_a_part_sold_later():
    """Treas. Reg. 1.61-6(a), Example 2: 25,000 over fair values 15,000 and 10,000. The 2,000 of depreciation allowed there
    is no cost of a coin, and is taken off the basis here by hand."""
    books, (gain,) = gains(
        bought("2001-01-01", In("FIRST", weight=15_000), In("SECOND", weight=10_000), price=25_000_00),
        sold("2004-01-02", "FIRST", price=20_000_00),
    )
    assert (books.cost_of("FIRST").total, books.cost_of("SECOND").total) == (15_000_00, 10_000_00)
    assert gain + 2_000_00 == 7_000_00


def test_equal_parts_of_a_lot_sold_one_by_one():
    """Medlin v. Commissioner, T.C. Memo. (2003), p. 29 and notes: 59,005 over 31 parts is 1,903 each in whole dollars; gains of
    20,097 and 21,097 from sales at 22,000 and 23,000. To the cent, 31 × 1,903.38 leaves 22 cents for the first 22 parts."""
    books, found = gains(
        bought("2001-01-01", In("LOT", 31), price=59_005_00),
        sold("2002-01-02", Out("LOT", 1), price=22_000_00),
        sold("2002-01-03", Out("LOT", 1), price=23_000_00),
    )
    assert [each.basis // 100 for each in books.gains()] == [1_903, 1_903]
    assert [each.basis for each in books.gains()] == [1_903_39, 1_903_39]
    assert [(gain + 50) // 100 for gain in found] == [20_097, 21_097]
    assert books.cost_of("LOT").total + 2 * 1_903_39 == 59_005_00


def test_lots_in_whole_units():
    """The same figures with a dollar as the unit: 12 parts of 1,904 and 19 of 1,903 (largest remainder)."""
    sales = [sold("2002-01-02", Out("LOT", 1), price=1) for _ in range(31)]
    books, _ = gains(bought("2001-01-01", In("LOT", 31), price=59_005), *sales)
    assert [each.basis for each in books.gains()] == [1_904] * 12 + [1_903] * 19


def test_three_equal_shares_of_one_hundred():
    """Worked by hand, both as three coins and as three pieces of a lot."""
    books, _ = gains(bought("2001-01-01", "A", "B", "C", price=100_00))
    assert [books.cost_of(coin).total for coin in "ABC"] == [33_34, 33_33, 33_33]
    sales = [sold("2002-01-02", Out("LOT", 1), price=1) for _ in range(3)]
    books, _ = gains(bought("2001-01-01", In("LOT", 3), price=100_00), *sales)
    assert [each.basis for each in books.gains()] == [33_34, 33_33, 33_33]


def test_weighted_shares_with_a_tie():
    """Worked by hand: 187.50, 281.25, 624.375, 109.375, 47.50; equal remainders go to the earlier line."""
    fair = [300, 450, 999, 175, 76]
    books, _ = gains(bought("2001-01-01", *[In(f"C{n}", weight=value) for n, value in enumerate(fair)], price=1_250_00))
    assert [books.cost_of(f"C{n}").total for n in range(5)] == [187_50, 281_25, 624_38, 109_37, 47_50]


def test_hamilton_method_on_seats():
    """The usual encyclopaedia example of largest remainders (from memory, recomputed): a seat is a cent."""
    votes = [47_000, 16_000, 15_900, 12_000, 6_000, 3_100]
    books, _ = gains(bought("2001-01-01", *[In(f"C{n}", weight=value) for n, value in enumerate(votes)], price=10))
    assert [books.cost_of(f"C{n}").total for n in range(6)] == [5, 2, 1, 1, 1, 0]


def test_a_lump_sum_is_not_shared_again_after_a_coin_was_sold():
    """The Alabama paradox, after Balinski & Young, "Fair Representation" (1982), from memory: weights 6, 6, 2 share 10 as 4, 4, 2
    and 11 as 5, 5, 1. One unit more of cost goes on top of the shares, and the third coin's never shrinks."""
    coins = [In("A", weight=6), In("B", weight=6), In("C", weight=2)]
    books, _ = gains(bought("2001-01-01", *coins, price=11))
    assert [books.cost_of(coin).total for coin in "ABC"] == [5, 5, 1]
    later = Cost(**head("2001-01-02"), coins=tuple(Out(c.coin, weight=c.weight) for c in coins), costs=lines(other=1))
    books, _ = gains(bought("2001-01-01", *coins, price=10), later)
    assert [books.cost_of(coin).total for coin in "ABC"] == [5, 4, 2]


def test_basis_of_a_bought_coin_and_its_gain():
    """What belongs to the basis: IRS Pub. 551, "Cost Basis" (from memory); figures worked by hand."""
    purchase = bought("2001-01-01", "A", price=1_000_00, fee=200_00, tax=84_00, shipping=25_00, grading=45_00)
    books, (gain,) = gains(purchase, sold("2003-01-01", "A", price=1_900_00, fee=190_00, shipping=15_00), held="investment")
    assert (books.gains()[0].basis, books.gains()[0].proceeds, gain) == (1_354_00, 1_695_00, 341_00)
    assert books.ledger.balance("gains:investment") == -341_00


def test_a_cost_added_later():
    """Treas. Reg. 1.1016-2(b), Example: bought 10,000, later cost 6,000, sold 20,000."""
    cost = Cost(**head("2002-01-01"), coins=(Out("A"),), costs=lines(other=6_000_00))
    books, (gain,) = gains(bought("2001-01-01", "A", price=10_000_00), cost, sold("2003-01-01", "A", price=20_000_00))
    assert (books.gains()[0].basis, gain) == (16_000_00, 4_000_00)


def test_a_trade_with_cash_received():
    """After IRC 1001(b): 50,000 cash and property worth 20,000 for property with a basis of 20,000."""
    books, (gain,) = gains(
        bought("2001-01-01", "A", price=20_000_00),
        traded("2003-01-01", (Out("A", value=70_000_00),), (In("B", value=20_000_00),), boot=50_000_00),
    )
    assert (books.gains()[0].proceeds, gain, books.cost_of("B").total) == (70_000_00, 50_000_00, 20_000_00)


def test_a_trade_with_cash_paid():
    """Worked by hand: a coin of basis 400 and 100 cash for coins worth 500 and 300."""
    books, (gain,) = gains(
        bought("2001-01-01", "A", price=400_00),
        traded("2003-01-01", (Out("A", value=700_00),), (In("B", value=500_00), In("C", value=300_00)), boot=-100_00),
    )
    assert (books.gains()[0].proceeds, gain) == (700_00, 300_00)
    assert [books.cost_of(coin).total for coin in "BC"] == [500_00, 300_00]


def test_a_trade_of_coin_for_coin_with_cash_received():
    """Worked by hand: a coin of basis 400 for a coin worth 550 and 150 cash."""
    books, (gain,) = gains(
        bought("2001-01-01", "A", price=400_00),
        traded("2003-01-01", (Out("A", value=700_00),), (In("B", value=550_00),), boot=150_00),
    )
    assert (gain, books.cost_of("B").total) == (300_00, 550_00)


@pytest.mark.parametrize(("price", "expected"), [(12_000_00, 2_000_00), (7_000_00, -1_000_00), (9_000_00, 0)])
def test_a_gift_worth_less_than_the_donors_basis(price, expected):
    """IRS Pub. 551, "Property Received as a Gift": donor's basis 10,000, worth 8,000 when given (the third by Reg. 1.1015-1)."""
    gift = acquired("2001-01-01", "gift", In("A", basis=10_000_00, value=8_000_00, since=day("1990-01-01")))
    _, (gain,) = gains(gift, sold("2003-01-01", "A", price=price))
    assert gain == expected


def test_a_gift_with_gift_tax():
    """IRC 1015(d)(6): worth 400,000, donor's basis 300,000, addition 80,000 × 100,000 ÷ 400,000 = 20,000: basis 320,000."""
    gift = acquired("2001-01-01", "gift", In("A", basis=300_000_00, value=400_000_00, gift_tax=20_000_00))
    books, (gain,) = gains(gift, sold("2003-01-01", "A", price=420_000_00))
    assert (books.gains()[0].basis, gain) == (320_000_00, 100_000_00)


@pytest.mark.parametrize(("paid", "donors", "value", "basis"), [
    (30_000_00, 30_000_00, 60_000_00, 30_000_00), (60_000_00, 30_000_00, 90_000_00, 60_000_00),
    (30_000_00, 60_000_00, 90_000_00, 60_000_00)])  # fmt: skip
def test_part_gift_part_sale(paid, donors, value, basis):
    """Treas. Reg. 1.1015-4(b), Examples 1 to 3."""
    gift = acquired("2001-01-01", "gift", In("A", basis=donors, value=value, paid=paid, since=day("1990-01-01")))
    books, (gain,) = gains(gift, sold("2003-01-01", "A", price=100_000_00))
    assert (books.gains()[0].basis, gain) == (basis, 100_000_00 - basis)


def test_part_gift_part_sale_below_the_value_counts_the_value_for_a_loss():
    """Treas. Reg. 1.1015-4(b), Example 4 (from memory): paid 30,000, transferor's basis 90,000, worth 60,000: basis 90,000, for a
    loss 60,000."""
    gift = acquired("2001-01-01", "gift", In("A", basis=90_000_00, value=60_000_00, paid=30_000_00))
    assert gains(gift, sold("2003-01-01", "A", price=95_000_00))[1] == [5_000_00]
    assert gains(gift, sold("2003-01-01", "A", price=50_000_00))[1] == [-10_000_00]


def test_an_inherited_coin():
    """IRC 1014 and 1223(9) (from memory), figures worked by hand: worth 1,500 at death, sold four months later for 1,650."""
    books, (gain,) = gains(acquired("2001-01-01", "inherited", In("A", value=1_500_00)), sold("2001-05-01", "A", price=1_650_00))
    assert (books.gains()[0].basis, gain, books.gains()[0].term) == (1_500_00, 150_00, "long")


def two_lots(**settings):
    books = Books(held="investment", **settings)
    first, second = bought("2023-01-03", In("LOT", 100), price=2_000_00), bought("2023-02-01", In("LOT", 100), price=3_000_00)
    for event in (first, second):
        books.take(event)
    return books, second


def test_lot_selection_first_in_first_out():
    """As beancount 3.2.3 books it: 150 of 100 at 20.00 and 100 at 30.00, sold at 40.00: gain 2,500.00, 50 at 30.00 left."""
    books, _ = two_lots()
    books.take(sold("2023-06-01", Out("LOT", 150), price=6_000_00))
    assert sum(each.gain for each in books.gains()) == 2_500_00
    (standing,) = books.stock()
    assert (standing.pieces, standing.cost) == (50, 1_500_00)


def test_lot_selection_by_specific_choice():
    """The same lots: 60 of the second sold for 2,400.00: gain 600.00; 100 at 20.00 and 40 at 30.00 left. Unnamed: refused."""
    books, second = two_lots(lots="specific")
    with pytest.raises(BadEntry):
        books.take(sold("2023-06-01", Out("LOT", 150), price=6_000_00))
    books.take(sold("2023-06-01", Out("LOT", 60, of=second.id), price=2_400_00))
    assert [each.gain for each in books.gains()] == [600_00]
    assert [(unit.pieces, unit.cents) for unit in books.records["LOT"].units] == [(100, 2_000_00), (40, 1_200_00)]


def test_cost_of_goods_sold_of_a_dealer_by_the_journal():
    """IRS Pub. 334 (2016), ch. 7: opening 37,845, purchases 285,900, own use 2,650, closing 32,955, gross receipts 400,000,
    returns 14,940: cost of goods sold 288,140, gross profit 96,920. The returned goods are taken as of no cost, so that the
    closing stock stays as printed."""
    again = sold("2016-06-01", "R", price=14_940_00)
    books, _ = gains(
        acquired("2016-01-01", "opening", In("O", value=37_845_00)),
        bought("2016-02-01", In("P", weight=285_900 - 2_650 - 32_955), In("W", weight=2_650), In("C", weight=32_955),
               price=285_900_00),
        acquired("2016-02-02", "found", In("R", value=0)),
        Withdrawn(**head("2016-03-01"), coins=("W",), to="personal"),
        sold("2016-05-01", "O", "P", price=400_000_00 - 14_940_00), again, returned("2016-06-02", again, refund=14_940_00),
    )  # fmt: skip
    assert books.ledger.balance("cost of sales") == 288_140_00
    assert books.ledger.balance("coins:stock") == 32_955_00
    net = -books.ledger.balance("sales") - books.ledger.balance("sales returns")
    assert (net, net - books.ledger.balance("cost of sales")) == (385_060_00, 96_920_00)
