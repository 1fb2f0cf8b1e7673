"""What should be there: packed + bought + traded in − sold − traded out − sent, as of now. Pure.

A coin here is one record with one label: a lot counts once, however many pieces it has, and is there while any are left.
"""

from collections.abc import Iterable
from dataclasses import dataclass

IN = ("packed", "bought", "traded in", "in the book")
OUT = ("sold", "traded out", "sent", "lost", "returned")


@dataclass(frozen=True)
class Entered:
    """An entry that brought a coin, packed it, or took it away: when by the device's clock (ms since 1970), and by which."""

    fact: str
    when: int
    by: str
    others: bool = False  # the entry is about other coins, too


@dataclass(frozen=True)
class Went:
    """How a coin left: one of OUT; `state` in the trade's words, such as “at grading”."""

    how: str
    state: str
    entry: Entered


@dataclass(frozen=True)
class Coin:
    """A coin of the book. `how` is one of IN; "": nothing says that it should be there."""

    id: str
    how: str = ""
    came: Entered | None = None
    box: str = ""  # where it was packed, or lies by its record
    went: Went | None = None
    undone: Entered | None = None  # a sale of it that was undone
    label_twice: bool = False  # another coin waits for this label

    @property
    def due(self) -> bool:
        """Whether it should be there."""
        return bool(self.how) and self.went is None


def tally(coins: Iterable[Coin]) -> list[tuple[str, int]]:
    """(word, number of coins; below nothing for what left), of what there is any of; they add up to what is expected."""
    base = [coin for coin in coins if coin.how]
    rows = [(how, sum(coin.how == how for coin in base)) for how in IN]
    rows += [(how, -sum(coin.went is not None and coin.went.how == how for coin in base)) for how in OUT]
    return [(how, many) for how, many in rows if many]
