"""Coins that came otherwise than by purchase: opening stock, inheritance, gift, find."""

import pytest
from support.entries import acquired, bought, day, head, lines, sold

from exergue.money.books import Books
from exergue.money.events import Acquired, BadEntry, Cost, In, Out
from exergue.money.ledger import check


def one(*events, **settings):
    """The one disposal of a short history, and the books."""
    books = Books.of(events, **settings)
    assert check(books).ok
    (disposal,) = books.gains()
    return disposal, books


def test_an_unknown_cost_is_never_nothing():
    gone, books = one(acquired("2020-01-01", "opening", In("A"), In("B", value=50_00)), sold("2026-01-01", "A", price=90_00))
    assert (gone.proceeds, gone.basis, gone.gain) == (90_00, None, None)
    assert "not known" in gone.note
    assert books.cost_of("A").total is None
    assert check(books).coins["stock"] == (50_00, 50_00)


def test_coins_of_unknown_cost_are_counted_and_stand_at_nothing_but_later_costs():
    books = Books.of([
        acquired("2020-01-01", "opening", In("A"), In("LOT", 7)),
        Cost(**head("2021-01-01"), coins=(Out("A"),), costs=lines(grading=45_00)),
    ])  # fmt: skip
    proof = check(books)
    assert proof.unknown == [("A", 1), ("LOT", 7)]
    assert proof.coins["stock"] == (45_00, 45_00) and proof.ok
    assert books.cost_of("A").total is None


def test_what_was_got_for_a_coin_of_unknown_cost_stands_in_an_account_of_its_own():
    _, books = one(acquired("2020-01-01", "opening", In("A")), sold("2026-01-01", "A", price=90_00), held="investment")
    assert books.ledger.balances() == {"cash:cash": 90_00, "gains:investment, cost unknown": -90_00}


def test_an_opening_coin_has_the_day_it_was_acquired_if_that_is_known():
    gone, _ = one(acquired("2026-01-01", "opening", In("A", value=1, since=day("2024-05-01"))), sold("2026-02-01", "A", price=2))
    assert (gone.acquired, gone.term) == (day("2024-05-01"), "long")
    gone, _ = one(acquired("2026-01-01", "opening", In("A", value=1)), sold("2026-02-01", "A", price=2))
    assert (gone.acquired, gone.term) == (None, None)
    gone, _ = one(acquired("2024-01-01", "opening", In("A", value=1)), sold("2026-02-01", "A", price=2))
    assert (gone.acquired, gone.term) == (None, "long")  # it was here for more than a year, whenever it came


def test_an_inherited_coin_counts_from_its_value_at_death_and_is_always_long_term():
    gone, books = one(acquired("2026-01-01", "inherited", In("A", value=1_500_00)), sold("2026-01-02", "A", price=1_650_00))
    assert (gone.basis, gone.gain, gone.term) == (1_500_00, 150_00, "long")
    assert books.ledger.balance("owner") == -1_500_00


GIFT = In("A", basis=10_000_00, value=8_000_00, since=day("2020-01-01"))


@pytest.mark.parametrize(("price", "basis", "gain", "acquired_on", "term"), [
    (12_000_00, 10_000_00, 2_000_00, "2020-01-01", "long"),
    (9_000_00, 9_000_00, 0, "2026-01-01", "short"),
    (7_000_00, 8_000_00, -1_000_00, "2026-01-01", "short"),
])  # fmt: skip
def test_a_gift_has_two_bases_and_the_donors_time_goes_with_the_donors_basis(price, basis, gain, acquired_on, term):
    for held in ("stock", "investment", "personal"):
        gone, books = one(acquired("2026-01-01", "gift", GIFT), sold("2026-02-01", "A", price=price), held=held)
        assert (gone.basis, gone.gain, gone.acquired, gone.term) == (basis, gain, day(acquired_on), term)
        earned = {"sales", "cost of sales"} if held == "stock" else {f"gains:{held}"}
        assert -sum(books.ledger.balance(account) for account in earned) == gain


def test_what_a_gift_rests_on_is_said():
    gone, _ = one(acquired("2026-01-01", "gift", GIFT), sold("2026-02-01", "A", price=12_000_00))
    assert gone.note.endswith("The donor’s time is added.")
    with pytest.raises(BadEntry, match="A cannot have been acquired on 2026-01-02, after 2026-01-01"):
        Books().take(acquired("2026-01-01", "gift", In("A", basis=1, since=day("2026-01-02"))))


def test_later_costs_add_to_both_bases_of_a_gift():
    cost = Cost(**head("2026-01-05"), coins=(Out("A"),), costs=lines(grading=50_00))
    gone, _ = one(acquired("2026-01-01", "gift", GIFT), cost, sold("2026-02-01", "A", price=7_000_00))
    assert (gone.basis, gone.gain) == (8_050_00, -1_050_00)


