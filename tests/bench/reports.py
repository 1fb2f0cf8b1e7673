"""Speed of reports: a stock list of 10,000 rows printed; every report of a book of 10,000 coins and 10,000 sales made. Prints figures.

    python tests/bench/reports.py [--rows 10000] [--book DIR]   (DIR: where the big book lies; without it, printing alone)
"""

import argparse
import sys
import time
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # this file is called reports, too

from reports.samples import stock

from exergue.reports.csv_file import to_csv
from exergue.reports.pdf import write_pdf

BAR = 2.0  # seconds


def timed(print_it, times: int = 3) -> tuple[list[float], float, int]:
    """Seconds of each print, seconds of the processor for one, and how much the last one made."""
    seconds, worked = [], time.process_time()
    for _ in range(times):
        start = time.perf_counter()
        made = print_it()
        seconds.append(time.perf_counter() - start)
    return seconds, (time.process_time() - worked) / times, len(made)


def of_book(folder: Path) -> None:
    """The accounts of a big book, then each of its reports."""
    import datetime

    from bench.big_book import made

    from exergue.records import books, reading, reporting
    from exergue.records.book import Book

    with Book.open(made(folder, 10_000)).connected() as book:
        if not reading.sales():
            keys = reading.coin_ids()
            for start in range(0, len(keys), 2_000):
                book.act_all([("sale", {"coin": key, "price": 9_900 + at, "payment": "cash", "to": f"Buyer {at % 400}", "date": "2026-05-02"})
                              for at, key in enumerate(keys[start : start + 2_000])])  # fmt: skip
        start = time.perf_counter()
        account = books.books(book)
        print(f"accounts of {len(account.events):,} entries {time.perf_counter() - start:5.2f} s")
        first, last = datetime.date(2026, 1, 1), datetime.date(2026, 12, 31)
        for name in reporting.KINDS:
            start = time.perf_counter()
            reporting.report(book, name, last, first, last)
            print(f"{name:<12} {time.perf_counter() - start:5.2f} s  (bar {BAR:.0f} s)")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--rows", type=int, default=10_000)
    asked.add_argument("--book", type=Path)
    args = asked.parse_args()
    if args.book:
        of_book(args.book)
    report = stock(args.rows)
    for name, print_it in (
        ("PDF, Letter", lambda: write_pdf(report, "USD", "letter")),
        ("PDF, A4", lambda: write_pdf(report, "USD", "a4")),
        ("CSV", lambda: to_csv(report, "USD")),
    ):
        seconds, worked, size = timed(print_it)
        first, best = seconds[0], min(seconds)
        print(f"{name:<12} first {first:5.2f} s  best {best:5.2f} s  processor {worked:5.2f} s  (bar {BAR:.0f} s)"
              f"  {size / 1000:6.0f} kB")  # fmt: skip


if __name__ == "__main__":
    main()
