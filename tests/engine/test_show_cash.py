"""Cash in hand and what is left of the budget: a phone without a network says what the desk says after the next sync."""

import json
import random

import pytest
from support import browser as browsers

from exergue.records import show_money
from exergue.records.tables import Show

pytestmark = pytest.mark.browser
SHOW, OTHER = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c11", "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c12"
MONEY = ("Promise.all([import('/web/engine/at-show.js'), engine.list('show')]).then(([floor, shows]) => "
         "floor.money(shows.find((one) => one.id === '%s')))" % SHOW)  # fmt: skip
WAYS = ("cash", "check", "card", "transfer", "other")
DAY = {"date": "2026-03-15"}


def parts(draw, cents):
    """Payments that add up to `cents`, by one or two ways; often none is told."""
    if not cents or draw.random() < 0.2:
        return {}
    first = draw.randint(0, cents)
    ways = draw.sample(WAYS, 2)
    rows = [{"how": how, "cents": part} for how, part in zip(ways, (first, cents - first), strict=True) if part]
    return {"payments": rows}


class Dealer:
    """Seeded entries of every kind that moves money at a show; some are of another show, some are undone."""

    def __init__(self, anna, stocked, seed):
        self.anna, self.draw, self.here = anna, random.Random(seed), list(stocked.ids)
        self.made, self.sold = [], []

    def record(self, kind, body):
        fact = self.anna.run(f"engine.record('{kind}', {json.dumps(body)})")
        self.made.append(fact["id"])
        return fact["id"]

    def show(self):
        return {"show": self.draw.choice((SHOW, SHOW, SHOW, OTHER))}

    def cents(self):
        return self.draw.randint(1, 90_000)

    def sale(self):
        coin = self.here.pop()
        price = self.cents()
        self.sold.append((self.record("sale", {"coin": coin, "price": price, "payment": self.draw.choice(WAYS)} | DAY | self.show()), price))

    def ticket(self):
        coins, price, tax = [self.here.pop(), self.here.pop()], self.cents(), self.draw.randint(0, 900)
        taxed = {"tax": {"cents": tax}} if tax else {}
        self.record("ticket", {"sold": [{"coin": coin} for coin in coins], "price": price} | taxed | parts(self.draw, price + tax) | DAY | self.show())

    def purchase(self):
        cents = self.cents()
        body = {"bought": [{"coin": self.anna.run("engine.newId()"), "set": {"title": "Token"}}], "costs": [{"what": "price", "cents": cents}]}
        self.record("purchase", body | parts(self.draw, cents) | DAY | self.show())

    def trade(self):
        boot, value = self.draw.randint(-5_000, 5_000), 20_000
        body = {"out": [{"coin": self.here.pop(), "value": value + boot}], "in": [{"coin": self.anna.run("engine.newId()"), "set": {"title": "Token"}, "value": value}],
                "boot": boot}  # fmt: skip
        self.record("trade", body | parts(self.draw, abs(boot)) | DAY | self.show())

    def money(self):
        what = self.draw.choice(("expense", "income", "owner_in", "owner_out", "tax_paid", "transfer"))
        to = {"to_how": "card"} if what == "transfer" else {}
        how = "cash" if what == "transfer" else self.draw.choice(WAYS)
        self.record("money", {"what": what, "cents": self.cents(), "how": how} | to | DAY | self.show())

    def returned(self):
        if self.sold:
            of, price = self.sold.pop()
            day = self.draw.choice(("2026-03-15", "2027-01-01"))  # the second is after the show: no part of it
            self.record("return", {"of": of, "refund": price, "date": day} | parts(self.draw, price))
            self.made.remove(of)  # what a return rests on cannot be undone

    def undone(self):
        if self.made:
            of = self.made.pop(self.draw.randrange(len(self.made)))
            self.sold = [one for one in self.sold if one[0] != of]
            self.anna.run(f"engine.record('void', {json.dumps({'of': of})})")

    def opened(self):
        before = self.anna.run(MONEY)
        base = {"float": before["float"], "budget": before["budget"]}
        self.anna.run(f"engine.record('show.edit', {json.dumps({'show': SHOW, 'base': base, 'set': {'float': self.cents(), 'budget': self.cents()}})})")

    def act(self):
        getattr(self, self.draw.choice(("sale", "ticket", "purchase", "trade", "money", "money", "returned", "undone", "opened")))()


def test_offline_figures_are_the_desks_after_the_sync(anna, stocked):
    with stocked.book.connected():
        stocked.book.act_all([("show.add", {"show": SHOW, "set": {"name": "Larkmoor", "starts": "2026-03-14", "ends": "2026-03-16", "float": 30_000}}),
                              ("show.add", {"show": OTHER, "set": {"name": "Another"}})])  # fmt: skip
    anna.kept_offline().sync()
    dealer = Dealer(anna, stocked, 11)
    for _ in range(3):  # from the second round on, undoing and returning reach back to what the desk has taken
        with browsers.offline(anna.context):
            for _ in range(10):
                dealer.act()
            told = anna.run(MONEY)
        anna.sync()
        assert (anna.state()["waiting"], anna.state()["refused"], anna.state()["contested"]) == (0, 0, 0)
        with stocked.book.connected():
            show = Show.get_by_id(SHOW)
            rows = show_money.paid(SHOW, show.ends)
        cash, spent = show.float + show_money.cash(rows), show_money.spent(rows)
        left = None if show.budget is None else show.budget - spent
        assert (told["cash"], told["spent"], told["left"], told["float"]) == (cash, spent, left, show.float)
        assert anna.run(MONEY) == told
