"""Entries from a file: taken once, all or none, and a file that is none is told in a sentence."""

import json

import pytest

from exergue.records import devices, journal
from exergue.records.tables import Fact
from exergue.records.verdicts import JournalError
from exergue.sync import entries_file
from tests.records.conftest import Phone


@pytest.fixture
def anna(book):
    return Phone(book, "Anna's phone")


def saved(book, phone, facts, more=()):
    return json.dumps({"book": book.id, "device": phone.device.id, "facts": facts} | dict(more)).encode()


def notes(phone, count):
    return [phone.fact("note", coin=phone.new_id(), text=str(i)) for i in range(count)]


def test_they_are_loaded_once(book, anna):
    facts = notes(anna, 3)
    verdicts, new = entries_file.load(book, saved(book, anna, facts[::-1]))
    assert len(verdicts) == 3 and new == 3
    assert entries_file.load(book, saved(book, anna, facts))[1] == 0


def test_a_file_of_a_whole_season_is_taken(book, anna):
    facts = [anna.fact("of.the.future", coin=anna.new_id()) for _ in range(1_300)]
    assert entries_file.load(book, saved(book, anna, facts))[1] == 1_300
    assert entries_file.known_of([fact["id"] for fact in facts] * 30) == {fact["id"] for fact in facts}


@pytest.mark.parametrize("data", [
    b"", b"[]", b"{}", b"5", b"null", b"\xff", b'{"book":1,"device":2,"facts":[1]}', b'{"facts":[]}', b"[" * 100_000,
    b'{"facts":' + b"[" * 100_000, b'{"facts":{"n":1},"book":"x","device":"y"}', b" " * (entries_file.MAX_BYTES + 1),
])  # fmt: skip
def test_a_file_that_is_none_is_refused_with_a_sentence(book, data):
    with pytest.raises(JournalError) as problem:
        entries_file.load(book, data)
    assert problem.value.code == "bad_file" and problem.value.message.endswith(".")


@pytest.mark.parametrize("change", [
    {"n": "2"}, {"n": None}, {"n": 0}, {"n": 2**40}, {"id": 5}, {"id": "x"}, {"kind": None}, {"when": "now"}, {"body": []},
])  # fmt: skip
def test_an_entry_out_of_shape_is_named_and_nothing_is_taken(book, anna, change):
    facts = notes(anna, 3)
    facts[1] |= change
    with pytest.raises(JournalError, match="Entry 2 of the file"):
        entries_file.load(book, saved(book, anna, facts))
    del facts[1]["kind"]
    with pytest.raises(JournalError, match="Entry 2 of the file"):
        entries_file.load(book, saved(book, anna, facts))
    assert Fact.select().where(Fact.device == anna.device.id).count() == 0


@pytest.mark.parametrize("more", [{"device": "\ud83e"}, {"device": "desk"}, {"book": {}}, {"book": "\ud83e"}])
def test_a_file_of_no_known_phone_or_book_is_refused(book, anna, more):
    with pytest.raises(JournalError):
        entries_file.load(book, saved(book, anna, notes(anna, 1), more))


def test_numbers_are_not_skipped_for_entries_that_are_not_taken(book, anna):
    anna.n = 5
    facts = notes(anna, 3)
    del facts[1]
    with pytest.raises(JournalError) as problem:
        entries_file.load(book, saved(book, anna, facts))
    assert problem.value.code == "number_gap"
    assert devices.get(anna.device.id).next_n == 1 and devices.notices() == []
    assert entries_file.load(book, saved(book, anna, facts[:1]))[1] == 1
    assert [notice.kind for notice in devices.notices()] == ["lost"]


def test_a_number_beyond_all_reason_does_not_use_the_phones_numbers_up(book, anna):
    anna.n = 2**31 - 2
    with pytest.raises(JournalError, match="no phone can have reached"):
        entries_file.load(book, saved(book, anna, notes(anna, 1)))
    assert devices.get(anna.device.id).next_n == 1


def test_an_entry_with_half_a_character_in_a_file_has_its_verdict(book, anna):
    facts = [anna.fact("note", coin=anna.new_id(), text="\ud83e"), *notes(anna, 1)]
    verdicts, new = entries_file.load(book, saved(book, anna, facts))
    assert [v.code for v in verdicts] == ["half_character", "no_such_coin"] and new == 2
    assert journal.meta("seq") == str(book.seq)
