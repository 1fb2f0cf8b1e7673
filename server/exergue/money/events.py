"""What happens to a book's coins and money: one frozen dataclass for each kind of event.

Amounts are cents (integer minor units of the book's one currency). Costs and payments are lists as the facts hold them:
costs [{what, cents}], payments [{how, cents}]; none: all by the one kind `payment`. `order` is the event's place among
those of its day: books go by (date, order). A *coin* is one record; where it is a lot it has so many alike *pieces*.
"""

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

HELD = ("stock", "investment", "personal")


class BadEntry(ValueError):
    """The event cannot be; nothing was changed. The message says why in one sentence."""


class In(NamedTuple):
    """A coin that comes in. `weight` is that of the whole line in a shared price; `held` None: as the book holds coins."""

    coin: str
    pieces: int | None = None  # None: one, or as many as the coin was entered with
    weight: object = None
    value: int | None = None  # trade: agreed; inherited: at death; gift: at the gift; found: face; opening: cost, None unknown
    basis: int | None = None  # gift: the donor's adjusted basis; None: not known
    since: date | None = None  # gift: the day the donor acquired it; opening, purchase: the day it was acquired, if another
    gift_tax: int = 0  # addition to the basis for gift tax, already worked out
    paid: int = 0  # a gift in part: what was paid for it
    held: str | None = None
    more: bool = False  # pieces added to a lot that is there
    costs: tuple[dict, ...] | None = None  # its share of the costs, where that is settled; then every coin of the entry has one


class Out(NamedTuple):
    """A coin that goes out. `pieces` None: all there are. `of`: the event that brought the pieces meant."""

    coin: str
    pieces: int | None = None
    weight: object = None  # asking price of the line, to share a total
    price: int | None = None
    value: int | None = None  # trade: agreed
    of: str | None = None
    costs: tuple[dict, ...] | None = None  # its share of the costs, where that is settled; then every coin of the entry has one


class Lent(NamedTuple):
    coin: str
    net: int | None = None  # agreed net to the coin's owner, for all pieces
    pieces: int = 1


class Foreign(NamedTuple):
    currency: str
    cents: int  # minor units of that currency
    rate: str  # decimal text: book units for one foreign unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    id: str
    date: date
    order: int = 0
    name = "entry"

    def touches(self) -> tuple[str, ...]:
        """The coins that it is about."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase(Event):
    bought: tuple[In, ...]
    costs: tuple[dict, ...] = ()  # none at all: the cost is not known
    foreign: Foreign | None = None
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "purchase"

    def touches(self):
        return tuple(line.coin for line in self.bought)


@dataclass(frozen=True, slots=True, kw_only=True)
class Acquired(Event):
    """`how`: opening, inherited, gift or found; or entered, a coin put in the book without a word on how it came."""

    how: str
    coins: tuple[In, ...]
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "entry of a coin"

    def touches(self):
        return tuple(line.coin for line in self.coins)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost(Event):
    coins: tuple[Out, ...]  # weights alone are read
    costs: tuple[dict, ...]
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "cost"

    def touches(self):
        return tuple(line.coin for line in self.coins)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticket(Event):
    """A sale. `price`: total before tax; None: the lines' prices, and for a coin that is out the net agreed."""

    sold: tuple[Out, ...]
    price: int | None = None
    tax: int = 0
    place: str = ""  # where the tax is owed
    costs: tuple[dict, ...] = ()
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "sale"

    def touches(self):
        return tuple(line.coin for line in self.sold)


@dataclass(frozen=True, slots=True, kw_only=True)
class Return(Event):
    of: str  # the sale
    coins: tuple[str, ...] = ()  # none: all of it
    pieces: int | None = None  # of the one coin named; None: all of it
    refund: int = 0  # of the price
    tax: int = 0  # given back
    costs: tuple[dict, ...] = ()
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "return"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade(Event):
    out: tuple[Out, ...]
    into: tuple[In, ...]
    boot: int = 0  # above zero: received with what comes in; below: paid with what goes out
    waiting: int = 0  # value of coins that went out by it, as it says, and by another entry, too: somebody must decide
    costs: tuple[dict, ...] = ()
    payments: tuple[dict, ...] = ()
    payment: str | None = None
    name = "trade"

    def touches(self):
        return tuple(line.coin for line in (*self.out, *self.into))


@dataclass(frozen=True, slots=True, kw_only=True)
class Memo(Event):
    way: str  # out: ours, with somebody else; in: somebody's, with us
    kind: str  # memo or consignment
    coins: tuple[Lent, ...]
    with_: str = ""
    due: date | None = None
    name = "memo"

    def touches(self):
        return tuple(line.coin for line in self.coins)


@dataclass(frozen=True, slots=True, kw_only=True)
class Away(Event):
    coins: tuple[str, ...]
    why: str = "other"  # grading, conservation, display, other
    with_: str = ""
    name = "entry away"

    def touches(self):
        return self.coins


@dataclass(frozen=True, slots=True, kw_only=True)
class Back(Event):
    coins: tuple[str, ...]
    name = "entry back"

    def touches(self):
        return self.coins


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(Event):
    coin: str
    pieces: int | None = None  # None: all there are
    of: str | None = None  # the event that brought the pieces meant
    how: str = "missing"  # missing, lost, stolen, destroyed
    reimbursed: int = 0
    payment: str | None = None
    name = "loss"

    def touches(self):
        return (self.coin,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn(Event):
    coins: tuple[str, ...]
    to: str
    name = "withdrawal"

    def touches(self):
        return self.coins


@dataclass(frozen=True, slots=True, kw_only=True)
class Money(Event):
    """`what`: expense, income, owner_in, owner_out, tax_paid, transfer, or consignor (paid to `to`, an owner of coins sold)."""

    what: str
    cents: int
    how: str = "cash"
    to_how: str | None = None
    to: str = ""
    place: str = ""  # of a tax paid
    about: str = ""
    name = "entry of money"


@dataclass(frozen=True, slots=True, kw_only=True)
class Void(Event):
    """`of`: the event that is undone, as if it had never been."""

    of: str
    name = "undoing"
