"""Small made-up markets for tests of what a coin is worth. Prices in cents."""

import math
import random
from datetime import date, timedelta

from exergue.money.evidence import Market, Settings
from exergue.money.rungs import PLACE
from exergue.money.sales import Sale, Target

TODAY = date(2026, 6, 30)


def sale(cents, grade, *, days=0, year=1853, type="seated", **more) -> Sale:
    return Sale(TODAY - timedelta(days=days), cents, type, grade, year, **more)


def usual(grade, level=5000) -> float:
    """The true price of a made-up type: 14 % more each rung."""
    return level * math.exp(0.13 * (PLACE[grade] - PLACE[12]))


def many(rng: random.Random, count=24, spread=0.10, grades=(8, 10, 12, 15, 20, 25, 30, 35, 40), level=5000, **more):
    """Sales of one type about `usual`."""
    drawn = rng.choices(grades, k=count)
    return [sale(round(usual(grade, level) * math.exp(rng.gauss(0, spread))), grade, **more) for grade in drawn]


def table(sales, *, year=1853, type="seated", settings=None, melt=None, **more):
    market = Market(sales, TODAY, settings or Settings(), melt=lambda *_: melt)
    return market.table(Target(type, year, **more))


def known(estimate):
    """The rows that say something."""
    return [row for row in estimate.rows if row.mid is not None]
