"""Sets in the book: entries, the card with what fills each slot, wants for slots, and what a helper sees."""

import pytest

from exergue.records import cards, journal, migrations, reading, refold
from exergue.records.book import Book
from exergue.records.store import write
from exergue.records.tables import Goal
from exergue.records.verdicts import Refused

SET, WANT = "01890000-0000-7000-8000-00000000000a", "01890000-0000-7000-8000-00000000000b"
DRAPED, CLASSIC = "half-cent/draped-bust", "half-cent/classic-head"
SLOTS = [{"key": "d", "title": "Draped Bust", "types": [DRAPED], "grade_from": "F-12", "grade_to": "EF-45"},
         {"key": "c", "title": "Classic Head", "types": [CLASSIC]}]  # fmt: skip


@pytest.fixture
def half_cents(book):
    book.act("set.add", {"goal": SET, "set": {"name": "Half cents", "slots": SLOTS}})
    return book


def of(book, role="owner"):
    return book.card("goal", SET, role)


def in_slot(book, key):
    return next(slot for slot in of(book)["slots"] if slot["key"] == key).get("coin")


def draped(**more):
    return {"type": DRAPED, **more}


def test_a_coin_that_is_bought_fills_its_slot_and_opens_it_again_when_it_is_sold(half_cents, anna):
    assert (of(half_cents)["filled"], of(half_cents)["open"]) == (0, 2)
    coin, _ = anna.buy(set=draped())
    assert in_slot(half_cents, "d") == {"id": coin, "grade": "VF-20", "dateText": "1806"}
    assert of(half_cents)["own"] == {"cost": 10_000, "unknown": 0, "costs": {coin: 10_000}}
    anna.sell(coin)
    assert in_slot(half_cents, "d") is None and of(half_cents)["own"]["cost"] == 0


def test_a_better_coin_takes_the_slot_and_the_other_is_spare(half_cents, anna):
    first, _ = anna.buy(set=draped())
    second, _ = anna.buy(set=draped(grade="VF-30"))
    card = of(half_cents)
    assert in_slot(half_cents, "d")["id"] == second and card["spare"] == [first]
    assert card["slots"][0]["upgrade"] == ["VF-35", "EF-45"]


def test_a_coin_that_is_named_later_fills_a_slot_and_one_renamed_leaves_it(half_cents, anna):
    coin, _ = anna.buy(set={"type": "", "year": None})
    assert of(half_cents)["filled"] == 0
    anna.say("coin.edit", coin=coin, base={"type": ""}, set={"type": CLASSIC})
    assert in_slot(half_cents, "c")["id"] == coin
    anna.say("coin.edit", coin=coin, base={"type": CLASSIC}, set={"type": ""})
    assert in_slot(half_cents, "c") is None


def test_a_purchase_that_is_undone_leaves_the_slot_open(half_cents, anna):
    _, verdict = anna.buy(set=draped())
    anna.say("void", of=verdict.fact)
    assert of(half_cents)["filled"] == 0


def test_a_coin_elsewhere_fills_its_slot_still_and_says_where_it_is(half_cents, anna):
    coin, _ = anna.buy(set=draped())
    anna.say("away", coins=[coin], why="grading", date="2026-03-20", **{"with": "A firm"})
    assert in_slot(half_cents, "d")["state"] == "at grading"
    anna.say("lost", coin=coin, how="missing", date="2026-03-21")
    assert in_slot(half_cents, "d") is None


def test_somebody_elses_coin_fills_nothing(half_cents, anna):
    anna.say("memo", way="in", kind="memo", date="2026-03-20", coins=[{"coin": anna.new_id(), "set": draped(grade="VF-20"), "net": 5_000}])
    assert of(half_cents)["filled"] == 0


def test_a_photo_of_the_obverse_stands_in_the_window(half_cents, anna):
    coin, _ = anna.buy(set=draped())
    for number, side in enumerate(("reverse", "obverse")):
        anna.say("photo", coin=coin, photo=f"01890000-0000-7000-8000-00000000010{number}", side=side, digest="0" * 64)
    assert in_slot(half_cents, "d")["photo"].endswith("101")


def test_an_ungraded_coin_is_told_and_not_guessed_in(half_cents, anna):
    coin, _ = anna.buy(set=draped(grade=""))
    assert of(half_cents)["unclear"] == [{"slot": "d", "coin": coin, "why": "has no grade entered"}]


