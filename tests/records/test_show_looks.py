"""Closed shows that wait under Needs a look: found as if all were reconciled anew, though only what an entry concerns is."""

import random

import pytest
from support.noting import calls

from exergue.records import counting, floor_cards, reading, show_looks, show_money
from exergue.records.show_close import cash_key
from exergue.records.tables import Show

SHOWS = [f"01890000-0000-7000-8000-0000000000a{n}" for n in range(4)]
ROUNDS = {show: [f"01890000-0000-7000-8000-000000000{n}c{which}" for which in (0, 1)] for n, show in enumerate(SHOWS)}
NONE = "01890000-0000-7000-8000-000000000bad"  # an entry that there is not
DAYS = ("2026-03-14", "2026-03-15", "2026-03-20", "2026-05-01")


def waiting(book):
    return show_looks.waiting(book, "2026-06-01", str)


def all_anew():
    """Every closed show reconciled, with nothing kept."""
    found = []
    for show in sorted(Show.select(), key=lambda show: (show.starts, show.id)):
        if not floor_cards.closed(show.id):
            continue
        rounds, drawer = counting.rounds(show.id), show_money.drawer(show.id)
        coins = len(counting.reconciled(show.id, rounds[-1]["id"], "2026-06-01", str).open) if rounds else 0
        due = (show.float or 0) + show_money.cash(show_money.paid(show.id, show.ends or show.starts))
        cash = bool(drawer) and drawer["cents"] != due and cash_key(show.id) not in counting.settled()
        found += [{"id": show.id, "name": show.name, "coins": coins, "cash": cash}] if coins or cash else []
    return found


@pytest.fixture
def asked(monkeypatch):
    """The shows that are reconciled from here on, in order."""
    return calls(monkeypatch, counting, "reconciled")


class Days:
    """Whatever people do at some shows, drawn at random."""

    def __init__(self, book, owner, helper, draw):
        self.book, self.phones, self.draw, self.done = book, (owner, helper), draw, []
        self.coins = [owner.buy(cents=1_000)[0] for _ in range(8)]
        for n, show in enumerate(SHOWS):
            owner.say("show.add", show=show, set={"name": f"Show {n}", "starts": f"2026-03-1{4 - n}", "float": 5_000})

    def one(self):
        draw = self.draw
        show, coin, day = draw.choice(SHOWS), draw.choice(self.coins), draw.choice(DAYS)
        paid = {"date": day, "show": draw.choice((show, None)) or show, "payment": draw.choice(("cash", "check"))}
        what = draw.choice(DOINGS)
        if what == "purchase":
            new = draw.random() < 0.7
            label = self.phones[0].new_id() if new else coin  # a label that is used: the entry waits
            self.coins += [label] if new else []
            return what, {"bought": [{"coin": label, "set": {"title": "bought"}}], "costs": [{"what": "price", "cents": 900}], **paid}
        if what == "sale":
            return what, {"coin": coin, "price": draw.randrange(100, 3_000), **paid}
        if what == "trade":
            got = self.phones[0].new_id()
            self.coins.append(got)
            return what, {"out": [{"coin": coin, "value": 500}], "in": [{"coin": got, "set": {"title": "came"}, "value": 500}], "boot": 0,
                          "date": day, "show": show}  # fmt: skip
        if what == "return":
            sold = [(fact, body) for fact, kind, body in self.done if kind == "sale"]
            of = draw.choice(sold)[0] if sold else NONE
            return what, {"of": of, "refund": 100, "payments": [{"how": "cash", "cents": 100}], "date": day}
        if what == "void":
            return what, {"of": draw.choice(self.done)[0] if self.done else NONE}
        if what == "settle":
            open_ones = [one for key in SHOWS for held in counting.rounds(key)[-1:]
                         for one in counting.reconciled(key, held["id"], day, str).differences]  # fmt: skip
            keys = [one.key for one in open_ones] + [cash_key(show)]
            return what, {"key": draw.choice(keys), "note": "said"} | draw.choice(({}, {"show": show}))
        if what == "count":
            seen = draw.sample(self.coins, 3) + ([self.phones[0].new_id()] if draw.random() < 0.3 else [])
            return what, {"count": draw.choice(ROUNDS[show]), "show": show, "place": draw.choice(("", "Box 1", "Box 2")),
                          "seen": [{"coin": key} for key in seen]}  # fmt: skip
        return what, {
            "pack": {"show": show, "coins": draw.sample(self.coins, 2), "box": draw.choice(("Box 1", "Box 2")), "undo": draw.random() < 0.3},
            "drawer": {"show": show, "date": day, "pieces": [{"cents": 100, "number": draw.choice((49, 50, 60))}]},
            "show.close": {"show": show, "date": day}, "show.open": {"show": show, "date": day},
            "lost": {"coin": coin, "how": "missing", "date": day}, "away": {"coins": [coin], "why": "grading", "date": day},
            "back": {"coins": [coin], "date": day}, "coin.edit": {"coin": coin, "base": {"place": "Case 1"}, "set": {"place": draw.choice(("Box 1", "Case 1"))}},
            "money": {"what": "expense", "cents": 100, "how": "cash", "date": day, "show": show},
            "show.edit": {"show": show, "base": {"float": 5_000}, "set": {"float": draw.choice((5_000, 6_000))}},
        }[what]  # fmt: skip

    def go(self):
        kind, body = self.one()
        verdict = self.phones[self.draw.random() < 0.3 and kind in ("count", "sale", "pack")].say(kind, **body)
        assert verdict.code not in ("fault", "bad_body"), (kind, verdict)
        if verdict.verdict in ("applied", "merged", "contested"):
            self.done.append((verdict.fact, kind, body))

    def decide(self):
        for look in self.draw.sample(reading.looks(), min(1, len(reading.looks()))):
            choice = self.draw.choice(CHOICES[look["kind"]])
            self.phones[0].say("decide", look=look["id"], choice=choice, **({"coin": self.phones[0].new_id()} if choice == "new_id" else {}))


