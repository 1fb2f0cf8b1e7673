"""Rounds of counting, and what they are held against. Everything here runs inside `book.connected()` and changes nothing."""

from collections.abc import Callable, Iterable, Iterator

from ..shows.expected import Coin, Entered, Went
from ..shows.reconcile import Asked, Reconciled, Scan, reconcile, union
from ..shows.stories import DESK
from . import devices, floor_cards, quick

WITH_US = ("in stock",)
LENT_TO_US = ("on memo", "on consignment")
HOW = {"sold": "sold", "traded": "traded out", "missing": "lost", "returned": "returned"}  # any other state: sent
PART = 500  # IDs in one query
BEFORE = "a device of before"


def rounds(show: str | None) -> list[dict]:
    """[{id, when, seen, scans}] of a show, or of the whole stock (None), the latest last."""
    where = "show is null" if show is None else "show = ?"
    rows = quick.rows(f"select id, when_ms, seen, scans from round where {where} order by seq", *([show] if show else []))
    return [dict(zip(("id", "when", "seen", "scans"), row, strict=True)) for row in rows]


def reconciled(show: str | None, round_id: str, day: str, clock: Callable[[int], str]) -> Reconciled:
    """The round against what should be there now; at a closed show: on the day when it was closed."""
    names = devices.names() | {"desk": DESK}
    scans = [
        Scan(coin, when, names.get(device, BEFORE), place, how)
        for coin, when, device, place, how in quick.rows(
            "select coin, when_ms, device, place, how from seen where round = ? order by coin, fact", round_id)
    ]  # fmt: skip
    seen = set(union(scans))
    found = coins(show, seen, names)
    unknown = seen - found.keys()
    blanks = frozenset(key for (key,) in _in("select id from blank where id in ({})", unknown))
    asked = Asked(round_id, show or "", day, clock, blanks, settled())
    return reconcile(found, scans, asked)


def settled() -> dict[str, str]:
    """key → the last words by which a difference was explained."""
    return dict(quick.rows("select key, note from settled order by seq"))


def _in(sql: str, keys: Iterable[str], *more) -> Iterator[tuple]:
    keys = sorted(keys)
    for start in range(0, len(keys), PART):
        part = keys[start : start + PART]
        yield from quick.rows(sql.format(", ".join("?" * len(part))), *part, *more)


def coins(show: str | None, seen: set[str], names: dict[str, str]) -> dict[str, Coin]:
    """What is or was due, and every scanned coin that the book knows."""
    came = _came(show, names) if show else {}
    if show:
        rows = _in('select id, state, "left", theirs, place from coin where id in ({})', seen | came.keys())
    else:
        rows = quick.rows('select id, state, "left", theirs, place from coin')
    standing, gone = {}, []
    for key, state, left, theirs, place in rows:
        here = left > 0 and (state in WITH_US or (theirs and state in LENT_TO_US))
        if show or here or key in seen:
            standing[key] = (state, place)
            gone += [] if here else [key]
    left_by = _left(gone, show, names)
    absent = [key for key in standing if key not in seen]
    undone, twice = _undone(absent, names), _contested()
    found = {}
    for key, (state, place) in standing.items():
        went = Went(HOW.get(state, "sent"), state, left_by[key]) if key in left_by else None
        how, entered, box = came.get(key, ("" if show or went else "in the book", None, place))
        found[key] = Coin(key, how, entered, box, went, undone.get(key), key in twice)
    return found


_PACKED = (
    "select p.coin, f.id, f.when_ms, f.device, p.box from packed p join fact f on f.seq = p.seq where p.show = ?"
)
_BOUGHT = (
    "select b.coin, f.id, f.when_ms, f.device, p.how from bought b join purchase p on p.fact = b.purchase "
    "join fact f on f.id = p.fact where p.show = ? order by p.day, p.at"
)


def _came(show: str, names: dict[str, str]) -> dict[str, tuple[str, Entered, str]]:
    """coin → (how, entry, box) of those that were packed for a show, bought or traded in there."""
    found = {coin: ("packed", Entered(fact, when, names.get(device, BEFORE)), box) for coin, fact, when, device, box in quick.rows(_PACKED, show)}
    for coin, fact, when, device, how in quick.rows(_BOUGHT, show):
        box = found[coin][2] if coin in found else ""
        found[coin] = ("traded in" if how == "trade" else "bought", Entered(fact, when, names.get(device, BEFORE)), box)
    return found


_LEFT = (
    "select m.coin, m.fact, f.when_ms, f.device, coalesce(d.date, s.date), coalesce(d.show, s.show), "
    "(select count(*) from move n where n.fact = m.fact) from move m join fact f on f.id = m.fact "
    "left join deal d on d.fact = m.fact left join sale s on s.fact = m.fact and s.coin = m.coin "
    "where m.coin in ({}) and m.live = ? and m.step in ('out', 'off', 'lost', 'back', 'theirs') order by m.seq, m.fact"
)


def _left(gone: list[str], show: str | None, names: dict[str, str]) -> dict[str, Entered]:
    """coin → the entry by which it is gone. What left after a show was closed, and not there, was still there."""
    closed = floor_cards.closed(show) if show else ""
    found = {}
    for coin, fact, when, device, day, at, many in _in(_LEFT, gone, True):
        found[coin] = (Entered(fact, when, names.get(device, BEFORE), many > 1), bool(closed and at != show and day > closed))
    return {coin: entry for coin, (entry, after) in found.items() if not after}


_UNDONE = (
    "select a.coin, f.id, u.when_ms, u.device from about a join fact f on f.id = a.fact join voided v on v.fact = f.id "
    "join fact u on u.id = v.\"by\" where a.coin in ({}) and f.kind in ('sale', 'ticket') order by u.seq"
)


def _undone(keys: list[str], names: dict[str, str]) -> dict[str, Entered]:
    """coin → when and by whom its last undone sale was undone."""
    if not quick.there("select 1 from voided limit 1"):
        return {}
    return {coin: Entered(fact, when, names.get(device, BEFORE)) for coin, fact, when, device in _in(_UNDONE, keys)}


def _contested() -> set[str]:
    """Coins whose label waits to be another coin's, too."""
    rows = quick.rows("select subject from look where kind = ? and open = ?", "label_used_twice", True)
    return {subject.partition("/")[2] for (subject,) in rows}
