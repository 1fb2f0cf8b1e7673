"""Amounts of money as people type them and read them. Inside, an amount is an integer of minor units.

Minor units by currency: ISO 4217 (from memory).
"""

import re
from typing import NamedTuple

LARGEST = 10**12  # minor units; more than this is a slip of the keyboard


class BadAmount(ValueError):
    """The text is no amount of money; the message says why in one sentence."""


class Currency(NamedTuple):
    code: str
    symbol: str  # as shown before the figure
    digits: int  # decimals of the minor unit
    marks: tuple[str, ...]  # what else people write for it


CURRENCIES = {
    c.code: c
    for c in (
        Currency("USD", "$", 2, ("$", "US$")),
        Currency("CAD", "CA$", 2, ("$", "CA$", "C$", "CAN$")),
        Currency("AUD", "A$", 2, ("$", "A$", "AU$")),
        Currency("NZD", "NZ$", 2, ("$", "NZ$")),
        Currency("GBP", "£", 2, ("£",)),
        Currency("EUR", "€", 2, ("€",)),
        Currency("CHF", "CHF ", 2, ("FR.", "SFR.")),
        Currency("SEK", "SEK ", 2, ("KR",)),
        Currency("NOK", "NOK ", 2, ("KR",)),
        Currency("DKK", "DKK ", 2, ("KR", "KR.")),
        Currency("JPY", "¥", 0, ("¥", "￥")),
    )
}

_MINUS = "-\u2010\u2011\u2012\u2013\u2212"
_MARKS = sorted({m for c in CURRENCIES.values() for m in (*c.marks, c.code)}, key=len, reverse=True)
_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f]+")
_GROUPED = r"\d{{1,3}}(?:{0}\d{{3}})+"
_WHOLE = re.compile(r"\d+|" + "|".join(_GROUPED.format(s) for s in (",", r"\.", " ", "['\u2019]")), re.ASCII)


def currency(code: str) -> Currency:
    """The currency of a code such as "USD". Raises BadAmount for one that is not known."""
    try:
        return CURRENCIES[code.upper()]
    except KeyError:
        raise BadAmount(f"“{code}” is not a currency known here: {', '.join(CURRENCIES)}.") from None


def parse(text: str, code: str = "USD") -> int | None:
    """Minor units in what a person typed: "$1,234.50", "1 234,50", "1200", "(5.00)" (negative); None if blank.

    The last of "," and "." is the decimal mark where both occur; a single mark before exactly three
    digits is a thousands mark if it is a comma, and refused if it is a point. Raises BadAmount.
    """
    unit = currency(code)
    plain = _SPACES.sub(" ", text).strip()
    if not plain:
        return None
    figure, negative = _strip(plain, unit, text.strip())
    whole, decimals = _divide(figure, unit, text.strip())
    if decimals[unit.digits :].strip("0"):
        if unit.digits:
            raise BadAmount(f"“{text.strip()}” has more than {unit.digits} decimals.")
        raise BadAmount(f"“{text.strip()}” has decimals, and {unit.code} has none.")
    amount = int(whole + decimals[: unit.digits].ljust(unit.digits, "0"))
    if amount > LARGEST:
        raise BadAmount(f"“{text.strip()}” is too large to be meant.")
    return -amount if negative else amount


def _strip(plain: str, unit: Currency, said: str) -> tuple[str, bool]:
    """The bare figure, and whether it is negative."""
    negative = plain.startswith("(") and plain.endswith(")")
    figure = plain[1:-1].strip() if negative else plain
    for _ in range(2):  # the sign stands before or after the currency mark
        if figure[:1] in _MINUS and figure[:1]:
            figure, negative = figure[1:].strip(), True
        elif figure[-1:] in _MINUS and figure[-1:]:
            figure, negative = figure[:-1].strip(), True
        elif figure.startswith("+"):
            figure = figure[1:].strip()
        figure = _unmark(figure, unit, said)
    return figure, negative


def _unmark(figure: str, unit: Currency, said: str) -> str:
    upper = figure.upper()
    for mark in _MARKS:
        if upper.startswith(mark) or upper.endswith(mark):
            if mark != unit.code and mark not in unit.marks:
                raise BadAmount(f"“{said}” is marked {mark}, and this book is kept in {unit.code}.")
            cut = figure[len(mark) :] if upper.startswith(mark) else figure[: -len(mark)]
            return cut.strip()
    return figure


def _divide(figure: str, unit: Currency, said: str) -> tuple[str, str]:
    """Whole digits and decimal digits."""
    wrong = BadAmount(f"“{said}” is not an amount; write it like {'1234.50' if unit.digits else '1234'}.")
    mark = max(figure.rfind(","), figure.rfind("."))
    whole, decimals = figure, ""
    if mark >= 0:
        sign, tail = figure[mark], figure[mark + 1 :]
        other = "." if sign == "," else ","
        grouped = len(tail) == 3 and other not in figure
        if grouped and sign == "." and figure.count(".") == 1 and unit.digits:
            raise BadAmount(f"“{said}” could be read two ways; write it like 1234.00.")
        if not grouped:
            whole, decimals = figure[:mark], tail
            if sign in whole:
                raise wrong
    if not whole and decimals:
        whole = "0"
    if not _WHOLE.fullmatch(whole) or (decimals and not (decimals.isascii() and decimals.isdigit())):
        raise wrong
    return re.sub(r"\D", "", whole), decimals


def show(amount: int | None, code: str = "USD") -> str:
    """The amount as people read it: "$1,234.50", "−$5.00"; "" for None."""
    if amount is None:
        return ""
    unit = currency(code)
    sign = "\u2212" if amount < 0 else ""
    whole, rest = divmod(abs(amount), 10**unit.digits)
    tail = f".{rest:0{unit.digits}d}" if unit.digits else ""
    return f"{sign}{unit.symbol}{whole:,}{tail}"


def plain(amount: int | None, code: str = "USD") -> str:
    """The amount as a bare number for files and form fields: "1234.50", "-5.00"; "" for None."""
    if amount is None:
        return ""
    digits = currency(code).digits
    whole, rest = divmod(abs(amount), 10**digits)
    return f"{'-' if amount < 0 else ''}{whole}" + (f".{rest:0{digits}d}" if digits else "")
