"""Whether the accounts are sound, and say of every coin what its card says."""

from ..labels import ids
from ..money import ledger
from . import quick
from .books import Account, build, contradictions


def prove(book) -> tuple[list[str], list[str]]:
    """(what disagrees, remarks), a sentence each. Coins of entries that the accounts leave out are not compared."""
    account = build(book)
    proof = ledger.check(account.books)
    remarks = [f"{refusal.kind.capitalize()} of {refusal.date} is left out of the accounts: {refusal.why}" for refusal in account.refused]
    remarks += [f"{each.kind.capitalize()} of {each.date}: {each.why}" for each in contradictions(account)]
    if proof.unknown:
        count = len(proof.unknown)
        remarks.append(f"{count:,} {'coin' if count == 1 else 'coins'} without a known cost: in the accounts at nothing, and told in every report.")
    return proof.faults + differences(account), remarks


def differences(account: Account) -> list[str]:
    """A sentence for each coin of which card and accounts differ, by ID."""
    apart = {coin for refusal in account.refused for coin in refusal.coins} | _undone_with(account)
    sql = 'select id, state, "left", held, theirs, cost_left from coin order by id'
    found = []
    for coin, state, left, held, theirs, cost in quick.rows(sql):
        if coin not in apart:
            here = (state, left, None, None) if theirs else (state, left, held or account.books.held, cost if left else None)
            found += [f"{ids.show(coin)}: {what}." for what in _compared(account, coin, bool(theirs), *here)]
    return found


def _undone_with(account: Account) -> set[str]:
    """Coins of an entry whose other part was left out: a return of a sale that the accounts do not have."""
    fallen = {refusal.fact for refusal in account.refused}
    return {
        row["coin"] for fact in fallen for row in account.events[fact].body.get("coins", []) if isinstance(row, dict)
    } if fallen else set()  # fmt: skip


def _compared(account: Account, coin: str, theirs: bool, state: str, left: int, held: str | None, cost: int | None):
    if theirs:
        if left and coin not in account.books.others:
            yield "somebody’s coin on its card, and not in the accounts"
        return
    record = account.books.records.get(coin)
    if record is None:
        if left:
            yield "in the book, and not in the accounts"
        return
    pieces = sum(unit.pieces for unit in record.units)
    if (pieces, record.state) != (left, state):
        yield f"its card says {left} left, {state}; the accounts say {pieces}, {record.state}"
    elif pieces:
        known = None if any(unit.unknown for unit in record.units) else sum(unit.cost for unit in record.units)
        if known != cost:
            yield f"it cost {cost} cents by its card, and {known} by the accounts"
        if record.held != held:
            yield f"held as {held} by its card, as {record.held} by the accounts"
