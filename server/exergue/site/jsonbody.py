"""The one door for JSON that comes in: an object of sound values, or one clear sentence."""

import json
import math

from flask import request

from ..records.verdicts import JournalError

DEEPEST = 32  # tables and lists within each other; an entry needs six


def asked() -> dict:
    """The request's JSON object. Raises JournalError (bad_request) for what no phone of ours sends.

    Halves of character pairs are looked for in its own texts only: an entry that holds one is refused by its
    verdict, so that the entries after it are not held up.
    """
    try:
        body = parsed(request.get_data()) if request.is_json else None
    except ValueError as problem:
        raise JournalError("bad_request", str(problem)) from None
    if not isinstance(body, dict):
        raise JournalError("bad_request", "The request is not a JSON object.")
    if not all(_whole(text) for pair in body.items() for text in pair if isinstance(text, str)):
        raise JournalError("bad_request", "The request holds half of a character.")
    return body


def parsed(text: str | bytes):
    """The JSON value of `text`. Raises ValueError with a sentence; NaN, 1e999 and very deep nesting are none."""
    try:
        value = json.loads(text, parse_constant=_no_number, parse_float=_number)
    except (ValueError, RecursionError):
        raise ValueError("This is not sound JSON.") from None
    if _deeper(value, DEEPEST):
        raise ValueError(f"This JSON has tables within tables, more than {DEEPEST} deep.")
    return value


def _no_number(text: str):
    raise ValueError(f"{text} is not JSON")


def _number(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise ValueError("too large a number")
    return value


def _deeper(value, most: int) -> bool:
    """Whether lists and tables lie within each other more than `most` deep; one level after the other."""
    level = [value] if isinstance(value, (dict, list)) else []
    for _ in range(most):
        level = [inner for outer in level for inner in (outer.values() if isinstance(outer, dict) else outer)
                 if isinstance(inner, (dict, list))]  # fmt: skip
        if not level:
            return False
    return True


def _whole(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True
