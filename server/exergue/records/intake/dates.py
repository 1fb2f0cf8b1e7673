"""Days as people and spreadsheets write them.

A day such as 03/04/2021 can be read two ways; a whole file is one way or the other, so one clear date
of the file settles it (15/04/2021), and else the owner is asked once.
"""

import re
from datetime import date, timedelta

_MONTHS = {name: n for n, name in enumerate("jan feb mar apr may jun jul aug sep oct nov dec".split(), 1)}
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ][\d:.]+Z?)?")
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})")
_SERIAL = re.compile(r"(\d{5})(?:\.\d+)?")
_NUMBERS = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?: +\d{1,2}:\d\d(?::\d\d)?(?: ?[AP]M)?)?", re.IGNORECASE)
_DAY_MONTH = re.compile(r"(?:[a-z]+, )?(\d{1,2})(?:st|nd|rd|th)?[- ./]?([a-z]{3,9})\.?,?[- ./]?(\d{4}|\d{2})", re.IGNORECASE)
_MONTH_DAY = re.compile(r"(?:[a-z]+, )?([a-z]{3,9})\.?[- ]?(\d{1,2})(?:st|nd|rd|th)?,?[- ]+(\d{4}|\d{2})", re.IGNORECASE)


class BadDate(ValueError):
    """The text is no day; the message says why in one sentence."""


class TwoWays(BadDate):
    """The day can be read day first or month first."""


def parse(text: str, today: date, day_first: bool | None = None) -> str:
    """YYYY-MM-DD. Raises BadDate, and TwoWays where only `day_first` could tell."""
    if match := _ISO.fullmatch(text) or _COMPACT.fullmatch(text):
        return _day(text, int(match[1]), int(match[2]), int(match[3]), today)
    if match := _SERIAL.fullmatch(text):
        day = date(1899, 12, 30) + timedelta(int(match[1]))  # how spreadsheets number days
        return _day(text, day.year, day.month, day.day, today)
    if match := _NUMBERS.fullmatch(text):
        first, second, year = int(match[1]), int(match[3]), _year(match[4], today)
        return _numbers(text, first, second, year, today, True if match[2] == "." else day_first)
    if match := _DAY_MONTH.fullmatch(text):
        return _day(text, _year(match[3], today), _month(match[2], text), int(match[1]), today)
    if match := _MONTH_DAY.fullmatch(text):
        return _day(text, _year(match[3], today), _month(match[1], text), int(match[2]), today)
    if re.fullmatch(r"\d{4}", text):
        raise BadDate(f"“{text}” is a year only; write the day as {text}-05-31.")
    raise BadDate(f"“{text}” is not a day; write it as 2024-05-31.")


def leaning(texts) -> bool | None:
    """Whether the clear ones of these dates are day first (True), month first (False), or neither decides."""
    seen = set()
    for text in texts:
        match = _NUMBERS.fullmatch(text)
        if match and match[2] != ".":
            first, second = int(match[1]), int(match[3])
            if (first > 12) != (second > 12):
                seen.add(first > 12)
    return seen.pop() if len(seen) == 1 else None


def _numbers(text, first, second, year, today, day_first) -> str:
    if first > 12 or second > 12 or first == second:
        day_first = first > 12
    if day_first is None:
        a, b = date(year, second, first), date(year, first, second)
        raise TwoWays(f"“{text}” could be {a.day} {a:%B} or {b.day} {b:%B}; say which way this file goes.")
    return _day(text, year, *((second, first) if day_first else (first, second)), today)


def _year(text: str, today: date) -> int:
    year = int(text)
    if len(text) == 4:
        return year
    return 2000 + year if 2000 + year <= today.year else 1900 + year


def _month(name: str, text: str) -> int:
    try:
        return _MONTHS[name[:3].lower()]
    except KeyError:
        raise BadDate(f"“{text}” is not a day; “{name}” is no month.") from None


def _day(text: str, year: int, month: int, day: int, today: date) -> str:
    try:
        found = date(year, month, day)
    except ValueError:
        raise BadDate(f"“{text}” is not a day of the calendar.") from None
    if not date(1800, 1, 1) <= found <= today + timedelta(3650):
        raise BadDate(f"“{text}” is the year {year}; that cannot be meant.")
    return found.isoformat()
