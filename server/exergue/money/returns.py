"""A sale is undone by its return: coins are back at their old basis and holding period.

What is kept of the price (a restocking fee) is income of its own. What the sale had cost us stays spent.
"""

from . import cents
from .events import BadEntry, Return
from .going import Leaving, put_back
from .ledger import add
from .paying import expenses, settle, tax_account
from .shares import total


def returned(books, event: Return) -> dict[str, int]:
    sale = books.sales.get(event.of)
    if sale is None:
        raise BadEntry("Nothing was sold by the entry that this return is of.")
    lines = _lines(books, sale, event)
    price = sum(line.price for line in lines)
    if event.refund > price:
        shown = cents.show(price, books.currency)
        raise BadEntry(f"{cents.show(event.refund, books.currency)} cannot be given back, since the price was {shown}.")
    if event.tax > sale.tax:
        shown = cents.show(sale.tax, books.currency)
        raise BadEntry(f"{cents.show(event.tax, books.currency)} of tax cannot be given back, since {shown} is left of it.")
    postings: dict[str, int] = {}
    costs = total(event.costs)
    settle(postings, event, -(event.refund + event.tax), books.currency, costs)
    expenses(postings, event.costs)
    if event.tax:
        add(postings, tax_account(sale.event.place), event.tax)
    add(postings, "income:restocking", event.refund - price)
    for line in lines:
        _back(books, postings, line, event)
    sale.tax -= event.tax
    return postings


def _lines(books, sale, event: Return) -> list[Leaving]:
    """The lines of the sale that come back. Raises BadEntry."""
    for coin in event.coins:
        lines = [line for line in sale.lines if line.coin == coin]
        if not lines:
            raise BadEntry(f"{coin} was not sold by that sale, so it cannot be returned.")
        if any(line.back for line in lines):
            raise BadEntry(f"{coin} was returned already.")
    lines = [line for line in sale.lines if not line.back and (not event.coins or line.coin in event.coins)]
    if not lines:
        raise BadEntry("All of that sale was returned already.")
    for line in lines:
        record = books.records.get(line.coin)
        elsewhere = line.coin in books.others or line.coin in books.lost_of_others
        if elsewhere or (record is not None and record.units and (line.consigned is not None or not record.lot)):
            raise BadEntry(f"{line.coin} came here again by another entry since it was sold, so it cannot be returned.")
    return lines


def _back(books, postings: dict[str, int], line: Leaving, event: Return) -> None:
    line.back = True
    other = line.consigned
    if other is not None:
        books.others[line.coin] = other
        books.due[other.party] -= other.net
        add(postings, "due to consignors", other.net)
        add(postings, "income:commission", line.price - other.net)
        return
    record = books.records[line.coin]
    put_back(postings, record, line.disposals, event.date)
    if line.disposals[0].held == "stock":
        add(postings, "sales returns", line.price)
    else:  # selling costs had lessened the gain; now they are for nothing
        expenses(postings, line.costs)
