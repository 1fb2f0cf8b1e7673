"""A trade is a sale for what comes in, more or less the boot.

What goes out realises the fair value of what comes in, with cash received and without cash paid (IRC 1001(b)), each coin by
the value agreed for it; the costs of the trade lessen that. The basis of what comes in is its fair value (IRC 1012, Rev.
Rul. 79-24). Section 1031 has not covered coins since 2018.
"""

from . import cents
from .coming import check_in, receive
from .events import BadEntry, Trade
from .going import check_out, dispose
from .ledger import add
from .lots import Line, Unit
from .paying import settle
from .selling import check_nets, sell_for_other, share_costs
from .shares import total


def trade(books, event: Trade) -> dict[str, int]:
    both = {line.coin for line in event.out} & {line.coin for line in event.into}
    if both:
        raise BadEntry(f"{min(both)} cannot go out and come in by one trade.")
    lines = check_out(books, event.out, consigned=True) if event.out or not event.waiting else []
    check_nets(lines)
    into = check_in(books, event.into)
    unsaid = [line.coin for line in (*event.out, *event.into) if line.value is None]
    if unsaid:
        raise BadEntry(f"Say what {unsaid[0]} counts for in the trade.")
    given, got = sum(line.value for line in event.out) + event.waiting, sum(line.value for line in event.into)
    off = given - got - event.boot
    if off:
        show = [cents.show(amount, books.currency) for amount in (given, got + event.boot, abs(off))]
        sides = f"{show[0]} goes out and {show[1]} comes in, boot included"
        raise BadEntry(f"The trade does not balance: {sides}; {show[2]} is missing.")
    share_costs(event, event.out, lines, [line.value for line in event.out])
    postings: dict[str, int] = {}
    settle(postings, event, event.boot, books.currency, total(event.costs))
    add(postings, "waiting", -event.waiting)
    for said, line in zip(event.out, lines, strict=True):
        line.price = said.value
        if line.consigned is None:
            dispose(books, postings, event, line, said.value, "traded", "sales")
        else:  # what it counts for is taken in for its owner, who is due the net agreed
            sell_for_other(books, postings, event, line)
    for line in into:
        unit = Unit(line.coin, event.id, "traded", event.date, event.date, event.order, line.pieces,
                    (Line("price", line.value, event.id),))  # fmt: skip
        receive(books, postings, line, unit)
    return postings
