"""The accounts of a book: money.books.Books from the journal's facts of money.

The journal goes by the order in which entries came, the accounts by their dates. What they refuse for that (a sale dated
before its purchase) is told with its sentence, and is left out of every figure.
"""

import threading
from typing import NamedTuple

from ..money import from_facts
from ..money.books import Books, unswept
from . import accounts, loaded


class Refusal(NamedTuple):
    """An entry that the accounts leave out, and why in a sentence."""

    fact: str
    kind: str
    date: str
    coins: tuple[str, ...]
    why: str


class Account(NamedTuple):
    """`events` are the entries that stand, by fact, as accounts.py gives them."""

    books: Books
    events: dict[str, accounts.Event]
    refused: list[Refusal]

    @property
    def unknown(self) -> list[str]:
        """Coins of ours whose cost nobody knows, by ID."""
        return [each.coin for each in self.books.stock() if each.cost is None]


_kept: tuple | None = None
_lock = threading.Lock()


def books(book) -> Account:
    """The accounts as the book stands; kept until its next entry. Change nothing in them. Use inside `connected()`."""
    global _kept
    with _lock:
        mark = (str(book.folder), book.epoch, book.seq)
        if _kept is None or _kept[0] != mark:
            _kept = (mark, build(book))
        return _kept[1]


def build(book) -> Account:
    """The accounts, made anew."""
    with unswept():
        return _built(book)


def _built(book) -> Account:
    usual = {name: book.setting(name) for name in ("held", "currency")}  # which pieces leave, each entry says or is first in
    found = {event.id: event for event in accounts.events(book)}
    history = [from_facts.event(_entered(*row, usual["held"]), 2 * row[2]) for row in _alone()]
    history += [from_facts.event({"id": event.id, "kind": _kind(event), "body": body(event) | {"date": event.day}}, event.at) for event in found.values()]
    refused: list = []
    made = Books.of(history, refused, **usual)
    said = [Refusal(event.id, event.name, event.date.isoformat(), event.touches(), why) for event, why in refused]
    return Account(made, found, said)


def _alone() -> list[tuple]:
    """(coin, fact, number, pieces, held) of coins put in alone."""
    whole = loaded.Whole()
    return [(coin, fact, seq, whole.pieces[coin], whole.held[coin]) for coin, fact, seq in loaded.entered()]


def _entered(coin: str, fact: str, seq: int, pieces: int, held: str, usual: str) -> dict:
    return {"id": fact, "kind": "coin.add", "body": {"coin": coin, "pieces": pieces, "set": {"held": held or usual}}}


def _kind(event: accounts.Event) -> str:
    return "ticket" if event.kind == "sale" else event.kind


def _come(event: accounts.Event, name: str) -> dict:
    """The rows as they come in. Held since the date that was given, or the day from which the entry counts if that is earlier."""
    own, day, rows = event.body["date"], event.day, []
    for row in event.body[name]:
        row = row | {"set": row.get("set", {}) | {"held": row.get("held")}}
        since = min(row.get("since") or (own if event.kind == "purchase" else day), day)
        rows.append(row | {"since": since} if row.get("since") or (event.kind == "purchase" and since != day) else row)
    return {name: rows}


def body(event: accounts.Event) -> dict:
    """An entry's body as `money.from_facts` reads it."""
    said = event.body
    if event.kind == "purchase":
        return said | _come(event, "bought")
    if event.kind == "acquired":
        return said | _come(event, "coins")
    if event.kind == "trade":
        waits = said["contested"]
        lines = {} if not waits else {"costs": [line for row in said["out"] for line in row["costs"]], "waiting": sum(row["value"] for row in waits)}
        return said | _come(event, "in") | lines
    if event.kind == "sale":
        return said | {"sold": [{"coin": said["coin"], "pieces": said["pieces"], "price": said["price"]}]}
    if event.kind == "ticket" and said["contested"]:  # what clashes is no part of it until somebody decides
        costs = [line for row in said["sold"] for line in row["costs"]]
        return said | {"price": sum(row["price"] for row in said["sold"]), "costs": costs, "payments": []}
    if event.kind == "return":
        back = said["coins"]
        return said | {"coins": [row["coin"] for row in back], "pieces": back[0]["pieces"] if len(back) == 1 else None}
    return said


def contradictions(account: Account) -> list[Refusal]:
    """Entries that count from another day than the date they were given, and why."""
    found = []
    for event in account.events.values():
        own = event.body["date"]
        if event.day != own:
            when = "before" if event.day > own else "after"
            why = f"It is dated {own}, {when} what was entered earlier about this coin; it counts from {event.day}."
            coins = account.books.taken[event.id].touches() if event.id in account.books.taken else ()
            found.append(Refusal(event.id, event.kind, own, coins, why))
    return found