CHOICES = {"sold_twice": ("first", "second"), "label_used_twice": ("drop", "new_id"), "dates": ("keep",), "edit": ("keep", "take")}


DOINGS = ("purchase", "sale", "sale", "trade", "return", "void", "void", "settle", "settle", "count", "count", "pack", "pack", "drawer", "lost",
          "away", "back", "coin.edit", "money", "show.edit", "show.close", "show.close", "show.open")  # fmt: skip


@pytest.mark.parametrize("number", range(6))
def test_after_any_entry_it_says_what_reconciling_all_anew_would(book, anna, ben, number):
    draw = random.Random(number)
    days = Days(book, anna, ben, draw)
    told = 0
    for turn in range(80):
        days.go()
        if draw.random() < 0.1:
            days.decide()
        if draw.random() < 0.6:  # several entries between two pages, too
            assert waiting(book) == all_anew(), turn
            told += len(waiting(book))
    assert told > 20


@pytest.fixture
def closed(book, anna):
    """Four closed shows, each with a coin that was packed and not counted."""
    coins = []
    for n, show in enumerate(SHOWS):
        anna.say("show.add", show=show, set={"name": f"Show {n}", "starts": f"2026-03-1{n}"})
        coins.append(anna.buy()[0])
        stays = anna.buy()[0]
        anna.say("pack", show=show, coins=[coins[-1], stays])
        anna.say("count", count=ROUNDS[show][0], show=show, seen=[{"coin": stays}])
        anna.say("show.close", show=show, date="2026-03-20")
    assert [one["coins"] for one in waiting(book)] == [1, 1, 1, 1]
    return coins


def test_an_entry_that_concerns_no_closed_show_reconciles_none(book, anna, closed, asked):
    anna.say("show.add", show="01890000-0000-7000-8000-0000000000b1", set={"name": "The next one"})
    for _ in range(5):
        coin, _ = anna.buy()
        anna.say("note", coin=coin, text="looked at")
        anna.sell(coin)
        waiting(book)
    assert asked == []


def test_only_the_show_of_a_late_entry_is_reconciled_again(book, anna, closed, asked):
    anna.say("settle", key=f"{ROUNDS[SHOWS[1]][0]}/missing/{closed[1]}", note="It was at home")
    assert [one["id"] for one in waiting(book)] == [SHOWS[0], SHOWS[2], SHOWS[3]] and asked == [SHOWS[1]]
    late = anna.say("count", count=ROUNDS[SHOWS[2]][0], show=SHOWS[2], seen=[{"coin": closed[2]}])
    assert [one["id"] for one in waiting(book)] == [SHOWS[0], SHOWS[3]] and asked == [SHOWS[1], SHOWS[2]]
    anna.say("void", of=late.fact)
    assert [one["id"] for one in waiting(book)] == [SHOWS[0], SHOWS[2], SHOWS[3]] and asked == [SHOWS[1], SHOWS[2], SHOWS[2]]


def test_a_show_that_is_opened_again_waits_no_more_until_it_is_closed(book, anna, closed, asked):
    anna.say("show.open", show=SHOWS[0], date="2026-03-21")
    assert SHOWS[0] not in [one["id"] for one in waiting(book)] and asked == []
    anna.say("show.close", show=SHOWS[0], date="2026-03-22")
    assert [one["coins"] for one in waiting(book)] == [1, 1, 1, 1] and asked == [SHOWS[0]]


def test_a_refund_for_a_coin_that_only_came_along_changes_the_cash_of_its_show(book, anna, closed, asked):
    along, _ = anna.buy()
    sold = anna.say("sale", coin=along, price=2_000, payment="cash", date="2026-03-10", show=SHOWS[3])
    anna.say("drawer", show=SHOWS[3], date="2026-03-13", pieces=[{"cents": 1_000, "number": 2}])
    assert [one["cash"] for one in waiting(book)] == [False] * 4
    anna.say("return", of=sold.fact, refund=500, payments=[{"how": "cash", "cents": 500}], date="2026-03-12")
    assert [one["cash"] for one in waiting(book)] == [False, False, False, True]
    assert set(asked) == {SHOWS[3]}


def test_another_coin_with_the_label_of_one_that_was_counted_is_a_difference_there(book, anna, closed, asked):
    counted = counting.quick.row("select coin from seen where round = ?", ROUNDS[SHOWS[1]][0])[0]
    _, clash = anna.buy(counted)
    assert clash.code == "label_used_twice"
    assert [one["coins"] for one in waiting(book)] == [1, 2, 1, 1] and asked == [SHOWS[1]]
    anna.say("void", of=clash.fact)
    assert [one["coins"] for one in waiting(book)] == [1, 1, 1, 1]
