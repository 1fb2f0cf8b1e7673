"""Entries that no phone of ours makes: the desk's pages stand all the same."""

import pytest

HALF = "\ud83e"  # half of a UTF-16 pair
PAGES = ("/desk/", "/desk/journal", "/desk/stock", "/desk/looks", "/desk/settings", "/desk/labels", "/desk/devices")


@pytest.mark.parametrize("kind, body", [
    ("note", {"text": HALF}), ("note", {"text": "x" * 300_000}), ("coin.edit", {"base": {}, "set": {"title": "x" * 300_000}}),
    ("purchase", {"bought": [{"coin": "x" * 300_000, "set": {}}], "costs": [], "date": "2026-03-14"}),
    (f"note{HALF}", {"text": "x"}), ("sale", {"price": HALF, "date": ["x" * 300_000]}),
])  # fmt: skip
def test_an_entry_that_was_kept_in_part_is_shown_like_any_other(ada, buy, phone, kind, body):
    coin = buy()
    phone(kind, {"coin": coin} | body)
    for page in (*PAGES, f"/desk/coins/{coin}"):
        assert ada.get(page).status_code == 200, page
    assert "refused" in ada.get("/desk/journal").text.lower()


@pytest.mark.parametrize("key, value", [
    ("currency", "gold"), ("currency", 7), ("label_shows", 5), ("cost_code", {"a": 1}), ("label_address", 5),
    ("found_line", ["x"]), ("name", None),
])  # fmt: skip
def test_an_odd_setting_breaks_no_page(ada, buy, phone, key, value):
    coin = buy()
    phone("setting", {"key": key, "value": value})
    for page in (*PAGES, f"/desk/coins/{coin}", f"/c/{coin}"):
        assert ada.get(page).status_code == 200, page
