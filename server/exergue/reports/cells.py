"""What stands in a cell, for people and for files."""

import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from ..money import cents
from ..money.margin import percent
from . import model
from .formulas import guard

MINUS = "\u2212"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?", re.ASCII)
ALIGNED = (model.MONEY, model.INT, model.PERCENT, model.WEIGHT)  # on their decimal mark


def shown(value: Any, kind: str, currency: str) -> str:
    """A value as it is printed: money without its sign of currency, a date as 2026-11-28, a true minus."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value.replace("-", MINUS) if kind in ALIGNED and _NUMBER.fullmatch(value) else value
    if kind == model.MONEY:
        digits = cents.currency(currency).digits
        whole, rest = divmod(abs(value), 10**digits)
        return f"{MINUS if value < 0 else ''}{whole:,}" + (f".{rest:0{digits}d}" if digits else "")
    if kind == model.DATE and isinstance(value, date):
        return value.isoformat()
    if kind == model.INT:
        return f"{value:,}".replace("-", MINUS)
    if kind == model.PERCENT:
        return percent(Fraction(value)).replace("-", MINUS)
    if kind == model.WEIGHT:
        return f"{Decimal(value):f}".replace("-", MINUS)
    return str(value)


def filed(value: Any, kind: str, currency: str) -> Any:
    """A value for a CSV file: a bare number, or a text that no spreadsheet runs as a formula."""
    if value is None:
        return ""
    if isinstance(value, str):
        return Decimal(value) if kind in ALIGNED and _NUMBER.fullmatch(value) else guard(value)
    if kind == model.MONEY:
        return Decimal(cents.plain(value, currency))
    if kind == model.PERCENT:
        return Decimal(percent(Fraction(value)))
    if kind == model.INT:
        return int(value)
    if kind == model.WEIGHT:
        return Decimal(value)
    return guard(value.isoformat() if isinstance(value, date) else str(value))
