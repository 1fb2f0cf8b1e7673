"""The reports of a book: each is made from the accounts and the coins as they stand. One file for reports that read alike."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime

from ...money.books import unswept
from ...reports.model import Report
from ...reports.words import counted
from .. import worth
from ..books import Account, books, contradictions
from . import owned, taxes, year

NOW, YEAR, PERIOD = "now", "year", "period"


class BadPeriod(ValueError):
    """The days asked for cannot be; the message says why in one sentence."""


@dataclass(frozen=True)
class Asked:
    """What a report is made for: the days first … last, today, and estimates {coin: (cents for all pieces, words)}."""

    first: date
    last: date
    today: date
    estimates: Mapping[str, tuple[int, str]]


@dataclass(frozen=True)
class Kind:
    """`span`: as the book stands now, over a year, or over any days. `answers`: what it answers, in one line."""

    title: str
    answers: str
    span: str
    make: Callable[[object, Account, Asked], Report]


KINDS = {
    "stock": Kind("Stock list", "What is owned, where it is and what it cost.", NOW, owned.stock),
    "gains": Kind("Gains of a year", "What was gained or lost on each coin that left, short and long term apart.", YEAR, taxes.gains),
    "dealer": Kind("Dealer's view", "Cost of sales, gross profit and margin; and whether the pieces agree.", PERIOD, year.dealer),
    "sales-tax": Kind("Sales tax by place", "How much sales tax was taken, where and at which rate.", PERIOD, taxes.sales_tax),
    "consignors": Kind("Owed to consignors", "What each owner of coins that we sold is still to get.", PERIOD, owned.consignors),
    "cash": Kind("Cash to report", "Whether cash from one payer went over the limit, and by when it is to be reported.", PERIOD, taxes.cash),
    "insurance": Kind("Insurance schedule", "Every coin with its pictures and a value, for the insurer.", NOW, owned.insurance),
    "estate": Kind("Estate sheet", "What heirs need to know: what each coin is, where it lies, what it cost.", NOW, owned.estate),
}  # fmt: skip


def days(today: date, year: int | None = None, first: date | None = None, last: date | None = None) -> tuple[date, date]:
    """The days of a year, or from `first` to `last`; this year, where nothing is said. Raises BadPeriod."""
    if year is not None and (first or last):
        raise BadPeriod("Ask for a year or for days from and to, not for both.")
    if year is not None and not 1 <= year <= 9999:
        raise BadPeriod(f"{year} is no year; give it in four digits, such as 2026.")
    of = year if year is not None else (last or first or today).year
    first, last = first or date(of, 1, 1), last or date(of, 12, 31)
    if last < first:
        raise BadPeriod(f"The period ends on {last}, before it begins on {first}.")
    return first, last


def report(book, name: str, today: date, first: date, last: date) -> Report:
    """The report `name` of KINDS. Use inside `connected()`. Raises BadPeriod."""
    kind = KINDS[name]
    if kind.span == YEAR and first.year != last.year:
        raise BadPeriod(f"“{kind.title}” is made for one year; ask for days of one year.")
    account = books(book)
    with unswept():  # rows without one cycle
        estimates = worth.of_stock(book.settings(), today) if kind.span == NOW else {}
        made = kind.make(book, account, Asked(first, last, today, estimates))
    notes, moved = [], len(contradictions(account))
    if kind.span == NOW and (age := worth.age(book.settings(), today)) is not None:
        since = f"{datetime.fromtimestamp(age / 1000, UTC):%Y-%m-%d %H:%M} UTC"
        notes.append(f"Estimates are without the sales recorded since {since}, which are being worked in.")
    if account.refused:
        left = counted(len(account.refused), "entry does not fit into the accounts and is", "entries do not fit into the accounts and are")
        notes.append(f"{left} left out here; the desk’s page of reports says which, and why.")
    if moved:
        counts = counted(moved, "entry counts", "entries count")
        notes.append(f"{counts} from another day than the date it was given; the desk’s page of reports says which, and why.")
    return replace(made, notes=[*made.notes, *notes]) if notes else made
