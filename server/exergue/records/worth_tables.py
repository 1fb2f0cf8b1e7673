"""The estimates as small tables for the owner's phones: a type's usual issue, and each issue that has sales or coins.

A phone keeps them beside its cards and reads them with no network. They are no cards: see DEVELOPERS.md.
"""

import hashlib
from collections.abc import Callable
from datetime import date
from threading import Lock

from ..money.sales import Target
from . import journal, planning, reading, worth
from .tables import Coin, dumps

FORMAT = 1
MOST_TABLES = 600  # beyond it an issue without a coin in the book is read from its type's usual one
_lock = Lock()
_held: tuple = (None, None, ("", ""))
_seen: tuple | None = None  # the book's last entry and the day of which that is known to hold
_rows_held: tuple[object, dict[Target, list[list]]] = (None, {})  # a market, and its rows as they were asked for


def key(target: Target) -> str:
    """An issue's name in a type's tables: “1806//”, “1901/S/RB”, “//” the usual one; a problem coin's ends in “!”."""
    year = "" if target.year is None else target.year
    return f"{year}/{target.mint}/{target.designation}{'!' if target.problem else ''}"


def text(settings: dict, today: date) -> tuple[str, str]:
    """(JSON text, its tag). Made once for as long as the market, and what the book has, stay the same.

    {format, made (day), types {type: {sales, first, last, issues [date and mint…] (those with sales, most first),
    tables {key: [[grade, low, mid, high, sales, newest]…]}, melt {year: cents}}}, ceilings {want: {cents, lines, why}}}. Cents.
    Whatever a plan of the wants or of a set may ask a price of (planning.targets) has its table.
    """
    global _held, _seen
    with _lock:
        market = worth.market(settings, today)
        glance = (journal.meta("book"), journal.meta("seq"), today, dumps(settings["worth"]))
        if _held[0] is market and _seen == glance:
            return _held[2]
        coins = _coins()
        wants, sets = reading.wants(), [{"id": one["id"], "slots": one["slots"]} for one in reading.goals()]
        mark = dumps([coins, wants, sets, glance[-1]])
        if _held[0] is not market or _held[1] != mark:
            said = dumps(_all(market, coins, wants, sets, settings, today))
            _held = (market, mark, (said, hashlib.sha256(said.encode()).hexdigest()[:20]))
        _seen = glance
        return _held[2]


def _coins() -> list[tuple]:
    """What the book has that an estimate may be asked of: (type, year, mint, grade), each once."""
    query = Coin.select(Coin.type, Coin.year, Coin.mint, Coin.grade).where(Coin.type != "", Coin.left > 0).distinct()
    return sorted(query.tuples(), key=str)


def _all(market, coins, wants, sets, settings, today) -> dict:
    asked: dict[str, dict[str, Target]] = {}
    melts: dict[str, dict[str, int]] = {}
    for type_, year, mint, grade in coins:
        target = Target(type_, year, mint or "", *worth.group(grade))
        asked.setdefault(type_, {})[key(target)] = target
        if bare := worth.melt_of(type_, year, settings):
            melts.setdefault(type_, {})["" if year is None else str(year)] = bare.cents
    days: dict[str, list] = {}
    for sale in market.sales:
        days.setdefault(sale.type, []).append(sale.date.isoformat())
        usual = Target(sale.type, None, "", *sale.group)
        asked.setdefault(sale.type, {})[key(usual)] = usual
        asked[sale.type].setdefault(key(Target(sale.type)), Target(sale.type))
    count = sum(map(len, asked.values()))
    for sale in sorted(market.sales, key=lambda sale: sale.date, reverse=True):
        target = Target(sale.type, sale.year, sale.mint, *sale.group)
        if count < MOST_TABLES and key(target) not in asked[sale.type]:
            asked[sale.type][key(target)] = target
            count += 1
    issues = planning.issues(market.sales)
    for target in planning.all_targets(issues, wants, sets):
        asked.setdefault(target.type, {})[key(target)] = target
    types, rows_of = {}, _reading(market, settings, today)
    for type_ in sorted(asked):
        seen = days.get(type_, [])
        tables = {name: rows for name, target in sorted(asked[type_].items()) if seen and (rows := rows_of(target))}
        if tables or type_ in melts:
            types[type_] = {"sales": len(seen), "first": min(seen, default=""), "last": max(seen, default=""),
                            "issues": [planning.named(*issue) for issue in issues.get(type_, [])],
                            "tables": tables, "melt": melts.get(type_, {})}  # fmt: skip
    ceilings = {want["id"]: {"cents": said.cents, "lines": said.lines, "why": said.why}
                for want in wants if (said := worth.ceiling(want, settings, today))}  # fmt: skip
    return {"format": FORMAT, "made": today.isoformat(), "types": types, "ceilings": ceilings}


def _reading(market, settings: dict, today: date) -> Callable[[Target], list[list]]:
    """What says [grade, low, mid, high, sales, day of the newest] of each grade of a target that something can be said of; each worked
    out once a market."""
    global _rows_held
    if _rows_held[0] is not market:
        _rows_held = (market, {})
    known, ask = _rows_held[1], worth.asking(settings, today)

    def rows(target: Target) -> list[list]:
        if target not in known:
            said = ask(target).rows
            known[target] = [[row.grade, row.low, row.mid, row.high, row.sales, row.last.isoformat()] for row in said if row.mid is not None]
        return known[target]

    return rows
