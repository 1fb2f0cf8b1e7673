"""Closed shows with differences that nobody explained yet: they wait under *Needs a look*.

What was found of a show is kept until an entry concerns it: one that names it, changes its card, or changes a coin that was
packed for it, bought there or scanned there. So a page costs what was entered since the last one, however many shows there were.
"""

import json
import threading
from collections.abc import Callable, Iterable
from typing import NamedTuple

from . import counting, floor_cards, journal, quick, show_money
from .show_close import cash_key
from .tables import Show


class _Kept(NamedTuple):
    """What was found, from which book, and up to which entry."""

    book: tuple
    seq: int
    shows: dict[str, tuple[str, dict]]  # of those that wait: (when it began, what `waiting` tells)


_kept: _Kept | None = None
_lock = threading.Lock()


def waiting(book, day: str, clock: Callable[[int], str]) -> list[dict]:
    """[{id, name, coins, cash}] of closed shows: how many differences of the count are open, and whether the cash is."""
    global _kept
    with _lock:
        mark, seq = (str(book.folder), book.epoch, journal.meta("fold")), book.seq
        if _kept is None or _kept.book != mark or _kept.seq > seq:
            _kept = _Kept(mark, -1, {})
            concerned = {key for (key,) in quick.rows("select distinct show from closing")}
        else:
            concerned = _concerned(_kept.seq) if _kept.seq < seq else set()
        shows = {key: found for key, found in _kept.shows.items() if key not in concerned}
        shows |= {key: found for key in concerned if (found := _found(key, day, clock))}
        _kept = _Kept(mark, seq, shows)
        return [told for _, told in sorted(shows.values(), key=lambda one: (one[0], one[1]["id"]))]


def _found(key: str, day: str, clock: Callable[[int], str]) -> tuple[str, dict] | None:
    """What waits of one show; None: nothing, or it is open."""
    show = Show.get_or_none(Show.id == key)
    if show is None or not floor_cards.closed(key):
        return None
    rounds, drawer = counting.rounds(key), show_money.drawer(key)
    coins = len(counting.reconciled(key, rounds[-1]["id"], day, clock).open) if rounds else 0
    due = (show.float or 0) + show_money.cash(show_money.paid(key, show.ends or show.starts))
    cash = bool(drawer) and drawer["cents"] != due and cash_key(key) not in counting.settled()
    return (show.starts, {"id": key, "name": show.name or "A show", "coins": coins, "cash": cash}) if coins or cash else None


_OF_COINS = (
    "select show from packed where coin in ({0}) union select p.show from bought b join purchase p on p.fact = b.purchase "
    "where b.coin in ({0}) union select r.show from round r cross join seen s on s.round = r.id where s.coin in ({0})"
)


def _concerned(since: int) -> set[str]:
    """Shows of which something may be otherwise after the entries that came `since`. A coin's card tells of looks at it, too."""
    shows = {key for (key,) in quick.rows("select id from card where seq > ? and kind = ?", since, "show")}
    for kind, body in quick.rows("select kind, body from fact where seq > ?", since):
        shows |= _named(kind, json.loads(body))
    keys = [key for (key,) in quick.rows("select id from card where seq > ? and kind = ?", since, "coin")]
    for start in range(0, len(keys), counting.PART):
        part = keys[start : start + counting.PART]
        shows |= {key for (key,) in quick.rows(_OF_COINS.format(", ".join("?" * len(part))), *part * 3)}
    return shows - {None}


def _named(kind: str, body: dict) -> Iterable[str]:
    """The shows that an entry names, itself or by what it undoes or explains."""
    named = {str(body.get("show"))}
    if kind == "void":
        undone = quick.row("select kind, body from fact where id = ?", str(body.get("of")))
        return named | (set(_named(undone[0], json.loads(undone[1]))) if undone and undone[0] != "void" else set())
    if kind == "settle":
        first, _, last = str(body.get("key")).partition("/")
        found = quick.rows("select show from drawer where fact = ?" if first == "cash" else "select show from round where id = ?",
                           last if first == "cash" else first)  # fmt: skip
        return named | {key for (key,) in found} | ({last} if first == "cash" else set())
    return named
