"""A round of counting against what should be there."""

from hypothesis import given
from hypothesis import strategies as st

from exergue.shows.expected import IN, OUT, Coin, Entered, Went, tally
from exergue.shows.reconcile import Asked, Scan, reconcile, union

ROUND, SHOW = "01890000-0000-7000-8000-0000000000c1", "01890000-0000-7000-8000-0000000000aa"
ENTRY = Entered("01890000-0000-7000-8000-0000000000f1", 1_000, "Anna's phone")


def clock(ms: int) -> str:
    return f"{ms // 100:02}:{ms % 100:02}"


ASKED = Asked(ROUND, SHOW, "2026-03-14", clock, frozenset({"BLANK"}))


def packed(key, box="Box 1", **more):
    return Coin(key, "packed", ENTRY, box, **more)


def one(coins, scans, asked=ASKED):
    """The only difference."""
    done = reconcile({coin.id: coin for coin in coins}, scans, asked)
    (found,) = done.differences
    return found, done


def names(difference):
    return [action.name for action in difference.actions]


def test_what_is_packed_and_counted_agrees():
    done = reconcile({"A": packed("A")}, [Scan("A", 1600, "Ben's phone", "Box 1")], ASKED)
    assert (done.expected, done.seen, done.missing, done.unexpected, done.differences) == (1, 1, 0, 0, [])


def test_two_phones_that_count_the_same_coin_count_it_once():
    done = reconcile({"A": packed("A")}, [Scan("A", 1600, "Ben's phone"), Scan("A", 1601, "Anna's phone")], ASKED)
    assert done.seen == 1 and done.open == []


def test_a_coin_that_was_not_counted_says_when_it_was_packed_and_can_be_found_missing_or_left_at_home():
    found, done = one([packed("A")], [])
    assert (done.expected, done.seen, done.missing) == (1, 0, 1)
    assert found.story == "Packed into Box 1 at 10:00 on Anna's phone, and not counted."
    assert names(found) == ["unpack", "lost", "sale", "settle"] and found.open
    assert found.actions[1].body == {"coin": "A", "how": "missing", "date": "2026-03-14"}


def test_a_missing_coin_whose_sale_was_undone_says_so():
    found, _ = one([packed("A", undone=Entered("f", 1415, "Ben's phone"))], [])
    assert "A sale of it was undone at 14:15 on Ben's phone" in found.story and found.who == "Ben's phone"


def test_a_coin_sold_on_the_other_phone_before_the_count_is_no_difference_when_nobody_counted_it():
    sold = packed("A", went=Went("sold", "sold", Entered("f", 1410, "Ben's phone")))
    done = reconcile({"A": sold}, [], ASKED)
    assert done.differences == [] and done.rows == [("packed", 1), ("sold", -1)]


def test_a_coin_counted_but_sold_can_be_a_wrong_sale_or_one_that_came_back():
    sold = packed("A", went=Went("sold", "sold", Entered("f", 1410, "Ben's phone")))
    found, done = one([sold], [Scan("A", 1602, "Anna's phone", "Box 1")])
    assert found.story == "Sold at 14:10 on Ben's phone, but counted in Box 1 at 16:02 on Anna's phone."
    assert names(found) == ["void", "return", "settle"] and found.actions[0].body == {"of": "f"}
    assert (done.expected, done.unexpected, done.seen) == (0, 1, 1)


def test_a_coin_sold_after_it_was_counted_explains_itself():
    sold = packed("A", went=Went("sold", "sold", Entered("f", 1700, "Ben's phone")))
    found, done = one([sold], [Scan("A", 1602, "Anna's phone")])
    assert "before it went" in found.story and not found.open and done.unexpected == 1


def test_a_coin_bought_after_the_count_explains_itself():
    bought = Coin("B", "bought", Entered("f", 1730, "Ben's phone"))
    done = reconcile({"A": packed("A"), "B": bought}, [Scan("A", 1600, "Anna's phone")], ASKED)
    assert [one.open for one in done.differences] == [False] and "after the count" in done.differences[0].story


def test_a_sale_of_several_coins_is_undone_with_all_that_it_names():
    sold = packed("A", went=Went("sold", "sold", Entered("f", 1410, "Ben's phone", others=True)))
    found, _ = one([sold], [Scan("A", 1602, "Anna's phone")])
    assert "all that it names" in found.actions[0].says


