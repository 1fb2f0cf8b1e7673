"""Speed of reports: a stock list of 10,000 rows printed; every report of a book of 10,000 coins and 20,000 deals. Prints figures.

    python tests/bench/reports.py [--rows 10000] [--book DIR [--coins 10000] [--deals 20000]]

DIR: where the big book lies; without it, printing alone.
"""

import argparse
import os
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


def of_book(folder: Path, coins: int, deals: int) -> None:
    """The accounts of a book of so many coins and deals, then each of its reports: its rows and its files."""
    import datetime

    from bench.trading import made

    from exergue.records import books, reporting, worth
    from exergue.records.book import Book

    def seconds(what) -> tuple[str, object]:
        """Seconds by the clock (of the processor), and what was made."""
        start, worked = time.perf_counter(), time.process_time()
        answer = what()
        return f"{time.perf_counter() - start:6.2f} ({time.process_time() - worked:.2f})", answer

    with Book.open(made(folder, coins, deals)).connected() as book:
        took, account = seconds(lambda: books.books(book))
        print(f"accounts of {len(account.events):,} entries {took}, bar {BAR:.0f}; load {os.getloadavg()[0]:.1f}")
        first, last = datetime.date(2026, 1, 1), datetime.date(2026, 12, 31)
        took, market = seconds(lambda: worth.market(book.settings(), last))
        print(f"market of {len(market.sales):,} past sales {took}")
        print(f"{'seconds':<12} {'made':>13} {'CSV':>13} {'PDF':>13}   by the clock (of the processor), bar {BAR:.0f} each")
        for name in reporting.KINDS:
            took, report = seconds(lambda: reporting.report(book, name, last, first, last))
            filed, printed = seconds(lambda: to_csv(report, "USD")), seconds(lambda: write_pdf(report, "USD"))
            rows = sum(len(section.rows) for section in report.sections)
            print(f"{name:<12} {took} {filed[0]} {printed[0]}   {rows:,} rows")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--rows", type=int, default=10_000)
    asked.add_argument("--book", type=Path)
    asked.add_argument("--coins", type=int, default=10_000)
    asked.add_argument("--deals", type=int, default=20_000)
    args = asked.parse_args()
    if args.book:
        of_book(args.book, args.coins, args.deals)
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
