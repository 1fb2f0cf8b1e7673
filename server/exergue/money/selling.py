"""Sales: prices of the lines, what is due, and coins sold for somebody else."""

from dataclasses import dataclass

from . import cents
from .allocate import BadSplit, split
from .events import BadEntry, Ticket
from .going import Leaving, check_out, dispose, found_again, keep
from .ledger import add
from .owing import owe
from .paying import expenses, settle, tax_account
from .shares import settled, split_costs, total, weights_of


@dataclass(slots=True)
class Sale:
    """A sale, kept for its return."""

    event: Ticket
    lines: list[Leaving]
    tax: int  # not yet given back


def ticket(books, event: Ticket) -> dict[str, int]:
    lines = check_out(books, event.sold, consigned=True)
    _price(books, event, lines)
    whole = sum([line.price for line in lines])
    share_costs(event, event.sold, lines, [line.price for line in lines])
    check_nets(lines)
    postings: dict[str, int] = {}
    settle(postings, event, whole + event.tax, books.currency, total(event.costs))
    if event.tax:
        add(postings, tax_account(event.place), -event.tax)
    for line in lines:
        if line.consigned is None:
            dispose(books, postings, event, line, line.price, "sold", "sales")
        else:
            sell_for_other(books, postings, event, line)
    books.sales[event.id] = Sale(event, lines, event.tax)
    return postings


def share_costs(event, said, lines: list[Leaving], prices: list[int]) -> None:
    """Give each line its share of what the deal cost us: as said, or by what each brings."""
    if event.costs and len(lines) == 1:
        lines[0].costs = event.costs
    elif event.costs:
        parts = settled(said, event.costs)
        if parts is None:
            parts = split_costs(event.costs, prices if any(prices) else [line.pieces for line in lines])
        for line, costs in zip(lines, parts, strict=True):
            line.costs = costs


def check_nets(lines: list[Leaving]) -> None:
    for line in lines:
        if line.consigned is not None and line.consigned.net is None:
            raise BadEntry(f"Say what is due to the owner of {line.coin} before it is sold.")


def sell_for_other(books, postings: dict[str, int], event, line: Leaving) -> None:
    """Somebody's coin is sold: its owner is due the net agreed, and the rest is our commission."""
    other = line.consigned
    if line.found:
        found_again(books, postings, event, line.coin, line.found)
    keep(books.others, books.others[line.coin].without(other), line.coin)
    owe(books, postings, event, other.party, "sold", other.net, line.coin)
    add(postings, "income:commission", other.net - line.price)
    expenses(postings, line.costs)


def _price(books, event: Ticket, lines: list[Leaving]) -> None:
    """Give each line its price. Raises BadEntry where prices and total do not agree."""
    prices = [line.price for line in event.sold]
    if event.price is None:
        for i, line in enumerate(event.sold):
            record = books.records.get(line.coin)
            if prices[i] is None and record is not None and record.out is not None:
                prices[i] = record.out.net
        if None in prices:
            raise BadEntry("Say what the coins were sold for.")
    elif len(prices) == 1 and prices[0] is None:
        prices = [event.price]
    elif prices.count(None) == len(prices):
        try:
            weights = weights_of([line.weight for line in event.sold], [line.pieces for line in lines])
            prices = split(event.price, weights)
        except BadSplit as problem:
            raise BadEntry(str(problem)) from None
    elif None in prices:
        raise BadEntry("Give every coin sold a price, or none of them.")
    elif sum(prices) != event.price:
        show, asked = cents.show(sum(prices), books.currency), cents.show(event.price, books.currency)
        raise BadEntry(f"The prices of the coins come to {show}, and the sale to {asked}.")
    for line, price in zip(lines, prices, strict=True):
        line.price = price
