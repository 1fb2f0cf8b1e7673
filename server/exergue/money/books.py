"""The books: what is there, what it cost, what was gained, from events alone.

Events may come in any order; the books stand as if each had come at its place by (date, order). An event that cannot be
is refused with one sentence, and nothing of it is kept. Nothing here is advice on tax: local rules and a licensed
preparer decide.
"""

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import date

from . import coming, elsewhere, events, going, paying, returns, selling, trades
from .events import HELD, BadEntry, Event, Void
from .ledger import Ledger
from .owing import Owed
from .standing import Elsewhere, CostOf, Disposal, Record, Standing, cost_of, standing

TAKES = {
    events.Purchase: coming.purchase,
    events.Acquired: coming.acquired,
    events.Cost: coming.cost,
    events.Ticket: selling.ticket,
    events.Return: returns.returned,
    events.Trade: trades.trade,
    events.Memo: elsewhere.memo,
    events.Away: elsewhere.away,
    events.Back: elsewhere.back,
    events.Lost: going.lost,
    events.Withdrawn: elsewhere.withdrawn,
    events.Money: paying.money,
}


def place(event: Event) -> tuple[date, int]:
    """Where an event stands in book order."""
    return event.date, event.order


class Books:
    """One book's coins and money. `lots`: fifo or specific; `held`: how coins are held that do not say it."""

    def __init__(self, lots: str = "fifo", held: str = "stock", currency: str = "USD"):
        if lots not in ("fifo", "specific"):
            raise BadEntry(f"Part of a lot leaves by fifo or by specific choice, not by “{lots}”.")
        if held not in HELD:
            raise BadEntry(f"A coin is held as one of {', '.join(HELD)}, not as “{held}”.")
        self.lots, self.held, self.currency = lots, held, currency
        self.records: dict[str, Record] = {}
        self.others: dict[str, Elsewhere] = {}  # somebody's coins with us
        self.lost_of_others: dict[str, Elsewhere] = {}
        self.ever_others: set[str] = set()
        self.owed: list[Owed] = []  # how it came to be due, entry by entry
        self.due: dict[str, int] = {}  # owner → what is still to be paid for sold coins; below 0: paid ahead
        self.disposals: list[Disposal] = []
        self.sales: dict[str, selling.Sale] = {}
        self.ledger = Ledger()
        self.taken: dict[str, Event] = {}
        self._last: dict[str, tuple[date, int]] = {}  # coin → place of the last event about it

    @classmethod
    def of(cls, history: Iterable[Event], refused: list[tuple[Event, str]] | None = None, **settings) -> "Books":
        """Books of a whole history, without what was voided.

        An event that cannot be raises BadEntry; where a list is given, it is put there with its sentence, and left out.
        """
        books = cls(**settings)
        with unswept():
            for event in in_order(history):
                try:
                    books._apply(event)
                except BadEntry as problem:
                    if refused is None:
                        raise
                    refused.append((event, str(problem)))
        return books

    def take(self, event: Event) -> None:
        """Take one event. Raises BadEntry, and then nothing has changed."""
        if event.id in self.taken:
            raise BadEntry(f"The entry {event.id} is in these books already.")
        if type(event) is Void:
            with unswept():
                self._become(self._without(event))
        elif any(self._last.get(key, (date.min, 0)) > place(event) for key in self._keys(event)):
            with unswept():
                self._become(self._with(event))
        else:
            self._apply(event)

    def _keys(self, event: Event) -> tuple[str, ...]:
        if type(event) is events.Return:
            sale = self.sales.get(event.of)
            return sale.event.touches() if sale else ()
        return event.touches()

    def _apply(self, event: Event) -> None:
        """Take an event after which no other about its coins was taken."""
        if event.id in self.taken:
            raise BadEntry(f"The entry {event.id} is in these books already.")
        keys = self._keys(event)
        postings = TAKES[type(event)](self, event)
        if postings:
            self.ledger.post(event.id, event.date, event.order, event.name, postings)
        self.taken[event.id] = event
        here = place(event)
        for key in keys:
            self._last[key] = here

    def _settings(self) -> dict:
        return {"lots": self.lots, "held": self.held, "currency": self.currency}

    def _with(self, late: Event) -> "Books":
        """Books in which an event that came late stands at its place."""
        books = Books(**self._settings())
        for event in in_order([*self.taken.values(), late]):
            try:
                books._apply(event)
            except BadEntry as problem:
                if event is late:
                    raise
                raise BadEntry(f"With this, the {event.name} of {event.date} could not be: {problem}") from None
        return books

    def _without(self, void: Void) -> "Books":
        if void.of not in self.taken:
            raise BadEntry("There is nothing in these books to be undone by this entry.")
        books, undone = Books(**self._settings()), self.taken[void.of]
        for event in in_order(event for event in self.taken.values() if event.id != void.of):
            try:
                books._apply(event)
            except BadEntry as problem:
                what, other = f"{undone.name} of {undone.date}", f"{event.name} of {event.date}"
                raise BadEntry(f"The {what} cannot be undone while the {other} stands: {problem}") from None
        return books

    def _become(self, books: "Books") -> None:
        self.__dict__ = books.__dict__

    def as_of(self, day: date) -> "Books":
        """The books as they stood at the end of a day."""
        return Books.of((event for event in self.taken.values() if event.date <= day), **self._settings())

    def stock(self, day: date | None = None) -> list[Standing]:
        """All coins that are ours by ID, however held and wherever they are, now or at the end of a day."""
        records = (self if day is None else self.as_of(day)).records
        return [standing(records[coin]) for coin in sorted(records) if records[coin].units]

    def out(self) -> list[Elsewhere]:
        """Our coins that are not in the case: where, and since when."""
        return [record.out for record in self.records.values() if record.out is not None]

    def held_for_others(self) -> list[Elsewhere]:
        """Somebody's coins that are with us."""
        return list(self.others.values())

    def gains(self) -> list[Disposal]:
        """What left, by date; without what was returned or found again. A gain of None is not known."""
        standing = [each for each in self.disposals if each.undone is None]
        return sorted(standing, key=lambda each: (each.disposed, each.fact, each.coin))

    def cost_of(self, coin: str) -> CostOf:
        """What a coin cost, line by line. Raises BadEntry for a coin that was never ours."""
        if coin not in self.records:
            raise BadEntry(f"{coin} is not in these books.")
        return cost_of(self.records[coin])


@contextmanager
def unswept() -> Iterator[None]:
    """Without the collector of cycles. A whole book is many small objects and not one cycle; looking took half of the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def in_order(history: Iterable[Event]) -> list[Event]:
    """A history in book order, without what was voided. What undoes something else than an event of money is left out."""
    everything = list(history)
    voided = {event.of for event in everything if type(event) is Void}
    if voided:
        everything = [event for event in everything if type(event) is not Void and event.id not in voided]
    return sorted(everything, key=place)
