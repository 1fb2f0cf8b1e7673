"""The dealer's view of a period: from the accounts' journal, held against the coins that left."""

from datetime import date, timedelta

from ...money.dealer import Year
from ...reports import dealer as view
from ...reports.model import Report

STOCK = "coins:stock"


def dealer(book, account, asked) -> Report:
    """Of stock alone; coins held as an investment or for oneself are no part of it."""
    books, first, last = account.books, asked.first, asked.last
    ledger = books.ledger
    opening = 0 if first == date.min else ledger.balances(last=first - timedelta(days=1)).get(STOCK, 0)
    closing, moved = ledger.balances(last=last).get(STOCK, 0), ledger.balances(first, last)
    come = withdrawn = 0
    for entry in ledger.entries():
        if first <= entry.date <= last:
            sums = dict(entry.postings)
            stock = sums.get(STOCK, 0)
            if entry.about == "withdrawal" and stock < 0:
                withdrawn -= stock
            else:  # what left at its cost came in before
                come += stock + sums.get("cost of sales", 0)
    sold, lost = _left(books, first, last)
    year = Year(opening, come, withdrawn, closing, -moved.get("sales", 0), moved.get("sales returns", 0), sold, lost)
    return view.report(year, first, last, _expenses(moved))


def _left(books, first: date, last: date) -> tuple[int, int]:
    """Cost of the stock sold and of the stock lost in a period, coin by coin, less what came back."""
    sums = {True: 0, False: 0}
    for each in books.disposals:
        if each.held == "stock":
            cost = each.part.cents if each.basis is None else each.basis
            times = (first <= each.disposed <= last) - (each.undone is not None and first <= each.undone <= last)
            sums[each.why in ("sold", "traded")] += times * cost
    return sums[True], sums[False]


def _expenses(moved: dict[str, int]) -> list[tuple[str, int]]:
    """Expenses, and other income below zero."""
    return [(f"{what.capitalize()}: {name}", cents) for account, cents in moved.items()
            for what, _, name in [account.partition(":")] if what in ("expense", "income")]  # fmt: skip
