"""What the book's recorded sales say a coin is worth: one market for all who ask, made anew only when something changed.

Runs inside `book.connected()`. `settings` is what Book.settings() gives, `today` a date. Nothing of it is folded: it
depends on the day, and on floating point. numpy and scipy are loaded by the first question, not by the start.
"""

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from threading import RLock, Thread

from ..coins import grades
from ..coins.ladder import STRIKES
from ..money import assumed, melt, rule
from ..money.evidence import Market
from ..money.sales import Estimate, Picture, Row, Sale, Target
from . import journal, knowledge, quick
from .clock import now_ms

AT_ONCE = 2_000  # sales of which a market is made while somebody waits; a larger one is renewed behind their back
_lock = RLock()  # the market remembers what it worked out; two threads must not do so at once
_held: tuple = ((), (), None)  # what was last looked at, what the market follows from, the market
_made_ms = 0  # when it was made
_renewing: tuple | None = None  # what the market that is being made follows from


@dataclass(frozen=True)
class Worth:
    """`row` of the coin's grade (None: no grade), `melt` of one piece, `floor` of the owner's rule, `picture` of the type.

    Cents are of one piece; `cost` is one piece's share of an all-in cost, None unknown.
    """

    estimate: Estimate
    row: Row | None
    melt: melt.Melt | None
    floor: rule.Answer
    picture: Picture
    cost: int | None


@lru_cache(maxsize=4_096)
def group(grade: str, problem: bool | None = False) -> tuple[str, bool]:
    """What a written grade says beside its number: strike and designations ("PF DCAM", "RB"), and whether it is a problem
    coin. A net grade has the problem in its number already."""
    if not grade:
        return "", bool(problem)
    read = grades.parse(grade)
    strike = [read.prefix] if read.prefix in STRIKES else []
    return " ".join([*strike, *read.marks]), bool(problem) or (read.details and read.net is None)


def assumptions(settings: dict) -> assumed.Settings:
    """What the owner set of how sales are weighed. A setting of before its rule counts as unset."""
    said = {name: value for name, value in settings["worth"].items() if name not in rule.DEFAULT}
    try:
        return assumed.read(said)
    except (assumed.BadAssumption, TypeError):
        return assumed.Settings()


def owners_rule(settings: dict) -> dict:
    """The owner's ceiling and floor, from the parts `ceiling` and `floor` of the setting `worth`."""
    try:
        return rule.read({name: value for name, value in settings["worth"].items() if name in rule.DEFAULT})
    except rule.BadRule:
        return rule.read({})


def spots(settings: dict) -> dict[str, melt.Spot]:
    """Prices of metal that can be used."""
    try:
        return melt.read(settings["spot"])
    except melt.BadSpot:
        return {}


def melt_of(key: str, year: int | None, settings: dict) -> melt.Melt | None:
    """The metal's worth in a coin of this type, None where nothing can be said."""
    found = knowledge.catalogue().types.get(key)
    return melt.of_type(found, spots(settings), year) if found else None


def market(settings: dict, today: date) -> Market:
    """The market of all recorded sales that name a type. Kept while sales, settings, catalogue and day are the same.

    A large one is renewed in the background; until that is done the one before answers, and `age` says of when it is.
    """
    global _held, _made_ms
    with _lock:
        glance = (journal.meta("book"), journal.meta("seq"), knowledge.mark(), today, _text(settings))
        seen, mark, made = _held
        if made is not None and glance == seen:
            return made
        fresh = (glance[0], _sales_mark(), *glance[2:])
        if made is not None and fresh == mark:
            _held = (glance, fresh, made)
            return made
        if made is not None and fresh == _renewing:
            return made
        found = _sales()
        if made is None or mark[0] != fresh[0] or len(found) <= AT_ONCE:
            made = _made(found, settings, today)
            _held, _made_ms = (glance, fresh, made), now_ms()
        elif _renewing is None:
            _renew(fresh, found, settings, today)
        return made


def _renew(fresh: tuple, found: list[Sale], settings: dict, today: date) -> None:
    """Make the market anew in a thread of its own, which reads nothing of the book."""
    global _renewing
    _renewing = fresh

    def work() -> None:
        global _held, _made_ms, _renewing
        try:
            made = _made(found, settings, today)
            with _lock:
                _held, _made_ms = ((), fresh, made), now_ms()
        finally:
            _renewing = None

    Thread(target=work, name="market", daemon=True).start()


