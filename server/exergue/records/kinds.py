"""The kinds of fact and what each may hold: kinds.toml, and the check of a body against it."""

import re
import tomllib
from datetime import date
from decimal import Decimal
from functools import cache
from importlib.resources import files

from ..coins import grades
from ..labels import ids
from . import settings
from .tables import dumps
from .uuid7 import is_uuid
from .verdicts import Refused

PARAGRAPH = 500  # characters from which a text may have several lines
MAX_CENTS = 10**12  # ten thousand million dollars: beyond it is a slip of the keys
MAX_PIECES = 100_000
MOST_SLOTS = 250  # of a set: an edit that holds them twice still goes into one entry
_DECIMAL = re.compile(r"\d{1,7}(\.\d{1,10})?", re.ASCII)
_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
_DIGEST = re.compile(r"[0-9a-f]{64}")


@cache
def spec() -> dict:
    """The table of kinds.toml; also served to the phone."""
    return tomllib.loads(files(__package__).joinpath("kinds.toml").read_text("utf-8"))


def known(kind: str) -> bool:
    return kind in spec()["kind"]


def fields_of(table: str) -> dict[str, str]:
    """Field names and types of `coin`, `want`, `show`, `sale_seen` or `setting`."""
    return spec()["fields"][table]


def check(kind: str, body) -> None:
    """Raise Refused with a sentence that names the field, unless `body` fits its kind."""
    _table(spec()["kind"][kind], body, "")
    if kind == "setting":
        check_setting(body["key"], body["value"])


def check_setting(key: str, value) -> None:
    """Raise Refused with a sentence, unless `value` may stand under this key."""
    _value(fields_of("setting")[key], value, key)


def _bad(where: str, what: str) -> Refused:
    return Refused("bad_body", f"{where or 'The entry'} {what}.")


def _table(want: dict[str, str], body, where: str) -> None:
    if not isinstance(body, dict):
        raise _bad(where, "is not a table of fields")
    for name in body:
        if name not in want:
            raise _bad(f"{where}{name}", "is not a field of this kind of entry")
    for name, rule in want.items():
        if body.get(name) is None:
            if rule.endswith("!"):
                raise _bad(f"{where}{name}", "is missing")
        else:
            _value(rule.removesuffix("!"), body[name], f"{where}{name}")


def _value(rule: str, value, where: str) -> None:
    name, _, detail = rule.partition(":")
    if name in spec()["fields"]:
        return _table(fields_of(name), value, f"{where}.")
    _CHECKS[name](value, detail, where)


def _text(value, detail, where):
    if not isinstance(value, str):
        raise _bad(where, "is not text")
    if len(value) > int(detail):
        raise _bad(where, f"is longer than {detail} characters")
    lines = "\n\t" if int(detail) >= PARAGRAPH else ""  # a mint mark or a place is one line
    if any(ord(c) < 32 and c not in lines for c in value):
        raise _bad(where, "holds a control character")


def _int(value, detail, where):
    if type(value) is not int or abs(value) > MAX_CENTS:
        raise _bad(where, "is not a whole number")
    if detail:
        least, most = map(int, detail.split(":"))
        if not least <= value <= most:
            raise _bad(where, f"is not between {least} and {most}")


def _cents(value, detail, where):
    if type(value) is not int or not 0 <= value <= MAX_CENTS:
        raise _bad(where, "is not an amount of money")


def _date(value, detail, where):
    try:
        if not _DAY.fullmatch(value):  # fromisoformat takes weeks, too
            raise ValueError
        date.fromisoformat(value)
    except (TypeError, ValueError):
        raise _bad(where, "is not a date such as 2026-03-14") from None


def _id(value, detail, where):
    try:
        if ids.parse(value) != value:
            raise _bad(where, "is not a coin ID as it is kept")
    except (AttributeError, ids.BadLabel):
        raise _bad(where, "is not a coin ID") from None


def _uuid(value, detail, where):
    if not is_uuid(value):
        raise _bad(where, "is not a UUID")


def _digest(value, detail, where):
    if not isinstance(value, str) or not _DIGEST.fullmatch(value):
        raise _bad(where, "is not a SHA-256")


def _flag(value, detail, where):
    if not isinstance(value, bool):
        raise _bad(where, "is not true or false")


