"""How long the desk takes for the estimates of a book with many recorded sales, and how large the phone's tables are.

    python tests/bench/worth_tables.py [sales]
"""

import gzip
import json
import random
import sys
import tempfile
import time
from datetime import date, timedelta
from pathlib import Path

from exergue.records import knowledge, worth, worth_tables
from exergue.records.book import Book
from exergue.records.uuid7 import uuid7

GRADES = "G-4 VG-8 F-12 VF-20 VF-30 EF-40 AU-50 MS-62 MS-64".split()


def main(count: int) -> None:
    dice = random.Random(7)
    with tempfile.TemporaryDirectory() as folder:
        book = Book.create(Path(folder) / "book", name="Bench")
        with book.connected():
            types = [t for t in knowledge.catalogue().types.values() if t.years][:150]
            acts = []
            for _ in range(count):
                found = types[min(int(dice.expovariate(1 / 30)), len(types) - 1)]
                issue = dice.choice([one for one in found.issues if not one.proof_only] or found.issues)
                at = dice.randrange(len(GRADES))
                price = int(5000 * 1.5**at * dice.lognormvariate(0, 0.3))
                day = date(2026, 6, 30) - timedelta(days=dice.randrange(3000))
                acts.append(("sale.seen", {"set": {
                    "date": day.isoformat(), "price": price, "denom": found.denomination, "type": found.key, "year": issue.year,
                    "mint": issue.mint, "grade": GRADES[at], "fee_included": True}}))  # fmt: skip
            for start in range(0, count, 1000):
                book.act_all(acts[start:start + 1000])
            settings, today = book.settings(), date(2026, 6, 30)
            for what, work in (
                ("market", lambda: worth.market(settings, today)), ("market, kept", lambda: worth.market(settings, today)),
                ("tables", lambda: worth_tables.text(settings, today)), ("tables, kept", lambda: worth_tables.text(settings, today)),
            ):  # fmt: skip
                begun = time.perf_counter()
                work()
                print(f"{what}: {(time.perf_counter() - begun) * 1000:.0f} ms")
            size(settings, today)
            wants = [("want.add", {"want": uuid7(1_760_000_000_000 + n), "set": {"denom": one.denomination, "type": one.key, "grade_from": "F-12"}})
                     for n, one in enumerate(types)]  # fmt: skip
            book.act_all(wants)
            for what in (f"tables, with {len(wants)} wants", "the same after a change of a want"):
                begun = time.perf_counter()
                worth_tables.text(settings, today)
                print(f"{what}: {(time.perf_counter() - begun) * 1000:.0f} ms")
                book.act("want.edit", {"want": wants[0][1]["want"], "base": {"note": ""}, "set": {"note": "seen"}})
            size(settings, today)


def size(settings, today) -> None:
    """Print how large what a phone gets is."""
    text = worth_tables.text(settings, today)[0]
    said = json.loads(text)["types"]
    issues = sum(len(one["tables"]) for one in said.values())
    print(f"{len(said)} types, {issues} tables: {len(text) / 1000:.0f} kB, packed {len(gzip.compress(text.encode(), 6)) / 1000:.0f} kB,")
    print(f"{len(text) // max(issues, 1)} bytes a table")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000)