def test_a_coin_recorded_as_missing_or_away_and_counted_is_back():
    for how, state in (("lost", "missing"), ("sent", "at grading")):
        found, _ = one([packed("A", went=Went(how, state, ENTRY))], [Scan("A", 1602, "Anna's phone")])
        assert names(found) == ["back", "settle"] and found.story.startswith(state.capitalize())


def test_a_coin_that_nobody_packed_can_be_packed_where_it_lies():
    found, _ = one([Coin("A", box="Case 3")], [Scan("A", 1602, "Anna's phone", "Box 2")])
    assert "in Case 3, and never packed" in found.story
    assert found.actions[0].body == {"show": SHOW, "coins": ["A"], "box": "Box 2"}


def test_an_unknown_label_is_told_from_a_printed_one_whose_coin_nobody_entered():
    found, _ = one([], [Scan("X", 1602, "Anna's phone")])
    assert found.kind == "unknown" and "no coin under this label" in found.story
    found, _ = one([], [Scan("BLANK", 1602, "Anna's phone")])
    assert "nobody entered" in found.story and found.actions[0].kind == "purchase"


def test_a_coin_in_another_box_changes_no_count_and_can_be_moved():
    found, done = one([packed("A")], [Scan("A", 1602, "Anna's phone", "Box 2")])
    assert (found.kind, done.missing, done.unexpected) == ("place", 0, 0)
    assert found.actions[0].body == {"show": SHOW, "coins": ["A"], "box": "Box 2"}
    asked = Asked(ROUND, "", "2026-03-14", clock)
    found, _ = one([Coin("A", "in the book", box="Case 1")], [Scan("A", 1602, "Anna's phone", "Case 2")], asked)
    assert found.actions[0].kind == "coin.edit" and found.actions[0].body["set"] == {"place": "Case 2"}


def test_a_label_counted_in_two_boxes_or_waited_for_may_be_on_two_coins():
    scans = [Scan("A", 1602, "Anna's phone", "Box 1"), Scan("A", 1605, "Ben's phone", "Box 2")]
    found, _ = one([packed("A")], scans)
    assert found.kind == "twice" and "Box 1 at 16:02 on Anna's phone and Box 2 at 16:05 on Ben's phone" in found.story
    found, _ = one([packed("A", label_twice=True)], scans[:1])
    assert found.kind == "twice"


def test_words_settle_a_difference_of_this_round_alone():
    found, _ = one([packed("A")], [])
    settled = Asked(ROUND, SHOW, "2026-03-14", clock, settled={found.key: "Lent to a friend"})
    again, done = one([packed("A")], [], settled)
    assert again.settled == "Lent to a friend" and done.open == []
    other = Asked(ROUND[:-1] + "2", SHOW, "2026-03-14", clock, settled=settled.settled)
    assert one([packed("A")], [], other)[1].open


KEYS = st.sampled_from("ABCDEFGHXY")
WENT = st.none() | st.builds(Went, st.sampled_from(OUT), st.just("sold"), st.builds(Entered, st.just("f"), st.integers(0, 2400), st.just("p")))
COINS = st.lists(st.builds(Coin, st.sampled_from("ABCDEFGH"), st.sampled_from(["", *IN]), st.none() | st.just(ENTRY),
                           st.sampled_from(["", "Box 1"]), WENT, st.none() | st.just(ENTRY), st.booleans()), max_size=8)  # fmt: skip
SCANS = st.lists(st.builds(Scan, KEYS, st.integers(0, 2400), st.sampled_from(["p", "q"]), st.sampled_from(["", "Box 1", "Box 2"])), max_size=20)


@given(COINS, SCANS)
def test_expected_and_unexpected_less_missing_is_what_was_seen(coins, scans):
    known = {coin.id: coin for coin in coins}
    done = reconcile(known, scans, ASKED)
    assert done.expected + done.unexpected - done.missing == done.seen == len({scan.coin for scan in scans})
    assert sum(many for _, many in tally(known.values())) == done.expected
    counted = [one for one in done.differences if one.kind not in ("place", "twice")]
    assert len(counted) == done.missing + done.unexpected
    assert len({one.key for one in done.differences}) == len(done.differences)
    assert all(len(one.key) <= 80 and one.story.endswith(".") and one.actions for one in done.differences)


@given(SCANS, st.randoms())
def test_the_order_in_which_phones_sync_changes_nothing(scans, random):
    other = random.sample(scans, len(scans))
    assert union(scans) == union(other) or {key: len(several) for key, several in union(scans).items()} == {
        key: len(several) for key, several in union(other).items()}  # fmt: skip
    assert reconcile({}, scans, ASKED).seen == reconcile({}, other, ASKED).seen