def test_a_part_of_a_given_lot_has_its_share_of_both_bases():
    lot = In("A", 4, basis=10_000_00, value=8_000_00, since=day("2020-01-01"))
    books = Books.of([acquired("2026-01-01", "gift", lot), sold("2026-02-01", Out("A", 1), price=1_500_00),
                      sold("2026-02-01", Out("A", 3), price=9_000_00)])  # fmt: skip
    assert [(each.basis, each.gain) for each in books.gains()] == [(2_000_00, -500_00), (7_500_00, 1_500_00)]
    books = Books.of([acquired("2026-01-01", "gift", lot), sold("2026-02-01", Out("A", 1), price=1_500_00),
                      sold("2026-02-02", Out("A", 3), price=1_500_00)])  # fmt: skip
    assert [(each.basis, each.gain) for each in books.gains()] == [(2_000_00, -500_00), (6_000_00, -4_500_00)]


def test_what_is_not_known_of_a_gift_leaves_its_gain_unknown():
    gone, _ = one(acquired("2026-01-01", "gift", In("A", value=5_00)), sold("2026-02-01", "A", price=9_00))
    assert (gone.gain, gone.term) == (None, None)
    gone, _ = one(acquired("2026-01-01", "gift", In("A", basis=5_00)), sold("2026-02-01", "A", price=4_00))
    assert gone.gain is None and "value at the gift is not known" in gone.note and gone.term is None
    gone, _ = one(acquired("2026-01-01", "gift", In("A", basis=5_00)), sold("2026-02-01", "A", price=9_00))
    assert gone.gain == 4_00


def test_a_found_coin_counts_at_its_face():
    gone, _ = one(acquired("2026-01-01", "found", In("A", value=25)), sold("2026-02-01", "A", price=9_00))
    assert (gone.basis, gone.gain) == (25, 8_75)
    gone, _ = one(acquired("2026-01-01", "found", In("A")), sold("2026-02-01", "A", price=9_00))
    assert gone.basis is None and gone.gain is None  # nobody said: not known, never nothing


def test_what_was_paid_for_a_gift_in_part_is_paid_in_cash():
    event = Acquired(**head("2026-01-01"), how="gift", coins=(In("A", basis=30_00, value=90_00, paid=60_00),), payment="check")
    books = Books.of([event])
    assert books.ledger.balances() == {"cash:check": -60_00, "coins:stock": 60_00}
    assert books.cost_of("A").acquired == day("2026-01-01")  # its basis is its price, and so the time is its own


def test_a_coin_that_was_just_entered_waits_for_a_word_on_how_it_came():
    entered = Acquired(id="add", date=day("0001-01-01"), how="entered", coins=(In("A"),))
    cost = Cost(**head("2025-03-01"), coins=(Out("A"),), costs=lines(grading=45_00))
    gone, books = one(entered, cost, sold("2026-01-01", "A", price=90_00))
    assert (gone.gain, gone.term) == (None, None)
    books.take(bought("2025-01-01", "A", price=50_00))
    (gone,) = books.gains()
    assert (gone.basis, gone.gain, gone.acquired) == (95_00, -5_00, day("2025-01-01"))
    assert check(books).ok and check(books).unknown == []


def test_a_purchase_of_an_entered_lot_is_of_all_its_pieces_unless_it_says_how_many():
    entered = Acquired(id="add", date=day("0001-01-01"), how="entered", coins=(In("LOT", 5), In("B")))
    books = Books.of([entered, bought("2026-02-01", "LOT", "B", price=60_00)])
    assert [(each.coin, each.pieces, each.cost) for each in books.stock()] == [("B", 1, 10_00), ("LOT", 5, 50_00)]


def test_pieces_of_which_some_left_are_no_longer_replaced_by_a_purchase():
    entered = Acquired(id="add", date=day("0001-01-01"), how="entered", coins=(In("LOT", 5),))
    books = Books.of([entered, sold("2026-01-01", Out("LOT", 2), price=90_00), bought("2026-02-01", In("LOT", 4), price=40_00)])
    assert [(each.pieces, each.cost) for each in books.stock()] == [(7, None)]


def test_a_word_on_how_a_coin_came_may_also_say_how_it_is_held():
    entered = Acquired(id="add", date=day("0001-01-01"), how="entered", coins=(In("A"),))
    cost = Cost(**head("2025-03-01"), coins=(Out("A"),), costs=lines(grading=45_00))
    books = Books.of([entered, cost, bought("2025-04-01", In("A", held="personal"), price=50_00)])
    assert check(books).coins == {"stock": (0, 0), "investment": (0, 0), "personal": (95_00, 95_00)}


def test_an_unknown_way_to_acquire_a_coin_is_refused():
    with pytest.raises(BadEntry, match="“won” is no way to acquire a coin; give one of opening, inherited, gift, found"):
        Books().take(acquired("2026-01-01", "won", In("A")))
