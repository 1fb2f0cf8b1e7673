"""What an estimate supposes before it sees sales: the figures of worth.toml, with those that the owner sets himself."""

import tomllib
from dataclasses import dataclass, fields
from fractions import Fraction
from importlib import resources
from math import isfinite

_TABLES = tomllib.loads((resources.files("exergue.money") / "worth.toml").read_text(encoding="utf-8"))
_GIVEN = {key: value for table in _TABLES.values() for key, value in table.items()}
_OWNERS = tuple(_TABLES["owner"])


class BadAssumption(ValueError):
    """A setting of the estimates cannot be used; the message says why in one sentence."""


def _default(key: str):
    value = _GIVEN[key]
    return tuple(value) if isinstance(value, list) else value


@dataclass(frozen=True)
class Settings:
    """See worth.toml for each. Make one with `read` where somebody typed it."""

    half_life_days: float = _default("half_life_days")
    buyers_fee: str = _default("buyers_fee")
    follow_market: bool = _default("follow_market")
    factor_sales: int = _default("factor_sales")
    worn: tuple[float, float, float] = _default("worn")
    mint: tuple[float, float, float] = _default("mint")
    trend: tuple[float, float, float] = _default("trend")
    factor: tuple[float, float] = _default("factor")
    sale: float = _default("sale")
    rung: float = _default("rung")
    slope: float = _default("slope")
    issue: float = _default("issue")
    group: float = _default("group")
    level: float = _default("level")
    near: float = _default("near")
    years: float = _default("years")
    interval: float = _default("interval")
    freedom: float = _default("freedom")
    issue_freedom: float = _default("issue_freedom")
    spread_counts: float = _default("spread_counts")
    learn_counts: float = _default("learn_counts")
    width_counts: float = _default("width_counts")
    learn_types: int = _default("learn_types")
    learn_sales: int = _default("learn_sales")

    @property
    def fee(self) -> Fraction:
        """What a price without the buyer's fee is multiplied by."""
        return 1 + Fraction(self.buyers_fee) / 100


assert {f.name for f in fields(Settings)} == set(_GIVEN), "worth.toml and Settings must name the same figures."


def read(table: dict) -> Settings:
    """Settings from what the owner set, a part of [owner] in worth.toml. Raises BadAssumption."""
    if unknown := sorted(set(table) - set(_OWNERS)):
        raise BadAssumption(f"“{unknown[0]}” is no setting of the estimates; there are {', '.join(_OWNERS)}.")
    said = Settings(**table)
    if not _number(said.half_life_days) or not 30 <= said.half_life_days <= 36500:
        raise BadAssumption("The half-life of a sale is a number of days from 30 to 36500.")
    try:
        fee = Fraction(said.buyers_fee) if isinstance(said.buyers_fee, str) else None
    except (ValueError, ZeroDivisionError):
        fee = None
    if fee is None or not 0 <= fee <= 100:
        raise BadAssumption(f"The buyer's fee is a percent from 0 to 100, such as 20 or 22.5; “{said.buyers_fee}” is not.")
    if type(said.follow_market) is not bool:
        raise BadAssumption("Following the market's trend is on or off.")
    if type(said.factor_sales) is not int or not 1 <= said.factor_sales <= 1000:
        raise BadAssumption("The sales that a factor of a designation needs are a whole number from 1 to 1000.")
    return said


def _number(value) -> bool:
    return type(value) in (int, float) and isfinite(value)
