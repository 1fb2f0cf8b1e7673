"""Figures and dates of the law, as data: rules.toml has each with its source and the year it was looked at."""

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files

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
    says: str  # a sentence
    source: str
    year: int  # the tax year for which it was looked at
    seen: str  # "read" in the source or a restatement of it, or from "memory"


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
    return [f"{rule.says} ({rule.source}; looked at for {rule.year}.)" for rule in map(all().__getitem__, keys)]
