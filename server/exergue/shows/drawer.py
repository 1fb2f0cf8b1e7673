"""The cash drawer, counted by denomination, against what should be in it: float + receipts − payments − expenses. Pure.

Denominations of a currency are data, cash.toml, with its sources. A currency without an entry has none: they are given freely.
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True)
class Denomination:
    """`cents`: minor units; `kind`: coin or note."""

    cents: int
    kind: str


@dataclass(frozen=True)
class Compared:
    """Minor units; `off` = counted − expected."""

    expected: int
    counted: int

    @property
    def off(self) -> int:
        return self.counted - self.expected

    @property
    def says(self) -> str:
        return "over" if self.off > 0 else "short" if self.off < 0 else "agrees"


@cache
def _data() -> dict:
    return tomllib.loads(files(__package__).joinpath("cash.toml").read_text("utf-8"))


def denominations(currency: str) -> list[Denomination]:
    """Coins and notes of a currency (ISO 4217), the smallest first; none where the data has none."""
    found = _data().get(currency, {})
    return [Denomination(cents, kind) for kind in ("coin", "note") for cents in found.get(f"{kind}s", [])]


def table() -> dict[str, dict[str, list[int]]]:
    """currency → {coins, notes}: what one of each is worth in minor units."""
    return _data()


def counted(pieces: Iterable[Mapping]) -> int:
    """Minor units of rows {cents, number}."""
    return sum(row["cents"] * row["number"] for row in pieces)
