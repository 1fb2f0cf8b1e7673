"""The accounts of a book: money.books.Books from the journal's facts of money.

The journal goes by the order in which entries came, the accounts by their dates. What they refuse for that (a sale dated
before its purchase) is told with its sentence, and is left out of every figure.
"""

import threading
from typing import NamedTuple

from ..money import from_facts, shares
from ..money.books import Books
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
    usual = {name: book.setting(name) for name in ("lots", "held", "currency")}
    found = {event.id: event for event in accounts.events(book)}
    history = [from_facts.event(_entered(*row, usual["held"]), row[2]) for row in _alone()]
    history += [from_facts.event({"id": event.id, "kind": _kind(event), "body": body(event)}, event.seq) for event in found.values()]
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


def _come(rows: list[dict]) -> list[dict]:
    return [row | {"set": row.get("set", {}) | {"held": row["held"]}} for row in rows]


def body(event: accounts.Event) -> dict:
    """An entry's body as `money.from_facts` reads it."""
    said = event.body
    if event.kind == "purchase":
        return said | {"bought": _come(said["bought"])}
    if event.kind == "acquired":
        return said | {"coins": _come(said["coins"])}
    if event.kind == "trade":
        return said | {"in": _come(said["in"])}
    if event.kind == "sale":
        return said | {"sold": [{"coin": said["coin"], "pieces": said["pieces"], "price": said["price"]}]}
    if event.kind == "ticket" and said["contested"]:  # what clashes is no part of it until somebody decides
        costs = [line for row in said["sold"] for line in row["costs"]]
        return said | {"price": sum(row["price"] for row in said["sold"]), "costs": costs, "payments": []}
    if event.kind == "return":
        return said | {"coins": [row["coin"] for row in said["coins"]]}
    if event.kind == "cost":
        return said | {"coins": _weighed(said)}
    return said


def _weighed(said: dict) -> list[dict]:
    """A later cost goes by the weights given; where a coin of it is gone from the book, by what each bears."""
    rows = said["coins"]
    if shares.total(said["costs"]) == sum(row["cents"] for row in rows):
        return rows
    return [row | {"weight": row["cents"]} for row in rows]
