"""Costs that nobody said, pieces added to a lot and parts of it, dates that contradict, what consignors are owed."""

from exergue.records import books, proof, reading, refold
from tests.records.test_money_facts import NEVER, card, lot, memo_in, ticket


def test_a_purchase_without_a_cost_is_of_unknown_cost_and_one_of_nothing_was_free(book, anna):
    coins = [anna.new_id() for _ in range(3)]
    anna.say("purchase", bought=[{"coin": coin, "set": {}} for coin in coins[:2]], costs=[], date="2026-03-14")
    anna.say("purchase", bought=[{"coin": coins[2], "set": {}}], costs=[{"what": "price", "cents": 0}], date="2026-03-14")
    assert [card(book, coin)["own"]["cost"] for coin in coins] == [None, None, 0]
    account = books.build(book)
    assert account.unknown == sorted(coins[:2]) and proof.differences(account) == []


def test_a_price_in_another_currency_alone_is_reckoned_in_the_books(book, anna):
    coin = anna.new_id()
    foreign = {"currency": "EUR", "cents": 10_000, "rate": "1.08"}
    anna.say("purchase", bought=[{"coin": coin, "set": {}}], costs=[{"what": "shipping", "cents": 500}], foreign=foreign, date="2026-03-14")
    assert card(book, coin)["own"]["cost"] == 11_300 and proof.differences(books.build(book)) == []
    other = anna.say("purchase", bought=[{"coin": anna.new_id(), "set": {}}], costs=[{"what": "price", "cents": 1}], foreign=foreign,
                     date="2026-03-14")  # fmt: skip
    assert other.code == "prices_differ" and "is $108.00" in other.message


def topped_up(anna, **more):
    """A lot of 10 for 10.03, and 5 more for 10.00."""
    coin = lot(anna, 10, 1_003)
    verdict = anna.say("purchase", bought=[{"coin": coin, "set": {}, "pieces": 5}], costs=[{"what": "price", "cents": 1_000}],
                       date="2026-03-15", **more)  # fmt: skip
    return coin, verdict


def test_pieces_are_added_to_a_lot_by_a_later_purchase_and_leave_first_in_first_out(book, anna):
    coin, more = topped_up(anna)
    here = card(book, coin)
    assert more.verdict == "applied" and (here["pieces"], here["left"], here["own"]["cost"]) == (15, 15, 2_003)
    assert here["own"]["costs"][1] == {"what": "price", "cents": 1_000, "fact": more.fact, "date": "2026-03-15", "pieces": 5, "from": ""}
    ticket(anna, {"coin": coin, "pieces": 12}, price=12_000)
    assert card(book, coin)["own"]["moves"][-1]["gain"] == 12_000 - 1_003 - 400 and card(book, coin)["own"]["cost_left"] == 600
    assert anna.say("void", of=more.fact).code == "rests_on"
    assert proof.differences(books.build(book)) == [] and refold.verify() == []


def test_the_pieces_sold_may_be_named_by_the_purchase_that_brought_them(book, anna):
    coin, more = topped_up(anna)
    assert ticket(anna, {"coin": coin, "pieces": 3, "of": NEVER}, price=1).code == "not_from_there"
    ticket(anna, {"coin": coin, "pieces": 3, "of": more.fact}, price=3_000)
    assert card(book, coin)["own"]["moves"][-1]["gain"] == 3_000 - 600
    assert ticket(anna, {"coin": coin, "pieces": 3, "of": more.fact}, price=1).verdict == "contested"  # 2 are left of those
    anna.say("setting", key="lots", value="specific")
    assert ticket(anna, {"coin": coin, "pieces": 1}, price=1).code == "say_which"
    assert ticket(anna, coin, price=9_000).verdict == "applied"  # all that is left needs no word
    assert proof.differences(books.build(book)) == []


def test_a_lot_that_is_sold_out_is_topped_up_again(book, anna):
    coin = lot(anna, 10)
    ticket(anna, coin)
    anna.say("purchase", bought=[{"coin": coin, "set": {}, "pieces": 4}], costs=[{"what": "price", "cents": 90}], date="2026-03-17")
    assert (card(book, coin)["state"], card(book, coin)["left"], card(book, coin)["own"]["cost_left"]) == ("in stock", 4, 90)


def test_some_pieces_of_a_line_come_back(book, anna):
    coin = lot(anna, 10, 1_003)
    sold = ticket(anna, {"coin": coin, "pieces": 7}, price=7_001)
    assert anna.say("return", of=sold.fact, coins=[coin], pieces=8, refund=0, date="2026-03-20").code == "too_many"
    assert anna.say("return", of=sold.fact, coins=[coin], pieces=3, refund=3_002, date="2026-03-20").code == "refund_too_high"
    assert anna.say("return", of=sold.fact, coins=[coin], pieces=3, refund=3_001, date="2026-03-20").verdict == "applied"
    assert card(book, coin)["left"] == 6 and proof.differences(books.build(book)) == []
    anna.say("return", of=sold.fact, refund=4_000, date="2026-03-21")
    assert card(book, coin)["left"] == 10 and card(book, coin)["own"]["cost"] == 1_003 and books.build(book).books.gains() == []


def test_an_owner_is_owed_the_net_of_what_was_sold_until_it_is_paid(book, anna):
    coin, _ = memo_in(anna, net=7_000)
    ticket(anna, coin, price=10_000)
    account = books.build(book).books
    assert account.due == {"R. Holt": 7_000} and account.ledger.balance("income:commission") == -3_000
    assert "to" in anna.say("money", what="consignor", cents=5_000, how="check", date="2026-03-20").message
    assert anna.say("money", what="consignor", to="r. holt", cents=5_000, how="check", date="2026-03-20").verdict == "applied"
    account = books.build(book).books
    assert account.due == {"R. Holt": 2_000} and [row.about for row in account.owed] == ["sold", "paid"]


def test_an_entry_dated_before_what_was_entered_earlier_counts_from_then_and_is_told(book, anna):
    coin, _ = anna.buy(cents=10_000)
    early = anna.sell(coin, 15_000, "2026-01-02")
    assert early.verdict == "merged" and "It is dated 2026-01-02" in early.message and "counts from 2026-03-14" in early.message
    assert card(book, coin)["state"] == "sold" and reading.looks()[0]["kind"] == "dates"
    account = books.build(book)
    (gone,) = account.books.gains()
    assert (gone.disposed.isoformat(), gone.gain, account.refused) == ("2026-03-14", 5_000, [])
    assert [each.fact for each in books.contradictions(account)] == [early.fact]
    anna.say("void", of=early.fact)
    assert reading.looks() == [] and card(book, coin)["state"] == "in stock"


def test_a_purchase_entered_late_tells_what_the_coin_cost_from_the_start(book, anna):
    coin = anna.new_id()
    anna.say("coin.add", coin=coin, set={"title": "x"})
    anna.sell(coin, 15_000, "2026-03-15")
    late = anna.say("purchase", bought=[{"coin": coin, "set": {}}], costs=[{"what": "price", "cents": 9_000}], date="2026-03-01")
    assert late.verdict == "applied" and card(book, coin)["own"]["sale"]["gain"] == 6_000
    assert books.build(book).books.gains()[0].gain == 6_000 and proof.differences(books.build(book)) == []
