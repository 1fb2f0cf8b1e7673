"""Coins go out: which pieces leave, at what basis, and with what gain; and coins that are lost."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from . import gains, holding
from .allocate import split
from .events import BadEntry, Lost, Out
from .ledger import add
from .lots import Unit, first_in, pick, share
from .owing import owe
from .paying import expenses
from .shares import total
from .standing import Disposal, Elsewhere, Record, missing


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
    found: int = 0  # so many of its pieces were missing, and are found by their going


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
    if record is not None and (record.units or record.state == "missing"):
        there = sum([unit.pieces for unit in record.units])
        wanted = line.pieces or there
        asks = line.of is None and consigned and (not wanted or wanted > there)  # more than is here: of the missing, too
        lost = sum([each.pieces for each in missing(record)]) if asks else 0
        wanted = wanted or lost
        if there < wanted <= there + lost:
            return Leaving(line.coin, wanted, (), found=wanted - there)
        if not there:
            raise BadEntry(f"{line.coin} is booked as missing; book it back first.")
        parts = pick(line.coin, record.units, line, books.lots)
        return Leaving(line.coin, sum([pieces for _, pieces in parts]), parts)
    if line.coin in books.others or (consigned and line.coin in books.lost_of_others):
        return _leaving_of_others(books, line, consigned)
    if record is None:
        raise BadEntry(f"{line.coin} is not in these books.")
    raise BadEntry(f"{line.coin} is no longer here: it was {record.state}.")


def _leaving_of_others(books, line: Out, consigned: bool) -> Leaving:
    other, lost = books.others.get(line.coin), books.lost_of_others.get(line.coin)
    there = other.pieces if other else 0
    whole = other.without(lost, 1) if other and lost else other or lost
    if not consigned:
        raise BadEntry(f"{line.coin} is not ours but {whole.party or 'somebody'}’s.")
    wanted = line.pieces or there or whole.pieces
    if wanted > whole.pieces or line.of is not None:
        many = f"{whole.pieces} {'is' if whole.pieces == 1 else 'are'} there"
        raise BadEntry(f"{wanted} pieces of {line.coin} cannot leave: {many}, of {whole.party or 'somebody'}’s.")
    return Leaving(line.coin, wanted, (), whole.some(wanted), found=max(0, wanted - there))


def dispose(books, postings: dict[str, int], event, line: Leaving, gross: int, why: str, revenue: str) -> None:
    """Let a line's pieces leave for `gross` less the line's costs: disposals, and their postings but for the cash.

    Of stock, the gross goes to the account `revenue`, costs are expenses, and the basis is a cost of sales. Of other coins
    the account of gains gets what is left.
    """
    record = books.records[line.coin]
    held = record.held
    if line.found:
        find(books, postings, record, line.found, event.date)
        line.parts = pick(line.coin, record.units, Out(line.coin, line.pieces), "fifo")
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
        record.state, record.out = "missing" if missing(record) else why, None


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


def cut(books, record: Record, whole: Disposal, pieces: int) -> Disposal:
    """The first so many pieces of what left, as a disposal of their own; the amounts are shared to the cent."""
    if pieces == whole.pieces:
        return whole
    bare = whole.basis == whole.part.cents
    part = whole.part.split_off(pieces)
    proceeds = share(whole.proceeds, whole.pieces, pieces)
    basis = None if whole.basis is None else part.cents if bare else share(whole.basis, whole.pieces, pieces)
    gain = None if whole.gain is None else proceeds - basis
    first = replace(whole, pieces=pieces, proceeds=proceeds, basis=basis, gain=gain, part=part)
    whole.pieces, whole.proceeds = whole.pieces - pieces, whole.proceeds - proceeds
    whole.basis = None if whole.basis is None else whole.basis - basis
    whole.gain = None if whole.gain is None else whole.gain - gain
    record.gone += (first,)
    books.disposals.append(first)
    return first


def find(books, postings: dict[str, int], record: Record, pieces: int, day: date) -> None:
    """So many missing pieces are here again. What was reimbursed stays income, until it is paid back by an entry of money."""
    for each in missing(record):
        if pieces:
            each = cut(books, record, each, min(pieces, each.pieces))
            pieces -= each.pieces
            put_back(postings, record, [each], day)
            add(postings, "income:reimbursed", -each.proceeds if each.held != "stock" else 0)


def lost(books, event: Lost) -> dict[str, int]:
    """Ours leaves at its cost. For somebody's coin we owe what was agreed for it (common practice, no source)."""
    if event.how not in ("missing", "lost", "stolen", "destroyed"):
        raise BadEntry(f"A coin is missing, lost, stolen or destroyed, not “{event.how}”.")
    (line,) = check_out(books, (Out(event.coin, event.pieces, of=event.of),), consigned=True)
    if line.found:
        raise BadEntry(f"{event.coin} is booked as missing already.")
    postings: dict[str, int] = {}
    if event.reimbursed:
        add(postings, f"cash:{event.payment or 'other'}", event.reimbursed)
    if line.consigned is None:
        dispose(books, postings, event, line, event.reimbursed, event.how, "income:reimbursed")
        return postings
    other = line.consigned
    keep(books.others, books.others[event.coin].without(other), event.coin)
    before = books.lost_of_others.get(event.coin)
    net = other.net or 0
    books.lost_of_others[event.coin] = before.without(other, 1) if before else other
    owe(books, postings, event, other.party, "lost", net, event.coin)
    add(postings, "expense:losses", net)
    add(postings, "income:reimbursed", -event.reimbursed)
    return postings


def keep(where: dict[str, Elsewhere], what: Elsewhere | None, coin: str) -> None:
    """Somebody's coin stands so from now on; None: no more."""
    if what is None:
        where.pop(coin, None)
    else:
        where[coin] = what


def found_again(books, postings: dict[str, int], event, coin: str, pieces: int | None = None) -> None:
    """Somebody's lost coin is with us again, or so many of its pieces: its owner is not due what we owed for the loss."""
    whole = books.lost_of_others[coin]
    part = whole if pieces is None else whole.some(pieces)
    keep(books.lost_of_others, whole.without(part), coin)
    there = books.others.get(coin)
    books.others[coin] = there.without(part, 1) if there else part
    net = part.net or 0
    owe(books, postings, event, part.party, "found", -net, coin)
    add(postings, "expense:losses", -net)
