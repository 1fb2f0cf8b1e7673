"""Facts in any order and of any dates: cards and accounts say the same of every coin, and a date that contradicts is told."""

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from exergue.labels.ids import new_id
from exergue.money import ledger
from exergue.records import books, proof, reading, refold
from exergue.records.book import Book
from exergue.records.tables import Bought, Fact
from tests.records.conftest import Phone

KINDS = ["purchase", "purchase", "more", "more", "coin.add", "acquired", "cost", "cost", "sale", "ticket", "ticket", "return", "return", "trade",
         "out", "in", "away", "back", "back", "lost", "withdrawn", "void", "decide", "pieces", "lots"]  # fmt: skip


def body(draw, kind, coins, facts):
    """The body of one fact of this kind: about one or two of these coins, on any of a few days; not all of them fit."""
    one = draw.choice(coins)
    some = sorted({one, draw.choice(coins)})
    pieces = {"pieces": draw.randint(1, 7)} if draw.random() < 0.5 else {}
    lot = {"title": "x"} | ({"pieces": draw.randint(2, 9)} if draw.random() < 0.6 else {})
    costs = [{"what": what, "cents": draw.randint(0, 999)} for what in draw.sample(["price", "shipping", "fee"], draw.randint(0, 3))]
    sold = [fact["id"] for fact in facts if fact["kind"] in ("sale", "ticket")] or ["01890000-0000-7000-8000-000000000001"]
    came = [str(row.purchase_id) for row in Bought.select().where(Bought.coin == one).order_by(Bought.purchase)]
    of = {"of": draw.choice(came)} if came and draw.random() < 0.3 else {}
    weight = {"weight": draw.randint(1, 5)} if draw.random() < 0.3 else {}
    said = {
        "purchase": {"bought": [{"coin": each, "set": draw.choice([lot, lot, {}])} | weight for each in some], "costs": costs},
        "more": {"bought": [{"coin": one, "set": {}, "pieces": draw.randint(1, 6)}], "costs": costs},
        "acquired": {"how": draw.choice(["opening", "found", "gift"]), "coins": [{"coin": one, "set": lot, "value": 333}]},
        "cost": {"coins": [{"coin": each} | weight for each in some], "costs": costs},
        "sale": {"coin": one, "price": draw.randint(0, 9_999), "costs": costs},
        "ticket": {"sold": [{"coin": one} | pieces | of] + [{"coin": each} for each in some if each != one],
                   "price": draw.randint(0, 9_999), "costs": costs},
        "return": {"of": draw.choice(sold), "refund": 0} | draw.choice([{}, {"coins": [one]}, {"coins": [one]} | pieces]),
        "trade": {"out": [{"coin": one, "value": 500} | pieces | of], "boot": 0,
                  "in": [{"coin": draw.choice(coins), "value": 500} | draw.choice([{"set": lot}, {"set": {}}, {"set": {}, "pieces": 3}])]},
        "out": {"way": "out", "kind": "memo", "coins": [{"coin": each, "net": 101} for each in some], "with": "A. Marsh"},
        "in": {"way": "in", "kind": "consignment", "coins": [{"coin": one, "net": 1_001} | draw.choice([{"set": lot}, {}])], "with": "R. Holt"},
        "away": {"coins": some, "why": "grading"}, "back": {"coins": some},
        "lost": {"coin": one, "how": "missing", "reimbursed": draw.choice([0, 77])} | pieces | of,
        "withdrawn": {"coins": some, "to": draw.choice(["personal", "stock", "investment"])},
    }  # fmt: skip
    if kind == "coin.add":
        return {"coin": one, "set": lot}
    if kind == "pieces":
        return {"coin": one, "base": {}, "set": {"pieces": draw.randint(1, 9)}}
    return said[kind] | {"date": f"2026-03-{draw.randint(1, 9):02}"}


def play(book, number, steps):
    draw = random.Random(number)
    phone = Phone(book, "Anna's phone")
    coins = [new_id(draw.choice) for _ in range(4)]
    for _ in range(steps):
        kind = draw.choice(KINDS)
        if kind == "void" and phone.made:
            phone.say("void", of=draw.choice(phone.made)["id"])
        elif kind == "lots":
            phone.say("setting", key="lots", value=draw.choice(["fifo", "specific"]))
        elif kind == "decide":
            looks = reading.looks()
            if looks:
                phone.say("decide", look=draw.choice(looks)["id"], choice=draw.choice(["keep", "first", "second", "drop", "new_id"]),
                          coin=draw.choice(coins))  # fmt: skip
        elif kind != "void":
            phone.say({"more": "purchase", "out": "memo", "in": "memo", "pieces": "coin.edit"}.get(kind, kind),
                      **body(draw, kind, coins, phone.made))  # fmt: skip
    return coins


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(number=st.integers(0, 10**9), steps=st.integers(5, 45))
def test_cards_and_accounts_agree_whatever_came_in_whatever_order(tmp_path_factory, number, steps):
    book = Book.create(tmp_path_factory.mktemp("book"))
    with book.connected():
        coins = play(book, number, steps)
        account = books.build(book)
        assert account.refused == []
        assert ledger.check(account.books).faults == [] and proof.differences(account) == []
        assert Fact.select().where(Fact.code == "fault").count() == 0
        told = {look["fact"] for look in reading.looks(open_only=False) if look["kind"] == "dates"}
        assert {each.fact for each in books.contradictions(account)} <= told | _decided()
        gains = {(each.fact, each.coin): [] for each in account.books.disposals}
        for each in account.books.disposals:
            gains[each.fact, each.coin].append(each)
        for coin in coins:
            card = book.card("coin", coin)
            for move in (card or {"own": {}})["own"].get("moves", []):
                rows = gains.get((move["fact"], coin))
                if move["kind"] in ("sale", "ticket", "trade") and rows and not any(each.part.how == "gift" for each in rows):
                    known = None if any(each.gain is None for each in rows) else sum(each.gain for each in rows)
                    assert move["gain"] == known, move
        assert refold.verify() == []


def _decided() -> set[str]:
    """Entries that went in by a decision on their label: the word on their date stands with the decision."""
    return {str(look["offer"].get("purchase")) for look in reading.looks(open_only=False) if look["kind"] == "label_used_twice"}
