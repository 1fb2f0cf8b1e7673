"""The show floor: packed, counted, cash in hand, contacts and sightings, and who may see and enter what."""

import pytest

from exergue.records import counting, reading, refold
from tests.records.conftest import Phone

SHOW, ROUND, DEALER, WANT = (f"01890000-0000-7000-8000-0000000000{n}" for n in ("aa", "c1", "bb", "01"))
DAY = {"date": "2026-03-15", "show": SHOW}


@pytest.fixture
def show(book, anna):
    anna.say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days", "starts": "2026-03-14", "ends": "2026-03-15", "float": 50_000,
                                         "budget": 100_000})  # fmt: skip
    return lambda role="owner": book.card("show", SHOW, role)


def scanned(phone, *coins, show=SHOW, place="", count=ROUND):
    body = {"count": count, "seen": [{"coin": coin} for coin in coins], "place": place} | ({"show": show} if show else {})
    return phone.say("count", **body)


def reconciled(show=SHOW, count=ROUND):
    return counting.reconciled(show, count, "2026-03-15", lambda ms: f"at {ms}")


def stories(show=SHOW):
    return {one.coin: one.kind for one in reconciled(show).differences}


def test_a_coin_knows_the_show_it_is_packed_for_until_it_is_taken_out(book, anna, show):
    coin, _ = anna.buy()
    anna.say("pack", show=SHOW, coins=[coin], box="Box 1")
    assert book.card("coin", coin)["packed"] == {"show": SHOW, "box": "Box 1"} and show()["packed"] == 1
    assert anna.say("pack", show=SHOW, coins=[coin], box="Box 1").verdict == "merged"
    out = anna.say("pack", show=SHOW, coins=[coin], undo=True)
    assert "packed" not in book.card("coin", coin) and "packed" not in show()
    anna.say("void", of=out.fact)
    assert book.card("coin", coin)["packed"]["box"] == "Box 1"


def test_scans_of_the_whole_stock_leave_the_phones_with_a_round_begun_a_week_later(book, anna, monkeypatch):
    """By the desk's clock: a phone whose own is off takes nobody's scans away."""
    from exergue.records import journal

    now = 1_770_000_000_000
    coin, _ = anna.buy()
    rounds = [f"01890000-0000-7000-8000-00000000000{n}" for n in range(4)]
    said = []
    for days, key in zip((0, 6.9, 7, 20), rounds, strict=True):
        monkeypatch.setattr(journal, "now_ms", lambda at=now + int(days * 86_400_000): at)
        said.append(scanned(anna, coin, show=None, count=key))
        held = [book.card("seen", one.fact) is not None for one in said]
        assert held == {0: [True], 6.9: [True] * 2, 7: [False, True, True], 20: [False] * 3 + [True]}[days]
    anna.say("void", of=said[3].fact)
    assert [book.card("seen", one.fact) is not None for one in said] == [False, True, True, False]
    assert scanned(anna, coin, show=None, count=rounds[0]).verdict == "applied" and refold.verify() == []


def test_cash_in_hand_and_the_budget_are_right_after_every_deal_and_every_undo(book, anna, show):
    old, other = anna.buy()[0], anna.buy()[0]
    _, bought = anna.buy(cents=20_000, show=SHOW, payment="cash")
    _, carded = anna.buy(cents=7_000, show=SHOW, payment="card")
    anna.say("sale", coin=old, price=30_000, payment="cash", **DAY)
    sale = anna.say("ticket", sold=[{"coin": other}], price=9_000, tax={"rate": "10", "cents": 900},
                    payments=[{"how": "cash", "cents": 4_900}, {"how": "check", "cents": 5_000}], **DAY)  # fmt: skip
    anna.say("money", what="expense", cents=1_500, how="cash", about="food", **DAY)
    anna.say("money", what="transfer", cents=10_000, how="cash", to_how="other", **DAY)
    own = show()["own"]
    assert own["cash"] == 50_000 - 20_000 + 30_000 + 4_900 - 1_500 - 10_000
    assert (own["spent"], own["left"]) == (27_000, 73_000)
    anna.say("return", of=sale.fact, refund=9_000, tax=900, payments=[{"how": "cash", "cents": 9_900}], date="2026-03-15")
    assert show()["own"]["cash"] == own["cash"] - 9_900
    anna.say("void", of=carded.fact), anna.say("void", of=bought.fact)
    assert show()["own"]["cash"] == own["cash"] - 9_900 + 20_000 and show()["own"]["left"] == 100_000


