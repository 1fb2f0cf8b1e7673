"""Speed of printed reports: a stock list of 10,000 rows as PDF and as CSV. Prints figures.

    python tests/bench/reports.py [--rows 10000]
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


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--rows", type=int, default=10_000)
    report = stock(asked.parse_args().rows)
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