def test_a_helper_sees_the_board_and_no_cost(half_cents, anna):
    anna.buy(set=draped())
    assert "own" not in of(half_cents, "helper") and "10000" not in str(of(half_cents, "helper"))
    from exergue.sync.roles import KINDS

    assert "goal" in KINDS["helper"] and "want" not in KINDS["helper"]


def test_many_entries_at_once_make_the_card_once_and_the_book_still_proves(half_cents, anna):
    before = half_cents.seq
    facts = [anna.fact("coin.add", coin=anna.new_id(), set=draped(grade="F-12", denom="half-cent", year=1806)) for _ in range(20)]
    anna.send(*facts)
    assert half_cents.seq - before == 20 * 2 + 1  # each entry, each coin's card, one card of the set
    assert refold.verify() == []
    held = cards.lookup("goal", SET)
    refold.rebuild()
    assert cards.lookup("goal", SET).open == held.open and cards.lookup("goal", SET).seq == held.seq


def test_an_edit_changes_slots_and_a_drop_takes_the_set_away(half_cents, anna):
    anna.buy(set=draped())
    half_cents.act("set.edit", {"goal": SET, "base": {"name": "Half cents"}, "set": {"name": "Mine", "slots": SLOTS[1:]}})
    assert of(half_cents)["name"] == "Mine" and [slot["key"] for slot in of(half_cents)["slots"]] == ["c"]
    half_cents.act("set.drop", {"goal": SET})
    assert of(half_cents) is None and not Goal.select().exists() and reading.goals() == []
    with pytest.raises(Refused, match="no such set"):
        half_cents.act("set.drop", {"goal": SET})
    assert refold.verify() == []


@pytest.mark.parametrize(("slot", "said"), [
    ({"types": []}, "accepts no type"), ({"types": ["half-cent/nothing"]}, "no type “half-cent/nothing”"),
    ({"types": [DRAPED], "years": "about 1806"}, "no year"), ({"types": [DRAPED], "grade_from": "EF-40", "grade_to": "F-12"}, "lower grade"),
    ({"types": [DRAPED], "subtype": "nothing"}, "does not have"), ({"types": [DRAPED], "grade_from": "very nice"}, "nice"),
])  # fmt: skip
def test_a_slot_that_makes_no_sense_is_refused_and_nothing_is_kept(book, slot, said):
    with pytest.raises(Refused, match=said):
        book.act("set.add", {"goal": SET, "set": {"name": "x", "slots": [{"key": "k", "title": "Mine", **slot}]}})
    assert reading.goals() == []


def test_two_slots_of_one_key_are_refused(book):
    with pytest.raises(Refused, match="names a key twice"):
        book.act("set.add", {"goal": SET, "set": {"slots": [SLOTS[0], SLOTS[0]]}})


def test_a_want_for_a_slot_is_filled_by_the_purchase_and_so_is_the_slot(half_cents, anna):
    half_cents.act("want.add", {"want": WANT, "set": {"type": DRAPED, "types": [DRAPED], "goal": SET, "slot": "d", "grade_from": "F-12"}})
    card = half_cents.card("want", WANT)
    assert (card["goal"], card["slot"], card["types"]) == (SET, "d", [DRAPED])
    coin, _ = anna.buy(set=draped(), want=WANT)
    assert half_cents.card("want", WANT) is None and in_slot(half_cents, "d")["id"] == coin


def test_a_want_of_before_says_nothing_of_sets(book):
    book.act("want.add", {"want": WANT, "set": {"title": "A want"}})
    assert not {"goal", "slot", "types"} & set(book.card("want", WANT))


def test_two_people_who_rename_a_set_are_both_kept(half_cents, anna):
    half_cents.act("set.edit", {"goal": SET, "base": {"name": "Half cents"}, "set": {"name": "By type"}})
    verdict = anna.say("set.edit", goal=SET, base={"name": "Half cents"}, set={"name": "Halves"})
    assert verdict.verdict == "contested" and of(half_cents)["name"] == "By type"
    (look,) = reading.looks()
    half_cents.act("decide", {"look": look["id"], "choice": "take"})
    assert of(half_cents)["name"] == "Halves"


def test_a_book_of_before_sets_is_brought_up_to_date(half_cents, anna, tmp_path):
    """Put back to the schema before; opening it makes the tables, and the journal fills them."""
    anna.buy(set=draped())
    held = of(half_cents)
    with write():
        Goal._meta.database.drop_tables([Goal])
        journal.set_meta("schema", str(migrations.VERSION - 1))
    again = Book.open(half_cents.folder)
    with again.connected():
        assert of(again) == held and refold.verify() == []
