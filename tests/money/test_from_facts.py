"""Events are read from facts as the journal holds them."""

from datetime import date

import pytest

from exergue.money import events, from_facts
from exergue.money.books import Books
from exergue.money.events import Foreign, In, Lent, Out
from exergue.money.ledger import check


def read(fact, **body):
    return from_facts.event({"id": "f", "kind": fact, "body": body}, 7)


HEAD = {"id": "f", "date": date(2026, 3, 14), "order": 7}
DAY = {"date": "2026-03-14"}
PRICE = [{"what": "price", "cents": 5}]


@pytest.mark.parametrize(("kind", "body", "expected"), [
    ("purchase",
     {"bought": [{"coin": "A", "set": {"held": "personal", "pieces": 4}, "weight": 2}, {"coin": "B", "set": {"held": ""}, "pieces": 3},
                 {"coin": "C", "set": {}}],
      "costs": PRICE, "payment": "cash", "foreign": {"currency": "EUR", "cents": 4, "rate": "1.2"}, "split": "face"},
     events.Purchase(**HEAD, bought=(In("A", 4, 2, held="personal"), In("B", 3), In("C")), costs=tuple(PRICE), payment="cash",
                     foreign=Foreign("EUR", 4, "1.2"))),
    ("acquired",
     {"how": "gift", "coins": [{"coin": "A", "set": {}, "value": 3, "basis": 2, "since": "2001-02-03", "gift_tax": 1}]},
     events.Acquired(**HEAD, how="gift", coins=(In("A", value=3, basis=2, since=date(2001, 2, 3), gift_tax=1),))),
    ("cost", {"coins": [{"coin": "A", "weight": 2}], "costs": PRICE, "payments": [{"how": "card", "cents": 5}]},
     events.Cost(**HEAD, coins=(Out("A", weight=2),), costs=tuple(PRICE), payments=({"how": "card", "cents": 5},))),
    ("sale", {"coin": "A", "price": 9, "costs": PRICE, "to": "Ada"},
     events.Ticket(**HEAD, sold=(Out("A"),), price=9, costs=tuple(PRICE))),
    ("ticket", {"sold": [{"coin": "A", "pieces": 2, "price": 9, "of": "p"}], "price": 9, "discount": 1,
                "tax": {"place": "Ohio", "rate": "7.25", "cents": 1}},
     events.Ticket(**HEAD, sold=(Out("A", 2, price=9, of="p"),), price=9, tax=1, place="Ohio")),
    ("return", {"of": "s", "coins": ["A"], "refund": 8, "tax": 1},
     events.Return(**HEAD, of="s", coins=("A",), refund=8, tax=1)),
    ("trade", {"out": [{"coin": "A", "value": 9}], "in": [{"coin": "B", "set": {}, "value": 8}], "boot": 1},
     events.Trade(**HEAD, out=(Out("A", value=9),), into=(In("B", value=8),), boot=1)),
    ("memo", {"way": "in", "kind": "memo", "coins": [{"coin": "A", "set": {}, "net": 3}], "with": "Ada", "due": "2026-05-01"},
     events.Memo(**HEAD, way="in", kind="memo", coins=(Lent("A", 3),), with_="Ada", due=date(2026, 5, 1))),
    ("away", {"coins": ["A"], "why": "grading", "with": "Ada"}, events.Away(**HEAD, coins=("A",), why="grading", with_="Ada")),
    ("back", {"coins": ["A"]}, events.Back(**HEAD, coins=("A",))),
    ("lost", {"coin": "A", "pieces": 2, "how": "stolen", "reimbursed": 4},
     events.Lost(**HEAD, coin="A", pieces=2, how="stolen", reimbursed=4)),
    ("withdrawn", {"coins": ["A"], "to": "personal"}, events.Withdrawn(**HEAD, coins=("A",), to="personal")),
    ("money", {"what": "transfer", "cents": 4, "how": "cash", "to_how": "transfer", "about": "To the bank"},
     events.Money(**HEAD, what="transfer", cents=4, how="cash", to_how="transfer", about="To the bank")),
    ("void", {"of": "s"}, events.Void(**HEAD, of="s")),
])  # fmt: skip
def test_each_kind_of_fact_is_an_event(kind, body, expected):
    assert read(kind, **DAY, **body) == expected


def test_facts_that_move_neither_coins_nor_money_are_no_events():
    assert read("note", coin="A", text="Nice.") is None


def test_a_coin_that_was_only_added_is_there_at_an_unknown_cost():
    books = Books.of([read("coin.add", coin="A", set={"held": "investment"})])
    assert [(each.coin, each.cost, each.held) for each in books.stock()] == [("A", None, "investment")]
    assert check(books).unknown == [("A", 1)]
