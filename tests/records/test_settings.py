"""Every setting has its rule: what stands under a key is what the desk's pages can show."""

import pytest

from exergue.records import refold
from exergue.records.book import Book, BookError
from exergue.records.tables import Fact, Setting

GOOD = [
    ("name", "Alder’s cabinet"), ("currency", "CHF"), ("label_address", "https://coins.example"), ("label_address", ""),
    ("label_address", "http://192.168.1.9:8080/"), ("cost_code", "BLACKHORSE"), ("cost_code", "blackhorse x"),
    ("cost_code", ""), ("found_line", "Please call."), ("label_shows", []), ("label_shows", ["ask", "code"]),
    ("lots", "specific"), ("held", "personal"), ("spot", {"silver": {"cents": 3_012, "date": "2026-03-14"}}),
    ("worth", {"half_life": 730, "margins": {"usual": 20, "silver": "12.5"}}),
]  # fmt: skip
ODD = [5, None, True, [], {}, ["ask"], "two\nlines", "x" * 301, {"a": [1]}]
BAD = [
    ("currency", "usd"), ("currency", "XYZ"), ("currency", ""), ("label_address", "coins.example"),
    ("label_address", "ftp://coins.example"), ("label_address", "https://coins.example/path"),
    ("label_address", "https://[coins"), ("label_address", "https://coins.example:x"), ("label_address", "https://a b"),
    ("label_address", "javascript:alert(1)"), ("cost_code", "BLACK"), ("cost_code", "BLACKHORSEB"),
    ("cost_code", "AABCDEFGHI"), ("label_shows", ["cost"]), ("label_shows", ["ask", "ask"]), ("label_shows", "ask"),
    ("lots", "lifo"), ("held", ""), ("spot", {"silver": 5}), ("spot", {"silver": {"cents": -1, "date": "2026-03-14"}}),
    ("spot", []), ("worth", {"a": {"b": {"c": 1}}}), ("worth", {"half_life": 0.5}), ("worth", "long"),
    ("colour", "red"), ("book", "x"), ("", "x"),
]  # fmt: skip


@pytest.mark.parametrize("key, value", GOOD)
def test_what_fits_its_key_is_taken(book, anna, key, value):
    assert anna.say("setting", key=key, value=value).verdict == "applied"
    assert book.setting(key) == value


@pytest.mark.parametrize("key, value", BAD + [
    (key, value) for key in ("name", "currency", "label_address", "cost_code", "found_line", "label_shows")
    for value in ODD if key != "label_shows" or value not in ([], ["ask"])
])  # fmt: skip
def test_what_does_not_fit_is_refused_with_a_sentence_and_changes_nothing(book, anna, key, value):
    before = book.settings()
    verdict = anna.say("setting", key=key, value=value)
    assert verdict.verdict == "refused" and verdict.message.endswith(".")
    assert book.settings() == before


def test_a_setting_that_was_taken_before_its_rule_counts_as_unset(book, anna):
    """Folding the journal again must keep it; reading it must not break a page."""
    fact = anna.say("setting", key="label_shows", value=["ask"]).fact
    Fact.update(body={"key": "label_shows", "value": {"odd": 1}}).where(Fact.id == fact).execute()
    refold.rebuild()
    assert Setting.get(Setting.key == "label_shows").value == {"odd": 1}
    assert book.setting("label_shows") == [] and refold.verify() == []


@pytest.mark.parametrize("given", [{"currency": "XYZ"}, {"name": "two\nlines"}, {"name": "x" * 121}])
def test_a_book_is_not_half_made_with_a_setting_that_does_not_fit(tmp_path, given):
    with pytest.raises(BookError):
        Book.create(tmp_path / "new", **given)
    assert not (tmp_path / "new").exists()