def _one(value, detail, where):
    if value not in detail.split("|"):
        raise _bad(where, f"is not one of {', '.join(filter(None, detail.split('|')))}")


def _some(value, detail, where):
    if not isinstance(value, list) or len(set(map(str, value))) != len(value):
        raise _bad(where, "is not a list of different words")
    for word in value:
        _one(word, detail, where)


def _grade(value, detail, where):
    if not isinstance(value, str):
        raise _bad(where, "is not a grade")
    if value:
        try:
            grades.parse(value)
        except grades.BadGrade as problem:
            raise Refused("bad_grade", str(problem)) from None


def _list(value, where, most):
    if not isinstance(value, list) or len(value) > most:
        raise _bad(where, f"is not a list of at most {most}")


def _rows(value, detail, where):
    """Tables under [rows.NAME]. A list of coins names at least one, and none twice."""
    fields = spec()["rows"][detail]
    _list(value, where, 500 if "coin" in fields else MOST_SLOTS if "key" in fields else 20)
    if not value and "coin" in fields:
        raise _bad(where, "names no coin")
    for row in value:
        _table(fields, row, f"{where}.")
        if (row.get("weight") or 0) < 0:
            raise _bad(f"{where}.weight", "is below 0")
    if "coin" in fields:
        _once([row["coin"] for row in value], where)
    if "key" in fields and len({row["key"] for row in value}) != len(value):
        raise _bad(where, "names a key twice")


def _once(coins: list[str], where) -> None:
    if len(set(coins)) != len(coins):
        raise _bad(where, "names a coin twice")


def _coins(value, detail, where):
    _list(value, where, 500)
    if not value:
        raise _bad(where, "names no coin")
    for item in value:
        _id(item, "", where)
    _once(value, where)


def _texts(value, detail, where):
    _list(value, where, 100)
    for item in value:
        _text(item, detail, where)


def _pieces(value, detail, where):
    if type(value) is not int or not 1 <= value <= MAX_PIECES:
        raise _bad(where, f"is not a number of pieces from 1 to {MAX_PIECES:,}")


def _decimal(value, detail, where):
    if not isinstance(value, str) or not _DECIMAL.fullmatch(value) or not 0 <= Decimal(value) <= int(detail):
        raise _bad(where, f"is not a number such as 8.25, as text and at most {int(detail):,}")


def _ids(value, detail, where):
    _list(value, where, 5000)
    for item in value:
        _id(item, "", where)


def _setting(rule: str):
    def check(value, detail, where):
        _text(value, "120", where)
        try:
            settings.CHECKS[rule](value)
        except settings.BadSetting as problem:
            raise Refused("bad_setting", str(problem)) from None

    return check


def _json(value, detail, where):
    if len(dumps(value)) > 10_000:
        raise _bad(where, "is too long")


def _spot(value, detail, where):
    if not isinstance(value, dict) or len(value) > 20:
        raise _bad(where, "is not a table of metals")
    for metal, row in value.items():
        _text(metal, "24", where)
        _table({"cents": "cents!", "date": "date!"}, row, f"{where}.{metal}.")


_POINTS = ("low", "mid", "high")  # of an estimate


def _measures(value, detail, where):
    if not isinstance(value, dict) or len(value) > 20:
        raise _bad(where, "is not a table of figures")
    for name, one in value.items():
        _text(name, "40", where)
        if isinstance(one, dict) and not detail:
            _measures(one, "inner", f"{where}.{name}")
        elif one in _POINTS or isinstance(one, bool):
            continue
        elif isinstance(one, str):
            _decimal(one, str(MAX_CENTS), f"{where}.{name}")
        else:
            _int(one, "", f"{where}.{name}")


_CHECKS = {
    "text": _text, "texts": _texts, "int": _int, "cents": _cents, "date": _date, "id": _id, "uuid": _uuid, "digest": _digest,
    "flag": _flag, "one": _one, "some": _some, "grade": _grade, "rows": _rows, "coins": _coins,
    "ids": _ids, "pieces": _pieces, "decimal": _decimal, "spot": _spot, "measures": _measures, "value": _json, **{rule: _setting(rule) for rule in settings.CHECKS},
}  # fmt: skip