def test_a_refund_after_the_show_is_not_out_of_its_cash(anna, show):
    coin, _ = anna.buy()
    sale = anna.say("sale", coin=coin, price=30_000, payment="cash", **DAY)
    anna.say("return", of=sale.fact, refund=30_000, payments=[{"how": "cash", "cents": 30_000}], date="2026-04-02")
    assert show()["own"]["cash"] == 80_000


def test_of_two_sales_of_one_coin_the_one_that_stands_is_in_the_cash(anna, ben, show):
    coin, _ = anna.buy()
    anna.say("sale", coin=coin, price=30_000, payment="cash", **DAY)
    ben.say("sale", coin=coin, price=20_000, payment="cash", **DAY)
    assert show()["own"]["cash"] == 80_000
    anna.say("decide", look=reading.looks()[0]["id"], choice="second")
    assert show()["own"]["cash"] == 70_000


def test_a_helper_packs_and_counts_and_sees_no_money(book, anna, show):
    till = Phone(book, "Till", role="helper")
    coin, _ = anna.buy()
    assert till.say("pack", show=SHOW, coins=[coin]).verdict == "applied"
    assert scanned(till, coin).verdict == "applied"
    assert till.say("drawer", show=SHOW, date="2026-03-15", pieces=[]).verdict == "refused"
    assert till.say("show.close", show=SHOW, date="2026-03-15").verdict == "refused"
    assert "own" not in show("helper") and "cash" not in str(show("helper")) and show("helper")["packed"] == 1


def test_a_round_is_the_union_of_what_phones_scanned(book, anna, ben, show):
    coins = [anna.buy()[0] for _ in range(3)]
    anna.say("pack", show=SHOW, coins=coins)
    scanned(anna, *coins[:2]), scanned(ben, *coins[1:])
    card = book.card("round", ROUND)
    assert (card["seen"], card["scans"], card["show"]) == (3, 4, SHOW)
    assert reconciled().differences == []
    anna.say("void", of=ben.made[-1]["id"])
    assert book.card("round", ROUND)["seen"] == 2 and stories() == {coins[2]: "missing"}
    other = scanned(ben, coins[0], show=None)
    assert other.code == "other_show"


def test_each_difference_has_its_story_and_what_settles_it_is_a_fact(book, anna, ben, show):
    stays, sold, moved, lost, never = (anna.buy()[0] for _ in range(5))
    anna.say("pack", show=SHOW, coins=[stays, sold, moved, lost], box="Box 1")
    ben.say("sale", coin=sold, price=1_000, payment="cash", **DAY)
    anna.say("lost", coin=lost, how="missing", date="2026-03-15")
    strange = anna.new_id()
    scanned_at = anna.fact("count", when=1_790_001_000_000, count=ROUND, show=SHOW, place="Box 2",
                           seen=[{"coin": coin} for coin in (sold, moved, never, lost, strange)])  # fmt: skip
    assert anna.send(scanned_at)[0].verdict == "applied"
    assert stories() == {stays: "missing", sold: "gone", moved: "place", never: "never packed", lost: "gone", strange: "unknown"}
    done = reconciled()
    assert (done.expected, done.seen, done.missing, done.unexpected) == (2, 5, 1, 4)
    told = {one.coin: one for one in done.differences}
    assert "on Ben's phone" in told[sold].story and "Box 2" in told[sold].story
    for coin, name in ((stays, "lost"), (sold, "void"), (moved, "box"), (never, "pack"), (lost, "back")):
        action = next(one for one in told[coin].actions if one.name == name)
        assert book.act(action.kind, action.body).verdict in ("applied", "merged")
    book.act("settle", {"show": SHOW, "key": told[strange].key, "note": "A neighbour's coin, given back"})
    left = {one.coin: one.kind for one in reconciled().open}
    assert left == {sold: "place", lost: "place"}  # both were packed into another box than the one they lie in
    assert refold.verify() == []


def test_what_left_after_a_show_was_closed_was_there_when_it_was(anna, show):
    coin, sent = anna.buy()[0], anna.buy()[0]
    anna.say("pack", show=SHOW, coins=[coin, sent])
    scanned(anna, coin, sent)
    anna.say("show.close", show=SHOW, date="2026-03-15")
    anna.say("sale", coin=coin, price=1, date="2026-05-01")
    anna.say("away", coins=[sent], why="grading", date="2026-05-01")
    assert reconciled().differences == [] and reconciled().expected == 2
    anna.say("show.open", show=SHOW, date="2026-03-16")
    assert reconciled().expected == 0 and reconciled().unexpected == 2


