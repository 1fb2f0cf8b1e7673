"""What was paid and received at a show, entry by entry, as it stands: what clashes or was undone is no part of it."""

import json
from collections import defaultdict
from typing import NamedTuple

from . import quick


class Paid(NamedTuple):
    """One amount of one entry: cents above zero came in, below went out; `how` is "" where nobody told."""

    fact: str
    kind: str  # sale, ticket, trade, return, purchase, or what money.what says
    date: str
    how: str
    cents: int
    about: str = ""


_SALES = "select fact, price, payment, date, party, live from sale where show = ? order by fact, coin"
_DEALS = "select fact, kind, how, way, date, party, cents, tax, payments, about from deal where show = ? order by fact"
_PURCHASES = (
    "select fact, date, party, payment, payments, total from purchase where show = ? and how = ? order by fact"
)


def paid(show: str, last: str = "") -> list[Paid]:
    """Every amount of the show. A return after its `last` day (its show is the sale's) is no part of it."""
    lines = defaultdict(list)
    for fact, *line in quick.rows(_SALES, show):
        lines[fact].append(line)
    found = []
    for row in quick.rows(_DEALS, show):
        fact, kind, how, way, date, party, cents, tax, payments, about = row
        ways = json.loads(payments)
        if kind == "ticket":
            found += _ticket(fact, date, party, lines.pop(fact, []), cents, tax, ways)
        elif kind == "money":
            found += _money(fact, how, way, date, cents, ways, about)
        elif kind == "trade":
            found += _signed(fact, kind, date, party, cents, ways)
        elif kind == "return" and not (last and date > last):
            found += _signed(fact, kind, date, party, -(cents + _tax(tax)), ways)
    for fact, rows in lines.items():
        for price, payment, date, party, live in rows:
            found += [Paid(fact, "sale", date, payment or "", price, party)] if live else []
    for fact, date, party, payment, payments, total in quick.rows(_PURCHASES, show, "purchase"):
        found += _signed(fact, "purchase", date, party, -total, json.loads(payments), payment or "")
    return found


def _signed(fact, kind, date, party, cents, ways, how="") -> list[Paid]:
    sign = -1 if cents < 0 else 1
    if ways:
        return [Paid(fact, kind, date, one["how"], sign * one["cents"], party) for one in ways]
    return [Paid(fact, kind, date, how, cents, party)] if cents else []


def _ticket(fact, date, party, lines, price, tax, ways) -> list[Paid]:
    standing = [line for line in lines if line[4]]
    if len(standing) == len(lines):
        return _signed(fact, "ticket", date, party, price + _tax(tax), ways)
    how = standing[0][1] or "" if standing else ""
    return _signed(fact, "ticket", date, party, sum(line[0] for line in standing), [], how)


def _tax(tax: str | None) -> int:
    return json.loads(tax)["cents"] if tax else 0


INWARD = ("income", "owner_in")


def _money(fact, what, way, date, cents, ways, about) -> list[Paid]:
    sign = 1 if what in INWARD else -1
    out = [Paid(fact, what, date, one["how"], sign * one["cents"], about) for one in ways]
    return [*out, Paid(fact, what, date, way, cents, about)] if what == "transfer" else out


def cash(rows: list[Paid]) -> int:
    return sum(row.cents for row in rows if row.how == "cash")


def spent(rows: list[Paid]) -> int:
    """What went out for coins: purchases, and boot paid in trades; however it was paid."""
    return -sum(row.cents for row in rows if row.kind in ("purchase", "trade") and row.cents < 0)


def drawer(show: str) -> dict | None:
    """{fact, date, cents, pieces} of the last count of the drawer."""
    found = quick.row("select fact, date, cents, pieces from drawer where show = ? order by seq desc limit 1", show)
    return dict(zip(("fact", "date", "cents"), found, strict=False)) | {"pieces": json.loads(found[3])} if found else None

