"""The book's double-entry journal: for each event one entry, whose postings add up to nothing.

A posting above zero is a debit. Accounts are plain text:

    cash:HOW                 cash, check, card, transfer, other
    coins:HELD               what coins cost that are stock, investment or personal; an unknown cost counts as nothing
    due to consignors        what owners of sold coins are still to get
    sales tax[:PLACE]        collected and not yet paid on
    owner                    what the owner put in and took out, coins that came otherwise than by purchase or trade, and
                             the part of a gift's basis that counts neither for gain nor for loss
    waiting                  what went out by a trade that clashes with another entry, until somebody decides
    sales, sales returns, cost of sales        of stock alone
    gains:HELD, gains:HELD, cost unknown       of other coins, less selling costs
    expense:WHAT             costs of sales (fee, shipping …), losses, general
    income:WHAT              commission, restocking, reimbursed, other
"""

from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

from .events import HELD, BadEntry


class Entry(NamedTuple):
    fact: str
    date: date
    order: int
    about: str
    postings: tuple[tuple[str, int], ...]  # (account, cents)


class Ledger:
    """Entries, and what they come to."""

    def __init__(self):
        self._entries: list[Entry] = []
        self._balances: dict[str, int] = {}

    def post(self, fact: str, day: date, order: int, about: str, postings: dict[str, int]) -> None:
        """Keep an entry; one that moves nothing is left out. Raises BadEntry for one that does not balance."""
        if sum(postings.values()):
            raise BadEntry(f"The entry {fact} does not balance: it is {sum(postings.values())} off.")
        kept = tuple([posting for posting in postings.items() if posting[1]])
        if kept:
            self._entries.append(Entry(fact, day, order, about, kept))
            balances = self._balances
            for account, cents in kept:
                balances[account] = balances.get(account, 0) + cents

    def entries(self) -> list[Entry]:
        """All entries by date, and by order within a day."""
        return sorted(self._entries, key=lambda entry: (entry.date, entry.order))

    def balance(self, account: str) -> int:
        return self._balances.get(account, 0)

    def balances(self, first: date | None = None, last: date | None = None) -> dict[str, int]:
        """What each account came to, of the entries from `first` to `last`; accounts that come to nothing are left out."""
        if first is None and last is None:
            return {account: cents for account, cents in sorted(self._balances.items()) if cents}
        sums: dict[str, int] = {}
        for entry in self._entries:
            if (first is None or entry.date >= first) and (last is None or entry.date <= last):
                for account, cents in entry.postings:
                    sums[account] = sums.get(account, 0) + cents
        return {account: cents for account, cents in sorted(sums.items()) if cents}


def add(postings: dict[str, int], account: str, cents: int) -> None:
    postings[account] = postings.get(account, 0) + cents


@dataclass(slots=True)
class Proof:
    """What `check` found. `coins`: for each kind held, (the account, the sum of coins' known costs)."""

    entries: int
    coins: dict[str, tuple[int, int]]
    unknown: list[tuple[str, int]]  # coins of unknown cost, with their pieces: they stand at nothing but later costs
    faults: list[str] = field(default_factory=list)

    @property
    def ok(self) -> bool:
        return not self.faults


def check(books) -> Proof:
    """Add the whole journal up anew, entry by entry, and hold it against the coins and against what consignors are due."""
    faults, sums = [], {}
    for entry in books.ledger._entries:
        off = 0
        for account, cents in entry.postings:
            off += cents
            sums[account] = sums.get(account, 0) + cents
        if off:
            faults.append(f"The entry {entry.fact} is {off} off.")
    if {account: cents for account, cents in sums.items() if cents} != books.ledger.balances():
        faults.append("The balances are not what the entries add up to.")
    costs, unknown = dict.fromkeys(HELD, 0), []
    for record in books.records.values():
        for unit in record.units:
            costs[record.held] += unit.cents
        pieces = sum(unit.pieces for unit in record.units if unit.unknown)
        if pieces:
            unknown.append((record.coin, pieces))
    coins = {held: (sums.get(f"coins:{held}", 0), cents) for held, cents in costs.items()}
    for held, (account, cents) in coins.items():
        if account != cents:
            faults.append(f"The account coins:{held} holds {account}, and its coins cost {cents}.")
    due = sum(books.due.values())
    if sums.get("due to consignors", 0) != -due:
        faults.append(f"Consignors are due {due}, and their account holds {-sums.get('due to consignors', 0)}.")
    return Proof(len(books.ledger._entries), coins, sorted(unknown), faults)
