"""Closed shows with differences that nobody explained yet: they wait under *Needs a look*."""

import threading
from collections.abc import Callable

from . import counting, floor_cards, show_money
from .show_close import cash_key
from .tables import Show

_kept: tuple | None = None
_lock = threading.Lock()


def waiting(book, day: str, clock: Callable[[int], str]) -> list[dict]:
    """[{id, name, coins, cash}]: how many differences of the count are open, and whether the cash is. Kept until the next entry."""
    global _kept
    mark = (str(book.folder), book.epoch, book.seq)
    with _lock:
        if _kept is None or _kept[0] != mark:
            _kept = (mark, _found(day, clock))
        return _kept[1]


def _found(day, clock) -> list[dict]:
    found = []
    explained = counting.settled()
    for show in Show.select().order_by(Show.starts, Show.id):
        if not floor_cards.closed(show.id):
            continue
        rounds, drawer = counting.rounds(show.id), show_money.drawer(show.id)
        coins = len(counting.reconciled(show.id, rounds[-1]["id"], day, clock).open) if rounds else 0
        paid = show_money.paid(show.id, show.ends or show.starts)
        due = (show.float or 0) + show_money.cash(paid)
        cash = bool(drawer) and drawer["cents"] != due and cash_key(show.id) not in explained
        if coins or cash:
            found.append({"id": show.id, "name": show.name or "A show", "coins": coins, "cash": cash})
    return found
