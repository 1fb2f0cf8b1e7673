"""Coins go out: which pieces leave, at what basis, and with what gain; and coins that are lost."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from . import gains, holding
from .allocate import split
from .events import BadEntry, Lost, Out
from .ledger import add
from .lots import Unit, first_in, pick
from .paying import expenses
from .shares import total
from .standing import Disposal, Elsewhere, Record


@dataclass(slots=True)
class Leaving:
    """A line of a sale or a trade: what leaves, and what it brings."""

    coin: str
    pieces: int
    parts: Sequence[tuple[Unit, int]]  # of ours, until they have left
    consigned: Elsewhere | None = None  # somebody's
    price: int = 0
    costs: Sequence[dict] = ()  # its share of what the sale cost us
    disposals: tuple[Disposal, ...] = ()
    back: bool = False  # given back by a return


def check_out(books, lines: Sequence[Out], consigned: bool = False) -> list[Leaving]:
    """What would leave by each line; changes nothing. Raises BadEntry for what is not there."""
    if not lines:
        raise BadEntry("Say which coins went out.")
    if len(lines) > 1:
        meant = {(line.coin, line.of) for line in lines}
        if len(meant) < len(lines) or any((line.coin, None) in meant for line in lines if line.of is not None):
            raise BadEntry("A coin goes out once in an entry; of a lot, each line may name the purchase its pieces are from.")
    return [_leaving(books, line, consigned) for line in lines]


def _leaving(books, line: Out, consigned: bool) -> Leaving:
    record = books.records.get(line.coin)
    if record is not None and record.units:
        parts = pick(line.coin, record.units, line, books.lots)
        return Leaving(line.coin, sum([pieces for _, pieces in parts]), parts)
    other = books.others.get(line.coin)
    if other is not None:
        if consigned and line.pieces in (None, 1):
            return Leaving(line.coin, 1, (), other)
        if consigned:
            raise BadEntry(f"{line.pieces} pieces of {line.coin} cannot leave: it is one coin of {other.party or 'somebody'}’s.")
        raise BadEntry(f"{line.coin} is not ours but {other.party or 'somebody'}’s.")
    if record is None:
        raise BadEntry(f"{line.coin} is not in these books.")
    if record.state == "missing":
        raise BadEntry(f"{line.coin} is booked as missing; book it back first.")
    raise BadEntry(f"{line.coin} is no longer here: it was {record.state}.")


def dispose(books, postings: dict[str, int], event, line: Leaving, gross: int, why: str, revenue: str) -> None:
    """Let a line's pieces leave for `gross` less the line's costs: disposals, and their postings but for the cash.

    Of stock, the gross goes to the account `revenue`, costs are expenses, and the basis is a cost of sales. Of other coins
    the account of gains gets what is left.
    """
    record = books.records[line.coin]
    held = record.held
    net = gross - total(line.costs)
    nets = [net] if len(line.parts) == 1 else split(net, [pieces for _, pieces in line.parts])
    if held == "stock":
        add(postings, revenue, -gross)
        expenses(postings, line.costs)
    left = []
    for (unit, pieces), proceeds in zip(line.parts, nets, strict=True):
        part = unit.split_off(pieces)
        if part is unit:
            record.units.remove(unit)
        disposal = _disposal(event.id, event.date, part, proceeds, held, why)
        left.append(disposal)
        move(postings, disposal, held, 1)
    line.disposals, line.parts = tuple(left), ()
    record.gone += line.disposals
    books.disposals += left
    if not record.units:
        record.state, record.out = {"sold": "sold", "traded": "traded"}.get(why, "missing"), None


def _disposal(fact: str, day: date, part: Unit, proceeds: int, held: str, why: str) -> Disposal:
    found = gains.gain(proceeds, *part.basis())
    acquired, note = part.since, found.note
    if part.how == "gift" and found.gain is not None:
        if not found.donor_basis_used:
            acquired = part.came
        elif acquired != part.came:
            note = f"{note} The donor’s time is added.".strip()
    if part.how == "inherited":
        term = "long"
    elif acquired is not None:
        term = holding.term(acquired, day)
    else:  # since when is not known, but it was here from the day it came
        known = part.how != "entered" and holding.term(part.came, day) == "long"
        term = "long" if known else None
    return Disposal(fact, part.coin, part.pieces, acquired, day, proceeds, found.basis_used, found.gain, term, held, why, note, part)


def move(postings: dict[str, int], disposal: Disposal, now: str, sign: int) -> None:
    """Post what left (sign 1), or its coming back (-1); `now`: how the record is held, for the account of its cost."""
    cost = disposal.part.cents
    used = cost if disposal.basis is None else disposal.basis
    add(postings, f"coins:{now}", -sign * cost)
    if used != cost:
        add(postings, "owner", sign * (cost - used))
    if disposal.held == "stock":
        add(postings, "cost of sales", sign * used)
    else:
        unknown = ", cost unknown" if disposal.gain is None else ""
        add(postings, f"gains:{disposal.held}{unknown}", sign * (used - disposal.proceeds))


def put_back(postings: dict[str, int], record: Record, disposals: Sequence[Disposal], day: date) -> None:
    """What left is here again, at its old basis and holding period; posts all but what was received for it."""
    if not record.units:
        record.state = "in stock"
    for disposal in disposals:
        disposal.undone = day
        move(postings, disposal, record.held, -1)
        record.units.append(disposal.part)
    record.units.sort(key=first_in)


def lost(books, event: Lost) -> dict[str, int]:
    """Ours leaves at its cost. For somebody's coin we owe what was agreed for it (common practice, no source)."""
    if event.how not in ("missing", "lost", "stolen", "destroyed"):
        raise BadEntry(f"A coin is missing, lost, stolen or destroyed, not “{event.how}”.")
    (line,) = check_out(books, (Out(event.coin, event.pieces, of=event.of),), consigned=True)
    postings: dict[str, int] = {}
    if event.reimbursed:
        add(postings, f"cash:{event.payment or 'other'}", event.reimbursed)
    if line.consigned is None:
        dispose(books, postings, event, line, event.reimbursed, event.how, "income:reimbursed")
        return postings
    other = books.others.pop(event.coin)
    net = other.net or 0
    books.lost_of_others[event.coin] = other
    books.due[other.party] = books.due.get(other.party, 0) + net
    add(postings, "due to consignors", -net)
    add(postings, "expense:losses", net)
    add(postings, "income:reimbursed", -event.reimbursed)
    return postings
