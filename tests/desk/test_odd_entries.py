"""Entries that no phone of ours makes: the desk's pages stand all the same."""

import pytest

from exergue.labels.ids import new_id

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


DAY = {"date": "2026-03-16"}
COST = [{"what": "fee", "cents": 5}]


def test_every_fact_of_money_has_a_sentence_and_breaks_no_page(ada, buy, phone):
    one, two, three, four = buy(), buy(), buy(), buy()
    come, theirs, gift = new_id(), new_id(), new_id()
    said = {
        "acquired": ({"how": "gift", "coins": [{"coin": gift, "set": {"title": "x"}, "basis": 5}], "from": "an aunt"}, "Received as a gift: 1 coin"),
        "cost": ({"coins": [{"coin": one}], "costs": COST}, "A later cost of $0.05 for 1 coin"),
        "ticket": ({"sold": [{"coin": one}, {"coin": two}], "price": 12_345, "to": "A. Marsh"}, "Sold 2 coins to A. Marsh"),
        "trade": ({"out": [{"coin": three, "value": 5}], "in": [{"coin": come, "set": {}, "value": 4}], "boot": 1}, "Traded 1 coin for 1 coin"),
        "memo": ({"way": "in", "kind": "memo", "coins": [{"coin": theirs, "set": {"title": "x"}, "net": 5}], "with": "R. Holt",
                  "due": "2026-04-16"}, "Took 1 coin on memo from R. Holt"),
        "away": ({"coins": [four], "why": "grading"}, "Sent 1 coin away for grading"),
        "back": ({"coins": [four]}, "Back: 1 coin"),
        "withdrawn": ({"coins": [four], "to": "personal"}, "From now on personal property: 1 coin"),
        "lost": ({"coin": four, "how": "stolen", "reimbursed": 5}, "Stolen"),
        "money": ({"what": "transfer", "cents": 5, "how": "cash", "to_how": "transfer"}, "Moved $0.05"),
    }  # fmt: skip
    for kind, (body, _) in said.items():
        phone(kind, body | DAY)
    phone("setting", {"key": "spot", "value": {"silver": {"cents": 3000, "date": "2026-03-16"}}})
    journal = ada.get("/desk/journal").text
    for kind, (_, words) in said.items():
        assert words in journal, kind
    assert "An entry of the kind" not in journal and "refused" not in journal.lower()
    for page in (*PAGES, *(f"/desk/coins/{coin}" for coin in (one, two, three, four, come, theirs, gift)), "/desk/stock?state=all"):
        assert ada.get(page).status_code == 200, page


def test_a_coin_of_unknown_cost_and_one_with_a_later_cost_are_told_as_such(ada, buy, phone):
    coin, old = buy(), new_id()
    phone("acquired", {"how": "opening", "coins": [{"coin": old, "set": {"title": "x"}}]} | DAY)
    phone("sale", {"coin": coin, "price": 9_999} | DAY)
    phone("cost", {"coins": [{"coin": coin}], "costs": COST} | DAY)
    assert "What it cost is not known" in ada.get(f"/desk/coins/{old}").text
    page = ada.get(f"/desk/coins/{coin}").text
    assert "after the sale" in page and "Its share of a purchase" not in page
