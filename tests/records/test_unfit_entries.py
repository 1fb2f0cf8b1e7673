"""An entry that the journal cannot hold whole is refused by its own verdict, and what can be kept of it is kept."""

import json

import pytest

from exergue.records import fitting, refold
from exergue.records.tables import Fact
from exergue.records.verdicts import Refused

HALF = "\ud83e"  # the first half of a UTF-16 pair: JSON can say it, UTF-8 cannot


def test_half_a_character_is_refused_and_the_next_entry_goes_in(book, anna):
    coin, _ = anna.buy()
    bad = anna.fact("note", coin=coin, text=f"worn {HALF} flat")
    good = anna.fact("note", coin=coin, text="worn flat")
    refused, taken = anna.send(bad, good)
    assert (refused.verdict, refused.code) == ("refused", "half_character") and refused.message.endswith(".")
    assert taken.verdict == "applied"
    kept = Fact.get(Fact.id == bad["id"])
    assert kept.body == {"coin": coin, "text": r"worn \ud83e flat"}
    assert anna.send(bad) == [refused]
    assert refold.verify() == []


@pytest.mark.parametrize("kind, body", [
    (f"no{HALF}te", {}), ("note", {HALF: 1}), ("of.the.future", {"list": [{"a": f"\\{HALF}"}]}),
    ("setting", {"key": "name", "value": HALF}), ("note", {"text": "\udc00\ud800"}),
])  # fmt: skip
def test_half_a_character_anywhere_is_kept_in_a_form_that_text_can_hold(book, anna, kind, body):
    fact = anna.fact(kind, **body)
    assert anna.send(fact)[0].code == "half_character"
    row = Fact.get(Fact.id == fact["id"])
    json.dumps([row.kind, row.body], ensure_ascii=False).encode()
    assert r"\ud8" in row.kind + str(row.body)


def test_a_whole_pair_is_a_character_like_any_other(book, anna):
    coin, _ = anna.buy()
    assert anna.say("note", coin=coin, text=json.loads(r'"\ud83e\ude99"')).verdict == "applied"


def test_an_entry_that_is_too_long_is_refused_and_the_next_goes_in(book, anna):
    coin, _ = anna.buy()
    bad = anna.fact("note", coin=coin, text="x" * 200_001)
    refused, taken = anna.send(bad, anna.fact("note", coin=coin, text="short"))
    assert (refused.verdict, refused.code, taken.verdict) == ("refused", "too_long", "applied")
    kept = Fact.get(Fact.id == bad["id"]).body
    assert kept["coin"] == coin and kept["text"].startswith("xxx") and len(kept["text"]) == fitting.KEPT + 1
    assert anna.send(bad) == [refused]


@pytest.mark.parametrize("body", [
    {"set": {"title": "x" * 300_000}, "coin": 5}, {str(i): i for i in range(100_000)}, {"k" * 300_000: 1},
    {"text": "\ud83e" * 40_000},
])  # fmt: skip
def test_however_long_an_entry_is_its_line_in_the_journal_is_bounded(book, anna, body):
    fact = anna.fact("coin.add", **body)
    assert anna.send(fact)[0].verdict == "refused"
    assert 0 < len(json.dumps(Fact.get(Fact.id == fact["id"]).body)) <= 2 * fitting.MAX_CHARS


def test_at_the_desk_itself_nothing_of_it_is_kept(book):
    facts = Fact.select().count()
    with pytest.raises(Refused, match="half of a character"):
        book.act("setting", {"key": "name", "value": HALF})
    assert Fact.select().count() == facts
