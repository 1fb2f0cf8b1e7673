"""Days at a show with several phones, in any order of packing, deals, counts, undoing, closing and opening.

A model apart says where every coin and every cent is; reconciling must say the same, and its arithmetic adds up.
"""

import tempfile
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from exergue.records import counting, refold
from exergue.records.book import Book
from exergue.records.kept import database
from tests.records.conftest import Phone

SHOW = "01890000-0000-7000-8000-0000000000aa"
ROUNDS = [f"01890000-0000-7000-8000-0000000000c{n}" for n in range(2)]
DAY = {"date": "2026-03-15", "show": SHOW}
WHO, WHICH, CENTS = st.integers(0, 2), st.integers(0, 7), st.integers(0, 9_000)
HOW = st.sampled_from(["cash", "check", "card"])


class ShowDays(RuleBasedStateMachine):
    def __init__(self):
        super().__init__()
        self.temp = tempfile.TemporaryDirectory()
        self.book = Book.create(Path(self.temp.name) / "book")
        self.connection = self.book.connected()
        self.connection.__enter__()
        self.phones = [Phone(self.book, f"phone {n}", role) for n, role in enumerate(("owner", "owner", "helper"))]
        self.phones[0].say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days", "float": 10_000})
        self.home = [self.phones[0].buy()[0] for _ in range(8)]
        self.done = []  # [[kind, body, live]] in order, of what was taken
        self.new = []

    def teardown(self):
        assert refold.verify() == []
        self.connection.__exit__(None, None, None)
        if not database.is_closed():
            database.close()
        self.temp.cleanup()

    def say(self, who, kind, **body):
        verdict = self.phones[who].say(kind, **body)
        assert verdict.code != "fault"
        if verdict.verdict in ("applied", "merged"):
            self.done.append([verdict.fact, kind, body, True])
        return verdict

    # --- the model: what a person with a pencil would say ------------------------------------------------

    def live(self, *kinds):
        return [(fact, kind, body) for fact, kind, body, stands in self.done if stands and kind in kinds]

    def gone(self):
        """The coins that are not in the case: read in order, as a person would tick them off."""
        out = set()
        for _, kind, body in self.live("sale", "lost", "away", "back", "return"):
            if kind in ("sale", "lost", "away"):
                out |= set(body.get("coins") or [body["coin"]])
            elif kind == "back":
                out -= set(body["coins"])
            else:
                out -= {body["_coin"]}
        return out

    def due(self):
        there = set()
        for _, _, body in self.live("pack"):
            there = there - set(body["coins"]) if body.get("undo") else there | set(body["coins"])
        there |= {body["bought"][0]["coin"] for _, _, body in self.live("purchase")}
        return there - self.gone()

    def seen(self, round_id):
        return {row["coin"] for _, _, body in self.live("count") if body["count"] == round_id for row in body["seen"]}

    def cash(self):
        sold = {fact: body for fact, _, body in self.live("sale")}
        returned = [body for _, _, body in self.live("return")]
        moved = [body for _, _, body in self.live("money")]
        return 10_000 + sum(
            [body["price"] for body in sold.values() if body["payment"] == "cash"]
            + [-body["costs"][0]["cents"] for _, _, body in self.live("purchase") if body["payment"] == "cash"]
            + [-body["refund"] for body in returned if body["payments"][0]["how"] == "cash"]
            + [-body["cents"] for body in moved if body["how"] == "cash"])  # fmt: skip

    # --- what people do -----------------------------------------------------------------------------------

    def coin(self, which):
        return (self.home + self.new)[which % len(self.home + self.new)]

    @rule(who=WHO, which=WHICH, out=st.booleans(), box=st.sampled_from(["Box 1", "Box 2"]))
    def pack(self, who, which, out, box):
        self.say(who, "pack", show=SHOW, coins=[self.coin(which)], box=box, undo=out)

    @rule(who=WHO, cents=CENTS, how=HOW)
    def buy(self, who, cents, how):
        coin = self.phones[who].new_id()
        self.say(who, "purchase", bought=[{"coin": coin, "set": {}}], costs=[{"what": "price", "cents": cents}], payment=how, **DAY)
        self.new.append(coin)

    @rule(who=WHO, which=WHICH, cents=CENTS, how=HOW)
    def sell(self, who, which, cents, how):
        if self.coin(which) not in self.gone() and self.there(self.coin(which)):
            self.say(who, "sale", coin=self.coin(which), price=cents, payment=how, **DAY)

    def there(self, coin):
        return self.book.card("coin", coin) is not None

    @rule(who=WHO, which=WHICH, how=HOW)
    def give_back(self, who, which, how):
        sales = [(fact, body) for fact, _, body in self.live("sale") if body["coin"] in self.gone()]
        given = {body["of"] for _, _, body in self.live("return")}
        sales = [(fact, body) for fact, body in sales if fact not in given]
        if sales:
            fact, body = sales[which % len(sales)]
            paid = [{"how": how, "cents": body["price"]}]
            verdict = self.phones[who].say("return", of=fact, refund=body["price"], payments=paid, date="2026-03-15")
            if verdict.verdict == "applied":
                self.done.append([verdict.fact, "return", {"of": fact, "refund": body["price"], "payments": paid, "_coin": body["coin"]}, True])

    @rule(who=WHO, which=WHICH, kind=st.sampled_from(["lost", "away", "back"]))
    def move(self, who, which, kind):
        coin = self.coin(which)
        if not self.there(coin) or (kind != "back") == (coin in self.gone()) or self.book.card("coin", coin)["state"] == "sold":
            return
        body = {"lost": {"coin": coin, "how": "missing"}, "away": {"coins": [coin], "why": "grading"}, "back": {"coins": [coin]}}[kind]
        self.say(who, kind, date="2026-03-15", **body)

    @rule(who=st.integers(0, 1), cents=CENTS, how=HOW)
    def spend(self, who, cents, how):
        self.say(who, "money", what="expense", cents=cents, how=how, about="food", **DAY)

    @rule(who=WHO, coins=st.lists(WHICH, min_size=1, max_size=4), which=st.integers(0, 1), place=st.sampled_from(["", "Box 1", "Box 2"]),
          strange=st.booleans())  # fmt: skip
    def count(self, who, coins, which, place, strange):
        seen = sorted({self.coin(one) for one in coins}) + ([self.phones[who].new_id()] if strange else [])
        self.say(who, "count", count=ROUNDS[which], show=SHOW, place=place, seen=[{"coin": one} for one in seen])

    @rule(closed=st.booleans())
    def close(self, closed):
        self.say(0, "show.close" if closed else "show.open", **DAY)

    @rule(which=st.integers(0, 30))
    def undo(self, which):
        live = [line for line in self.done if line[3] and line[1] != "void"]
        if live:
            line = live[which % len(live)]
            verdict = self.phones[0].say("void", of=line[0])
            if verdict.verdict in ("applied", "merged"):
                line[3] = False
                if line[1] == "purchase":  # the record of the coin goes, and what was said of packing it
                    coin = line[2]["bought"][0]["coin"]
                    for other in self.done:
                        if other[1] == "pack":
                            other[2] = other[2] | {"coins": [one for one in other[2]["coins"] if one != coin]}

    # --- what must hold -----------------------------------------------------------------------------------

    @invariant()
    def it_adds_up(self):
        for round_id in ROUNDS:
            done = counting.reconciled(SHOW, round_id, "2026-03-15", str)
            assert done.expected + done.unexpected - done.missing == done.seen
            assert sum(many for _, many in done.rows) == done.expected == len(self.due())
            assert done.seen == len(self.seen(round_id))
            assert done.missing == len(self.due() - self.seen(round_id))
            card = self.book.card("round", round_id)
            assert (card["seen"] if card else 0) == done.seen
        assert self.book.card("show", SHOW)["own"]["cash"] == self.cash()


def test_any_order_of_entries_of_several_phones_adds_up():
    run_state_machine_as_test(ShowDays, settings=settings(max_examples=8, stateful_step_count=25, deadline=None))
