"""Figures and dates of the law, as data: rules.toml has each with its source and the year it was looked at."""

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files

from .cents import show

TAX_CAUTION = (
    "Not tax advice. These figures follow from what this book holds and from U.S. federal rules as of the years named"
    " in it; your state's rules may differ. Show them to a licensed preparer before you file."
)


@dataclass(frozen=True)
class Rule:
    """One figure of the law; `value` in `unit` (percent, cents, days, hours, years, date, month-day, year, code)."""

    key: str
    value: int | str | date
    unit: str
    says: str  # a sentence with {value} in it
    source: str
    year: int  # the tax year for which it was looked at
    seen: str  # "read" in the source or a restatement of it, or from "memory"

    @property
    def sentence(self) -> str:
        """What it says, with its figure."""
        return self.says.format(value=self._figure())

    def _figure(self) -> str:
        if self.unit == "cents":
            return show(self.value, "USD").removesuffix(".00")
        if self.unit == "percent":
            return f"{self.value} %"
        if self.unit in ("days", "hours", "years"):
            return f"{self.value} {self.unit[:-1] if self.value == 1 else self.unit}"
        if self.unit == "month-day":
            month, day = map(int, self.value.split("-"))
            return f"{day} {date(2000, month, day):%B}"
        return str(self.value)


@lru_cache(maxsize=1)
def all() -> dict[str, Rule]:
    """Every rule by its key, in the order written."""
    raw = tomllib.loads(files(__package__).joinpath("rules.toml").read_text("utf-8"))
    return {key: Rule(key=key, **fields) for key, fields in raw.items()}


def value(key: str):
    """The figure of one rule, such as value("cash_limit"). Raises KeyError for one that is not there."""
    return all()[key].value


def cited(*keys: str) -> list[str]:
    """A line for each rule that a report rests on: what it says, its source and its year."""
    return [f"{rule.sentence} ({rule.source}; looked at for {rule.year}.)" for rule in map(all().__getitem__, keys)]
