"""Prints what it costs to count: entries of one round as it grows, and reconciling it. `python tests/bench/counting.py [coins]`."""

import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "server"))

from exergue.labels.ids import new_id
from exergue.records import counting, devices
from exergue.records.book import Book
from exergue.records.uuid7 import uuid7

COINS = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
SHOW, ROUND = "01890000-0000-7000-8000-0000000000aa", "01890000-0000-7000-8000-0000000000c1"
ROWS = 3  # labels in an entry


def main() -> None:
    with tempfile.TemporaryDirectory() as temp:
        book = Book.create(Path(temp) / "book")
        with book.connected():
            book.act("show.add", {"show": SHOW, "set": {"name": "Bench", "float": 50_000}})
            coins = [new_id() for _ in range(COINS)]
            for start in range(0, COINS, 500):
                book.act_all([("coin.add", {"coin": coin, "set": {"place": "Case 1"}}) for coin in coins[start : start + 500]])
            begun = time.perf_counter()
            for start in range(0, COINS, 500):
                book.act("pack", {"show": SHOW, "coins": coins[start : start + 500], "box": "Box 1"})
            print(f"packing {COINS:,} coins, 500 an entry: {time.perf_counter() - begun:.1f} s")
            device, _ = devices.pair(devices.new_code("owner"), "Bench")
            n, parts = 0, [coins[start : start + ROWS] for start in range(0, COINS, ROWS)]
            tenth = max(1, len(parts) // 10)
            for part in range(0, len(parts), tenth):
                begun = time.perf_counter()
                for some in parts[part : part + tenth]:
                    n += 1
                    seen = [{"coin": coin, "how": "scan"} for coin in some]
                    body = {"show": SHOW, "count": ROUND, "place": "Box 1", "seen": seen}
                    book.accept(device.id, [{"id": uuid7(n), "n": n, "kind": "count", "when": n, "body": body}])
                many = len(parts[part : part + tenth])
                print(f"{n * ROWS:>7,} labels counted: {(time.perf_counter() - begun) / many * 1000:.2f} ms an entry of {ROWS}")
            begun = time.perf_counter()
            done = counting.reconciled(SHOW, ROUND, "2026-03-14", str)
            print(f"reconciling {done.seen:,} labels: {time.perf_counter() - begun:.2f} s, {len(done.differences)} differences")


main()
