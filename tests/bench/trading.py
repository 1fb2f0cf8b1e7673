"""Deals in a big invented book, the same for the same seed: what a dealer does in a year with coins that were bought before.

Sales of one coin, tickets of several with sales tax or a certificate, trades, returns, later costs, coins sent to grading and
back, expenses; some payers bring much cash. Everything goes through the book's one door.
"""

import hashlib
import random
import shutil
import sys
import time
from datetime import date, timedelta
from pathlib import Path

from bench import big_book

from exergue.labels.ids import new_id
from exergue.records import reading
from exergue.records.book import Book
from exergue.records.knowledge import catalogue

FIRST = date(2026, 1, 1)
CHUNK = 2000  # entries in one transaction
PLACES = (("Larkmoor", "6.5"), ("Tallow Ferry", "8.25"), ("Nine Elms", "4"))
EVIDENCE = 5_000  # past sales that others made


def made(folder: Path, coins: int, deals: int) -> Path:
    """The folder of the big book with `coins` coins, as many purchases, and other deals up to `deals`; made once."""
    bare = big_book.made(folder, coins)
    mark = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()[:8]
    book = bare.with_name(f"{bare.name}-{deals}-{mark}")
    if not book.exists():
        began, half = time.perf_counter(), book.with_suffix(".half")
        shutil.rmtree(half, ignore_errors=True)
        shutil.copytree(bare, half)
        with Book.open(half).connected() as opened:
            trade(opened, deals - coins, random.Random(coins), sorted(catalogue().types.items()))
        half.rename(book)
        print(f"{deals - coins:,} more deals entered in {time.perf_counter() - began:.1f} s", file=sys.stderr)
    return book


def trade(book, deals: int, draw: random.Random, types) -> None:
    """Enter `deals` deals into `book`, which has its coins; and past sales as evidence. Inside `connected()`."""
    book.act_all([seen(draw, types) for _ in range(EVIDENCE)])
    day = Dealing(reading.coin_ids(), draw)
    for start in range(0, deals, CHUNK):
        many = min(CHUNK, deals - start)
        acts = [day.one(FIRST + timedelta(days=(start + at) * 364 // deals)) for at in range(many)]
        verdicts = book.act_all(acts)
        day.taken(acts, verdicts)


def seen(draw: random.Random, types) -> tuple[str, dict]:
    name, about = draw.choice(types)
    said = {"date": f"2025-{draw.randrange(1, 13):02}-{draw.randrange(1, 29):02}", "price": draw.randrange(2_000, 200_000),
            "type": name, "denom": about.denomination, "grade": draw.choice(("VF-20", "EF-40", "AU-50", "MS-62"))}  # fmt: skip
    return "sale.seen", {"set": said}


class Dealing:
    """Draws one deal after another; a coin goes once, and what is returned goes no more."""

    def __init__(self, coins: list[str], draw: random.Random):
        self.draw, self.here, self.off, self.sold, self.waiting = draw, sorted(coins), [], [], []

    def taken(self, acts, verdicts) -> None:
        """What was recorded: sales can be returned from the next transaction on."""
        for (kind, body), verdict in zip(acts, verdicts, strict=True):
            assert verdict.verdict == "applied", (kind, body, verdict)
            if kind == "sale":
                self.sold.append((verdict.fact, body["price"]))

    def coin(self) -> str:
        at = self.draw.randrange(len(self.here))
        self.here[at], self.here[-1] = self.here[-1], self.here[at]
        return self.here.pop()

    def one(self, day: date) -> tuple[str, dict]:
        draw, head = self.draw, {"date": day.isoformat()}
        who, cents = f"Buyer {draw.randrange(400)}", draw.randrange(2_000, 300_000)
        chance = draw.random()
        if chance < 0.4:
            return "sale", head | {"coin": self.coin(), "price": cents, "payment": draw.choice(("cash", "check", "card")), "to": who}
        if chance < 0.6:
            return "ticket", head | {"to": who} | self.ticket(cents)
        if chance < 0.66:
            got = new_id(draw.choice)
            values = {"out": [{"coin": self.coin(), "value": cents}], "in": [{"coin": got, "set": {"title": "Traded in"}, "value": cents - 1_500}]}
            return "trade", head | values | {"boot": 1_500, "with": who, "payments": [{"how": "cash", "cents": 1_500}]}
        if chance < 0.7 and self.sold:
            of, price = self.sold.pop(draw.randrange(len(self.sold)))
            return "return", head | {"of": of, "refund": price}
        if chance < 0.82:
            return "cost", head | {"coins": [{"coin": draw.choice(self.here)}], "costs": [{"what": "grading", "cents": draw.randrange(1_500, 6_000)}]}
        if chance < 0.92:
            return self.grading(head)
        return "money", head | {"what": "expense", "cents": draw.randrange(500, 20_000), "how": draw.choice(("cash", "card")),
                                "about": draw.choice(("table", "travel", "food", "supplies"))}  # fmt: skip

    def ticket(self, cents: int) -> dict:
        coins = [self.coin() for _ in range(self.draw.choice((1, 1, 2, 3)))]
        place, rate = self.draw.choice(PLACES)
        tax = cents * int(float(rate) * 100) // 10_000
        free = {"exempt": {"certificate": "C-17", "reason": "resale"}}
        taxed = {"tax": {"place": place, "rate": rate, "cents": tax}}
        told, total = (free, cents) if self.draw.random() < 0.2 else (taxed, cents + tax)
        return {"sold": [{"coin": coin} for coin in coins], "price": cents, "payments": [{"how": self.draw.choice(("cash", "card")), "cents": total}]} | told

    def grading(self, head: dict) -> tuple[str, dict]:
        if self.off and self.draw.random() < 0.5:
            coin = self.off.pop()
            self.here.append(coin)
            return "back", head | {"coins": [coin]}
        self.off.append(self.coin())
        return "away", head | {"coins": [self.off[-1]], "why": "grading", "with": "A grading firm"}
