"""Coins come in: purchases, other acquisitions, and costs that come later."""

from collections.abc import Sequence
from dataclasses import replace

from . import cents
from .acquired import unit_of
from .allocate import BadSplit, split
from .events import HELD, Acquired, BadEntry, Cost, Foreign, In, Purchase
from .ledger import add
from .lots import Line, Unit
from .paying import expenses, settle
from .shares import in_book, settled, split_costs, total, weights_of
from .standing import Record


def check_in(books, said: tuple[In, ...]) -> list[In]:
    """The lines with their pieces, if each coin can come in. Changes nothing. Raises BadEntry."""
    lines = [line if line.pieces is not None else line._replace(pieces=_entered_pieces(books, line.coin)) for line in said]
    if not lines:
        raise BadEntry("Say which coins came in.")
    if len(lines) > 1 and len({line.coin for line in lines}) < len(lines):
        raise BadEntry("A coin comes in once in an entry; give its pieces in one line.")
    for line in lines:
        if line.pieces < 1:
            raise BadEntry(f"Say how many pieces of {line.coin} came in, at least 1.")
        if line.held is not None and line.held not in HELD:
            raise BadEntry(f"A coin is held as one of {', '.join(HELD)}, not as “{line.held}”.")
        record = books.records.get(line.coin)
        if line.more and record is None:
            raise BadEntry(f"{line.coin} is no lot that more pieces could be added to.")
        lost = line.coin in books.lost_of_others
        if not lost and (record is None or (entered_only(record) and not line.more)):
            continue
        if lost or record.state == "missing":
            raise BadEntry(f"{line.coin} is booked as missing; book it back before it is bought again.")
        if record.units and not record.lot and not line.more:
            raise BadEntry(f"{line.coin} is here already, and is no lot that more pieces could be added to.")
        if record.units and line.held not in (None, record.held):
            raise BadEntry(f"{line.coin} is held as {record.held}; the pieces of a lot are held one way.")
    return lines


def _entered_pieces(books, coin: str) -> int:
    record = books.records.get(coin)
    return record.units[0].pieces if record is not None and entered_only(record) else 1


def entered_only(record: Record) -> bool:
    """Whether the coin stands in the book without a word on how it came, and nothing left of it: a purchase then tells."""
    units = record.units
    return len(units) == 1 and units[0].how == "entered" and all(each.undone for each in record.gone)


def receive(books, postings: dict[str, int], line: In, unit: Unit) -> None:
    """Put a unit of cost in, after `check_in`, and post what is known of its cost."""
    record = books.records.get(line.coin)
    added = unit.cents
    if record is None:
        record = books.records[line.coin] = Record(line.coin, line.held or books.held, unit.pieces > 1)
    elif entered_only(record) and not line.more:
        later = record.units.pop()  # its later costs stay with it
        unit.lines += later.lines
        record.lot = unit.pieces > 1
        if line.held and line.held != record.held:
            add(postings, f"coins:{record.held}", -later.cents)
            added += later.cents
    elif not record.units:
        record.state, record.lot = "in stock", record.lot or unit.pieces > 1
    record.lot = record.lot or line.more
    if not record.units and line.held:
        record.held = line.held
    record.units.append(unit)
    if added:
        add(postings, f"coins:{record.held}", added)
    other = books.others.pop(line.coin, None)
    if other is not None and other.away:  # bought while it was sent on
        record.state, record.out = other.away, replace(other, net=None, party="")


def all_costs(said: Sequence[dict], foreign: Foreign | None, currency: str) -> list[dict]:
    """The costs to be shared. A foreign price is reckoned in the book's money here, once. Raises BadEntry."""
    costs = list(said)
    if foreign is None:
        return costs
    price = in_book(foreign.cents, foreign.currency, foreign.rate, currency)
    prices = [line for line in costs if line["what"] == "price"]
    if not prices:
        return [{"what": "price", "cents": price}, *costs]
    if price not in (total(prices), total(costs)):
        raise BadEntry(
            f"{cents.show(foreign.cents, foreign.currency)} at {foreign.rate} is {cents.show(price, currency)}, "
            f"and the price is given as {cents.show(total(prices), currency)}."
        )
    return costs


def purchase(books, event: Purchase) -> dict[str, int]:
    bought = check_in(books, event.bought)
    try:
        costs = all_costs(event.costs, event.foreign, books.currency)
        shares = settled(bought, costs)
        if shares is None:
            shares = split_costs(costs, [line.weight for line in bought], [line.pieces for line in bought])
    except (BadSplit, cents.BadAmount) as problem:
        raise BadEntry(str(problem)) from None
    postings: dict[str, int] = {}
    settle(postings, event, -total(costs), books.currency)
    for line, parts in zip(bought, shares, strict=True):
        lines = tuple([Line(each["what"], each["cents"], event.id) for each in parts])
        unit = Unit(line.coin, event.id, "bought", event.date, line.since or event.date, event.order, line.pieces, lines, not costs)
        receive(books, postings, line, unit)
    return postings


def acquired(books, event: Acquired) -> dict[str, int]:
    coins = event.coins
    if event.how == "entered":  # a coin that something told of already needs no such entry
        coins = tuple(line for line in coins if line.coin not in books.records and line.coin not in books.others)
        if not coins:
            return {}
    coins = check_in(books, coins)
    for line in coins:
        if line.coin in books.others:
            owner = books.others[line.coin].party or "somebody"
            raise BadEntry(f"{line.coin} is {owner}’s; if it was bought, enter the purchase.")
    units = [unit_of(event, line) for line in coins]
    postings: dict[str, int] = {}
    settle(postings, event, -sum(line.paid for line in coins), books.currency)
    for line, unit in zip(coins, units, strict=True):
        receive(books, postings, line, unit)
    add(postings, "owner", -sum(postings.values()))
    return postings


def cost(books, event: Cost) -> dict[str, int]:
    """A later cost: over coins by weight, over the units of a lot by the pieces that are there.

    What falls on a coin that is not here, or is somebody's, is an expense: nothing that is owned costs more by it.
    """
    if not event.coins or not event.costs:
        raise BadEntry("Say what the cost is and which coins it is for.")
    records = []
    for line in event.coins:
        record = books.records.get(line.coin)
        if record is None and line.coin not in books.others and line.coin not in books.ever_others:
            raise BadEntry(f"{line.coin} is not in these books, so a cost cannot be added to it; enter it as an expense.")
        records.append(record if record is not None and record.units else None)
    if len({line.coin for line in event.coins}) < len(event.coins):
        raise BadEntry("A coin bears a cost once in an entry.")
    pieces = [sum(unit.pieces for unit in record.units) if record else 1 for record in records]
    try:
        shares = settled(event.coins, event.costs)
        if shares is None:
            shares = split_costs(event.costs, weights_of([line.weight for line in event.coins], pieces))
    except BadSplit as problem:
        raise BadEntry(str(problem)) from None
    postings: dict[str, int] = {}
    settle(postings, event, -total(event.costs), books.currency)
    for record, parts in zip(records, shares, strict=True):
        if record is None:
            expenses(postings, parts)
            continue
        for each in parts:
            over = split(each["cents"], [unit.pieces for unit in record.units])
            for unit, part in zip(record.units, over, strict=True):
                unit.add((Line(each["what"], part, event.id),))
        add(postings, f"coins:{record.held}", total(parts))
    return postings