def test_the_whole_stock_is_counted_against_its_places(anna):
    here, there, gone = (anna.buy()[0] for _ in range(3))
    anna.sell(gone)
    scanned(anna, here, show=None, place="Case 9")
    assert stories(None) == {here: "place", there: "missing"}
    assert reconciled(None).rows == [("in the book", 2)]


def test_scans_of_a_closed_show_leave_the_phones_and_come_back_when_it_opens(book, anna, show):
    fact = scanned(anna, anna.new_id()).fact
    assert book.card("seen", fact)["round"] == ROUND
    closed = anna.say("show.close", show=SHOW, date="2026-03-15")
    assert book.card("seen", fact) is None and show()["closed"] == "2026-03-15"
    anna.say("void", of=closed.fact)
    assert book.card("seen", fact) and "closed" not in show()


def test_the_last_count_of_the_drawer_stands(anna, show):
    def drawn(*pieces):
        return anna.say("drawer", show=SHOW, date="2026-03-15", pieces=[{"cents": worth, "number": many} for worth, many in pieces])

    drawn((2_000, 5))
    last = drawn((2_000, 25), (25, 2))
    assert show()["own"]["drawer"] == {"cents": 50_050, "date": "2026-03-15"}
    anna.say("void", of=last.fact)
    assert show()["own"]["drawer"]["cents"] == 10_000
    assert drawn((0, 5)).verdict == "refused"


def test_a_sighting_stands_on_the_card_of_its_want_and_of_its_dealer(book, anna):
    anna.say("contact.add", contact=DEALER, set={"name": "Ines Calloway", "table": "12", "phone": "555"})
    anna.say("want.add", want=WANT, set={"title": "A large cent"})
    seen = "01890000-0000-7000-8000-0000000000e1"
    added = anna.say("sighting.add", sighting=seen, set={"contact": DEALER, "want": WANT, "ask": 9_000, "offer": 8_000, "date": "2026-03-14"})
    for card in (book.card("want", WANT), book.card("contact", DEALER)):
        assert [(one["dealer"], one["ask"]) for one in card["sightings"]] == [("Ines Calloway", 9_000)]
    assert book.card("sighting", seen)["own"]["offer"] == 8_000 and "own" not in book.card("sighting", seen, "helper")
    anna.say("contact.edit", contact=DEALER, base={"name": "Ines Calloway"}, set={"name": "I. Calloway"})
    assert book.card("sighting", seen)["dealer"] == "I. Calloway" == book.card("want", WANT)["sightings"][0]["dealer"]
    dropped = anna.say("sighting.drop", sighting=seen)
    assert "sightings" not in book.card("want", WANT)
    anna.say("void", of=dropped.fact)
    assert book.card("want", WANT)["sightings"]
    anna.say("void", of=added.fact)
    assert book.card("sighting", seen) is None and "sightings" not in book.card("contact", DEALER)


def test_a_contact_knows_the_deals_with_it(book, anna, show):
    anna.say("contact.add", contact=DEALER, set={"name": "Ines Calloway"})
    coin, bought = anna.buy(**{"from": "Ines Calloway"})
    sale = anna.say("sale", coin=coin, price=30_000, to="Ines Calloway", **DAY)
    own = book.card("contact", DEALER)["own"]
    assert [(one["kind"], one["cents"]) for one in own["deals"]] == [("sale", 30_000), ("purchase", 10_000)]
    anna.say("void", of=sale.fact)
    assert [one["fact"] for one in book.card("contact", DEALER)["own"]["deals"]] == [bought.fact]


def test_bad_entries_are_refused_in_a_sentence(anna, show):
    coin = anna.new_id()
    assert anna.say("pack", show=SHOW, coins=[coin]).code == "no_such_coin"
    assert anna.say("pack", show=WANT, coins=[anna.buy()[0]]).code == "no_such_show"
    assert scanned(anna, coin, show=WANT).code == "no_such_show"
    assert anna.say("count", count=ROUND, seen=[]).code == "bad_body"
    assert anna.say("contact.edit", contact=DEALER, base={}, set={"name": "x"}).code == "no_such_contact"
