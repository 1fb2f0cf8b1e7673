"""Lump-sum purchases and cost basis against regulations, a court's figures and a textbook method."""

from exergue.money.allocate import split
from exergue.money.shares import split_costs, total


def test_two_parts_bought_together_share_the_price_by_fair_value():
    """Treas. Reg. 1.61-6(a), Example 2 (same figures in Cal. Code Regs. tit. 18, § 24271(d))."""
    shares = split(25_000_00, [15_000, 10_000])
    assert shares == [15_000_00, 10_000_00]
    assert 20_000_00 - (shares[0] - 2_000_00) == 7_000_00


def test_equal_parts_of_a_lot():
    """Medlin v. Commissioner, T.C. Memo. (2003), p. 29: $59,005 over 31 parts, $1,903 each in whole dollars."""
    assert 59_005 // 31 == 1_903
    assert 59_005 - 31 * 1_903 == 12
    whole = split(59_005, [1] * 31)
    assert sorted(whole, reverse=True) == [1_904] * 12 + [1_903] * 19
    assert [22_000 - 1_903, 23_000 - 1_903] == [20_097, 21_097]
    assert sum(split(59_005_00, [1] * 31)) == 59_005_00


def test_three_equal_shares_of_one_hundred():
    """Worked by hand: rounding each share by itself would give 99.99."""
    assert split(100_00, [1, 1, 1]) == [33_34, 33_33, 33_33]


def test_equal_remainders_go_to_the_earlier_line():
    """Worked by hand: 187.50, 281.25, 624.375, 109.375, 47.50."""
    assert split(1_250_00, [300, 450, 999, 175, 76]) == [187_50, 281_25, 624_38, 109_37, 47_50]


def test_hamilton_method_on_seats():
    """Largest remainder with the Hare quota: the usual encyclopaedia example (from memory, recomputed)."""
    assert split(10, [47_000, 16_000, 15_900, 12_000, 6_000, 3_100]) == [5, 2, 1, 1, 1, 0]


def test_a_larger_total_may_lower_one_share():
    """The Alabama paradox, after Balinski & Young, "Fair Representation" (1982): from memory."""
    assert split(10, [6, 6, 2]) == [4, 4, 2]
    assert split(11, [6, 6, 2]) == [5, 5, 1]


def test_basis_of_a_bought_coin():
    """Price, buyer's fee, sales tax, shipping and testing: IRS Pub. 551, "Cost Basis" (from memory)."""
    costs = [
        {"what": "price", "cents": 1_000_00},
        {"what": "fee", "cents": split(1_000_00, [20, 80])[0]},
        {"what": "tax", "cents": split(1_200_00, [7, 93])[0]},
        {"what": "shipping", "cents": 25_00},
        {"what": "grading", "cents": 45_00},
    ]
    basis = total(costs)
    assert basis == 1_354_00
    assert split_costs(costs, [None]) == [costs]
    assert 1_900_00 - 190_00 - 15_00 - basis == 341_00
