"""What is owed to owners of coins that we sold, or lost, for them: entry by entry."""

from datetime import date
from typing import NamedTuple

from .ledger import add


class Owed(NamedTuple):
    """One change of what an owner is due, in cents: above zero by a sale or a loss, below by a return or a payment."""

    party: str
    date: date
    fact: str
    about: str  # sold, returned, lost, found, paid
    coin: str | None
    cents: int


def owe(books, postings: dict[str, int], event, party: str, about: str, cents: int, coin: str | None = None) -> None:
    """Owners are one by their name, whatever its case and spaces; the way it was first written stands."""
    name = same(party)
    party = next((known for known in books.due if same(known) == name), party)
    books.due[party] = books.due.get(party, 0) + cents  # below nothing: paid ahead
    books.owed.append(Owed(party, event.date, event.id, about, coin, cents))
    add(postings, "due to consignors", -cents)


def same(party: str) -> str:
    return " ".join(party.split()).casefold()
