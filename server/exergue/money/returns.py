"""A sale is undone by its return: coins are back at their old basis and holding period.

What is kept of the price (a restocking fee) is income of its own. What the sale had cost us stays spent.
"""

from . import cents
from .events import BadEntry, Return
from .going import Leaving, cut, put_back
from .ledger import add
from .lots import share
from .owing import owe
from .paying import expenses, settle, tax_account
from .shares import total


def returned(books, event: Return) -> dict[str, int]:
    sale = books.sales.get(event.of)
    if sale is None:
        raise BadEntry("Nothing was sold by the entry that this return is of.")
    lines = _lines(books, sale, event)
    some = _some(lines, event)
    price = share(lines[0].price, lines[0].pieces, some) if some else sum(line.price for line in lines)
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
    if some:
        lines = [_cut(books, sale, lines[0], some)]
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
        if all(line.back for line in lines):
            raise BadEntry(f"{coin} was returned already.")
    lines = [line for line in sale.lines if not line.back and (not event.coins or line.coin in event.coins)]
    if not lines:
        raise BadEntry("All of that sale was returned already.")
    for line in lines:
        record = books.records.get(line.coin)
        there = books.others.get(line.coin) or books.lost_of_others.get(line.coin)
        elsewhere = there is not None and (line.consigned is None or there.fact != line.consigned.fact)
        if elsewhere or (record is not None and record.units and (line.consigned is not None or not record.lot)):
            raise BadEntry(f"{line.coin} came here again by another entry since it was sold, so it cannot be returned.")
    return lines


def _some(lines: list[Leaving], event: Return) -> int | None:
    """How many pieces of the one line come back; None: all of it. Raises BadEntry."""
    if event.pieces is None:
        return None
    if len(lines) > 1 or len(event.coins) != 1:
        raise BadEntry("Name the one coin of which some pieces come back.")
    if not 1 <= event.pieces <= lines[0].pieces:
        raise BadEntry(f"{event.pieces} pieces of {lines[0].coin} cannot come back, since {lines[0].pieces} are out by that sale.")
    return None if event.pieces == lines[0].pieces else event.pieces


def _cut(books, sale, line: Leaving, pieces: int) -> Leaving:
    """The first so many pieces of a line that was sold, as a line of their own; the amounts are shared to the cent."""
    part = Leaving(line.coin, pieces, (), price=share(line.price, line.pieces, pieces))
    part.costs = [each | {"cents": share(each["cents"], line.pieces, pieces)} for each in line.costs]
    line.costs = [each | {"cents": each["cents"] - one["cents"]} for each, one in zip(line.costs, part.costs, strict=True)]
    if line.consigned is not None:
        part.consigned = line.consigned.some(pieces)
        line.consigned = line.consigned.without(part.consigned)
    else:
        record, kept = books.records[line.coin], []
        for each in line.disposals:
            count = min(each.pieces, pieces - sum(one.pieces for one in part.disposals))
            if count:
                first = cut(books, record, each, count)
                part.disposals += (first,)
                kept += [] if first is each else [each]
            else:
                kept.append(each)
        line.disposals = tuple(kept)
    line.pieces, line.price = line.pieces - pieces, line.price - part.price
    sale.lines.append(part)
    return part


def _back(books, postings: dict[str, int], line: Leaving, event: Return) -> None:
    line.back = True
    other = line.consigned
    if other is not None:
        there = books.others.get(line.coin)
        books.others[line.coin] = there.without(other, 1) if there else other
        owe(books, postings, event, other.party, "returned", -other.net, line.coin)
        add(postings, "income:commission", line.price - other.net)
        return
    record = books.records[line.coin]
    put_back(postings, record, line.disposals, event.date)
    if line.disposals[0].held == "stock":
        add(postings, "sales returns", line.price)
    else:  # selling costs had lessened the gain; now they are for nothing
        expenses(postings, line.costs)
