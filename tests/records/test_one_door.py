"""Facts come in once, in order, and each gets a verdict that is kept."""

import pytest

from exergue.records import reading
from exergue.records.tables import Coin, Fact
from exergue.records.verdicts import JournalError, Refused


def test_a_purchase_makes_a_coin_with_its_landed_cost(book, anna):
    coin, verdict = anna.buy(cents=10_000)
    assert verdict.verdict == "applied"
    card = book.card("coin", coin)
    assert card["state"] == "in stock" and card["own"]["cost"] == 10_000
    assert card["own"]["purchase"]["date"] == "2026-03-14"


def test_the_same_fact_again_gets_the_same_verdict_and_changes_nothing(book, anna):
    fact = anna.fact("purchase", bought=[{"coin": anna.new_id(), "set": {}}], costs=[], date="2026-03-14")
    first = anna.send(fact)
    seq = book.seq
    assert anna.send(fact) == first
    assert book.seq == seq


def test_a_refusal_is_kept_and_answered_again(book, anna):
    fact = anna.fact("sale", coin=anna.new_id(), price=100, date="2026-03-14")
    (verdict,) = anna.send(fact)
    assert (verdict.verdict, verdict.code) == ("refused", "no_such_coin")
    assert anna.send(fact) == [verdict]
    assert Fact.get(Fact.id == fact["id"]).verdict == "refused"


def test_one_refused_fact_does_not_stop_the_next(book, anna):
    bad = anna.fact("sale", coin=anna.new_id(), price=100, date="2026-03-14")
    good = anna.fact("want.add", want="01890000-0000-7000-8000-000000000001", set={"title": "Chain cent"})
    assert [v.verdict for v in anna.send(bad, good)] == ["refused", "applied"]


def test_another_content_under_a_known_id_is_a_loud_error(book, anna):
    fact = anna.fact("note", coin=anna.new_id(), text="one")
    anna.send(fact)
    with pytest.raises(JournalError) as problem:
        anna.send(fact | {"body": fact["body"] | {"text": "two"}})
    assert problem.value.code == "id_reused"


def test_a_used_number_with_another_id_is_a_clone(book, anna):
    anna.send(anna.fact("note", coin=anna.new_id(), text="one"))
    anna.n = 0
    with pytest.raises(JournalError) as problem:
        anna.send(anna.fact("note", coin=anna.new_id(), text="two", when=5))
    assert problem.value.code == "cloned"


def test_a_gap_in_the_numbers_takes_nothing_and_says_where_to_go_on(book, anna):
    anna.fact("note", coin=anna.new_id(), text="never sent")
    with pytest.raises(JournalError) as problem:
        anna.send(anna.fact("note", coin=anna.new_id(), text="next"))
    assert problem.value.code == "number_gap" and problem.value.more == {"next_n": 1}
    assert reading.journal(device=anna.device.id) == []


def test_an_unknown_kind_is_kept_and_shown_not_dropped(book, anna):
    verdict = anna.say("coin.polish", coin=anna.new_id())
    assert (verdict.verdict, verdict.code) == ("contested", "unknown_kind")
    assert [look["kind"] for look in reading.looks()] == ["unknown_kind"]


@pytest.mark.parametrize("body, says", [
    ({"coin": "7K3M9QX2B5", "text": "x"}, "coin is not a coin ID"),
    ({"text": "x"}, "coin is missing"),
    ({"coin": None, "text": "x"}, "coin is missing"),
    ({"coin": "ID", "text": 7}, "text is not text"),
    ({"coin": "ID", "text": "x" * 2001}, "longer than 2000"),
    ({"coin": "ID", "text": "x", "colour": "red"}, "colour is not a field"),
])  # fmt: skip
def test_a_body_that_does_not_fit_is_refused_with_the_field_named(book, anna, body, says):
    if body.get("coin") == "ID":
        body = body | {"coin": anna.new_id()}
    verdict = anna.say("note", **body)
    assert verdict.code == "bad_body" and says in verdict.message


