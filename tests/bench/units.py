"""What an entry costs on a lot of many pieces and purchases, and on a coin with many later costs. Prints milliseconds.

    python tests/bench/units.py [--runs 15]

Each entry is made in a trial and taken back, so that all are of the same history; the plain coin beside it says what an
entry costs anyhow.
"""

import argparse
import os
import tempfile
import time
from pathlib import Path

from exergue.labels.ids import new_id
from exergue.records.book import Book

DAY = "2026-05-01"


def bought(coin: str, pieces: int | None, **said) -> tuple[str, dict]:
    return "purchase", {"bought": [{"coin": coin, "set": said} | ({"pieces": pieces} if pieces else {})],
                        "costs": [{"what": "price", "cents": 1_003 * (pieces or 1)}], "date": "2026-01-02"}  # fmt: skip


def graded(coin: str, cents: int) -> tuple[str, dict]:
    return "cost", {"coins": [{"coin": coin}], "costs": [{"what": "grading", "cents": cents}], "date": "2026-02-02"}


def sold(coin: str, pieces: int | None = None) -> tuple[str, dict]:
    return "ticket", {"sold": [{"coin": coin} | ({"pieces": pieces} if pieces else {})], "price": 2_000, "date": DAY}


def lot(book, pieces: int, times: int, costs: int, sales: int) -> str:
    """A lot of so many pieces by `times` purchases, with later costs and tickets of one piece each."""
    coin = new_id()
    acts = [bought(coin, pieces // times, title="A roll")] + [bought(coin, pieces // times) for _ in range(times - 1)]
    acts += [graded(coin, 1_501 + at) for at in range(costs)] + [sold(coin, 1) for _ in range(sales)]
    book.act_all(acts)
    return coin


def milliseconds(book, act, runs: int) -> str:
    wall, own = [], []
    for _ in range(runs):
        began, used = time.perf_counter(), time.process_time()
        with book.tried(*act):
            wall.append(1000 * (time.perf_counter() - began))
            own.append(1000 * (time.process_time() - used))
    middle = [sorted(times)[len(times) // 2] for times in (wall, own)]
    return f"{middle[0]:6.1f} ({middle[1]:.1f})"


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--runs", type=int, default=15)
    runs = asked.parse_args().runs
    with tempfile.TemporaryDirectory() as folder:
        book = Book.create(Path(folder) / "book")
        with book.connected():
            print(f"milliseconds of an entry by the clock (of the processor), median of {runs}; load {os.getloadavg()[0]:.1f}")
            plain = lot(book, 1, 1, 0, 0)
            print(f"{'a coin, sold':<52} {milliseconds(book, sold(plain), runs)}")
            for costs in (1, 20, 100):
                coin = lot(book, 1, 1, costs, 0)
                print(f"{f'a coin with {costs} later costs, sold':<52} {milliseconds(book, sold(coin), runs)}")
                print(f"{'  another later cost of it':<52} {milliseconds(book, graded(coin, 999), runs)}")
            for pieces, times, costs, sales in ((200, 1, 0, 0), (200, 1, 5, 0), (200, 20, 5, 0), (200, 20, 5, 100), (2_000, 20, 5, 0), (2_000, 20, 20, 400)):
                coin = lot(book, pieces, times, costs, sales)
                said = f"a lot of {pieces} by {times}, {costs} later costs, {sales} sales; one more"
                print(f"{said:<52} {milliseconds(book, sold(coin, 1), runs)}")


if __name__ == "__main__":
    main()