def age(settings: dict, today: date) -> int | None:
    """When the market that answers was made (milliseconds since 1970), where it is older than what is recorded; None: it is not."""
    market(settings, today)
    with _lock:
        return _made_ms if _renewing is not None else None


def table(target: Target, settings: dict, today: date) -> Estimate:
    """The estimate of any target."""
    with _lock:
        return market(settings, today).table(target)


def asking(settings: dict, today: date) -> Callable[[Target], Estimate]:
    """What answers many targets in a row, all from one market."""
    known = market(settings, today)

    def ask(target: Target) -> Estimate:
        with _lock:
            return known.table(target)

    return ask


def target_of(card: dict) -> Target:
    """A coin card (or fields of a coin) as what is asked about."""
    designation, problem = group(card["grade"])
    return Target(card["type"], card["year"], card["mint"] or "", designation, problem)


def of_coin(card: dict, settings: dict, today: date) -> Worth:
    """What one piece of this card (the owner's whole card) is worth."""
    target = target_of(card)
    cost = card["own"]["cost"]
    pieces = card.get("pieces") or 1
    cost = cost if cost is None else -(-cost // pieces)
    with _lock:
        known = market(settings, today)
        estimate, picture = known.table(target), known.picture(target)
    row = estimate.at(grades.parse(card["grade"]).number) if card["grade"] else None
    bare = melt_of(card["type"], card["year"], settings)
    floor = rule.floor_of(row or Row(0), cost, bare and bare.cents, owners_rule(settings))
    return Worth(estimate, row, bare, floor, picture, cost)


def of_stock(settings: dict, today: date) -> dict[str, tuple[int, str]]:
    """{coin: (the middle of the estimate for all pieces that are left, cents; on what it rests)} of what can be estimated."""
    found, tables = {}, {}
    if not has_sales():
        return found
    ask = asking(settings, today)
    for coin, type_, year, mint, grade, number, left in quick.rows(_HERE, False):
        target = Target(type_, year, mint or "", *group(grade))
        if target not in tables:
            tables[target] = {row.grade: row for row in ask(target).rows if row.mid is not None}
        row = tables[target].get(number)
        if row is not None:
            sales = "1 sale" if row.sales == 1 else f"{row.sales} sales"
            found[coin] = row.mid * left, f"{sales}, the last {row.last}" if row.last else sales
    return found


_HERE = (
    'select id, type, year, mint, grade, grade_number, "left" from coin '
    "where \"left\" > 0 and theirs = ? and type <> '' and grade <> ''"
)


def of_type(key: str, settings: dict, today: date) -> tuple[Estimate, Picture]:
    """The type's usual issue."""
    with _lock:
        known = market(settings, today)
        return known.table(Target(key)), known.picture(Target(key))


def ceiling(want: dict, settings: dict, today: date) -> rule.Answer | None:
    """The most to pay for a want in its lowest grade. None: no type, or no grade, so there is nothing to ask."""
    if not (want["type"] and want["grade_from"]):
        return None
    years = want["years"] or ""
    about = {"grade": want["grade_from"], "type": want["type"], "year": int(years) if years.isdecimal() else None, "mint": ""}
    row = table(target_of(about), settings, today).at(grades.parse(want["grade_from"]).number)
    return rule.ceiling(row, owners_rule(settings))


def has_sales() -> bool:
    """Whether any sale is recorded that a market can be made of."""
    return quick.there("select 1 from evidence where type <> '' limit 1")


def _sales() -> list[Sale]:
    return [
        Sale(date.fromisoformat(day), cents, key, number or 0, year, mint or "", fee is None or bool(fee), *group(grade, bool(problem)), source or "")
        for day, cents, key, number, year, mint, fee, grade, problem, source in quick.rows(_SALES)
    ]


_SALES = (
    "select date, price, type, grade_number, year, mint, fee_included, grade, problem, source from evidence "
    "where type <> '' order by date, fact"
)


def _made(found: list[Sale], settings: dict, today: date) -> Market:
    def metal(key: str, year: int | None) -> int | None:
        worth = melt_of(key, year, settings)
        return worth and worth.cents

    return Market(found, today, assumptions(settings), metal)


def _sales_mark() -> str:
    """Which recorded sales stand. They are never edited, so their names say all."""
    names = quick.rows("select fact from evidence order by fact")
    return hashlib.sha256("".join(name for (name,) in names).encode()).hexdigest()


def _text(settings: dict) -> str:
    return json.dumps([settings["worth"], settings["spot"]], sort_keys=True)