@pytest.mark.parametrize("cents", [-1, 1.5, "12", True, 10**13])
def test_money_is_whole_minor_units(book, anna, cents):
    coin, _ = anna.buy()
    assert anna.say("sale", coin=coin, price=cents, date="2026-03-15").verdict == "refused"


def test_a_date_never_struck_is_refused_with_a_sentence(book, anna):
    coin = anna.new_id()
    verdict = anna.say("coin.add", coin=coin, set={
        "denom": "half-cent", "type": "half-cent/classic-head", "year": 1820})  # fmt: skip
    assert verdict.code == "never_struck" and "1820" in verdict.message
    assert book.card("coin", coin) is None


def test_the_desk_acts_all_or_nothing(book, anna):
    coin = anna.new_id()
    with pytest.raises(Refused):
        book.act_all([("coin.add", {"coin": coin, "set": {}}), ("note", {"coin": anna.new_id(), "text": "x"})])
    assert Coin.select().count() == 0 and book.card("coin", coin) is None
    book.act("coin.add", {"coin": coin, "set": {}})
    assert book.card("coin", coin)["state"] == "in stock"


def test_a_lot_is_split_to_the_cent_over_its_coins(book, anna):
    ids = [anna.new_id() for _ in range(3)]
    anna.say("purchase", bought=[{"coin": i, "set": {}} for i in ids], date="2026-03-14",
             costs=[{"what": "price", "cents": 10_000}, {"what": "tax", "cents": 200}])  # fmt: skip
    cards = [book.card("coin", i)["own"] for i in ids]
    assert [c["costs"][0]["cents"] for c in cards] == [3334, 3333, 3333]
    assert sum(c["cost"] for c in cards) == 10_200


@pytest.mark.parametrize("day", ["2026-W10-6", "2026-02-30", "14.3.2026", "20260314", ""])
def test_a_day_is_a_day_of_the_calendar(book, anna, day):
    coin, _ = anna.buy()
    assert anna.say("sale", coin=coin, price=1, date=day).verdict == "refused"


def test_a_mint_mark_is_one_line_and_a_note_may_have_several(book, anna):
    coin, _ = anna.buy()
    assert anna.say("coin.edit", coin=coin, base={}, set={"mint": "D\nS"}).verdict == "refused"
    assert anna.say("note", coin=coin, text="one\ntwo").verdict == "applied"


def test_a_coin_of_before_the_catalogue_knew_better_can_still_be_edited(book, anna):
    coin = anna.new_id()
    about = {"denom": "half-cent", "type": "half-cent/classic-head", "year": 1809}
    anna.say("coin.add", coin=coin, set=about)
    Coin.update(year=1820).where(Coin.id == coin).execute()  # as if recorded under an older catalogue
    same = {"base": {"year": 1820, "place": ""}, "set": {"year": 1820, "place": "Box 2"}}
    assert anna.say("coin.edit", coin=coin, **same).verdict == "applied"
    assert book.card("coin", coin)["place"] == "Box 2"
    assert anna.say("coin.edit", coin=coin, base={"mint": ""}, set={"mint": "S"}).code == "never_struck"
    assert anna.say("coin.edit", coin=coin, base={"year": 1820}, set={"year": 1809}).verdict == "applied"


@pytest.mark.parametrize("year, verdict", [(1806, "applied"), (-480, "applied"), (2101, "refused"), (18_060, "refused"),
                                           (-1001, "refused"), (10**12, "refused")])  # fmt: skip
def test_a_date_is_one_that_coins_have(book, anna, year, verdict):
    about = {"set": {"year": year}}
    assert anna.say("coin.add", coin=anna.new_id(), **about).verdict == verdict
    seen = {"set": {"year": year, "price": 100, "date": "2026-03-14"}}
    assert anna.say("sale.seen", **seen).verdict == verdict
