"""The estimates as small tables for the owner's phones: a type's usual issue, and each issue that has sales or coins.

A phone keeps them beside its cards and reads them with no network. They are no cards: see DEVELOPERS.md.
"""

import hashlib
from datetime import date
from threading import Lock

from ..money.sales import Estimate, Target
from . import reading, worth
from .tables import Coin, dumps

FORMAT = 1
MOST_TABLES = 600  # beyond it an issue without a coin in the book is read from its type's usual one
_lock = Lock()
_held: tuple = (None, None, ("", ""))


def key(target: Target) -> str:
    """An issue's name in a type's tables: “1806//”, “1901/S/RB”, “//” the usual one; a problem coin's ends in “!”."""
    year = "" if target.year is None else target.year
    return f"{year}/{target.mint}/{target.designation}{'!' if target.problem else ''}"


def text(settings: dict, today: date) -> tuple[str, str]:
    """(JSON text, its tag). Made once for as long as the market, and what the book has, stay the same.

    {format, made (day), types {type: {sales, first, last, tables {key: [[grade, low, mid, high, sales, newest]…]},
    melt {year: cents}}}, ceilings {want: {cents, lines, why}}}. Cents.
    """
    global _held
    with _lock:
        market = worth.market(settings, today)
        coins = _coins()
        wants = reading.wants()
        mark = dumps([coins, wants, settings["worth"]])
        if _held[0] is not market or _held[1] != mark:
            said = dumps(_all(market, coins, wants, settings, today))
            _held = (market, mark, (said, hashlib.sha256(said.encode()).hexdigest()[:20]))
        return _held[2]


def _coins() -> list[tuple]:
    """What the book has that an estimate may be asked of: (type, year, mint, grade), each once."""
    query = Coin.select(Coin.type, Coin.year, Coin.mint, Coin.grade).where(Coin.type != "", Coin.left > 0).distinct()
    return sorted(query.tuples(), key=str)


def _all(market, coins, wants, settings, today) -> dict:
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
    types, ask = {}, worth.asking(settings, today)
    for type_ in sorted(asked):
        seen = days.get(type_, [])
        tables = {name: rows for name, target in sorted(asked[type_].items()) if seen and (rows := _rows(ask(target)))}
        if tables or type_ in melts:
            types[type_] = {"sales": len(seen), "first": min(seen, default=""), "last": max(seen, default=""),
                            "tables": tables, "melt": melts.get(type_, {})}  # fmt: skip
    ceilings = {want["id"]: {"cents": said.cents, "lines": said.lines, "why": said.why}
                for want in wants if (said := worth.ceiling(want, settings, today))}  # fmt: skip
    return {"format": FORMAT, "made": today.isoformat(), "types": types, "ceilings": ceilings}


def _rows(estimate: Estimate) -> list[list]:
    """[grade, low, mid, high, sales, day of the newest] of each grade that something can be said of."""
    return [[row.grade, row.low, row.mid, row.high, row.sales, row.last.isoformat()] for row in estimate.rows if row.mid is not None]
