"""The kinds of fact and what each may hold: kinds.toml, and the check of a body against it."""

import re
import tomllib
from datetime import date
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


def _rows(value, where, most):
    if not isinstance(value, list) or len(value) > most:
        raise _bad(where, f"is not a list of at most {most}")


def _costs(value, detail, where):
    _rows(value, where, 20)
    for row in value:
        _table({"what": "one:" + "|".join(spec()["words"]["costs"]) + "!", "cents": "cents!"}, row, f"{where}.")


def _bought(value, detail, where):
    _rows(value, where, 500)
    if not value:
        raise _bad(where, "names no coin")
    for row in value:
        _table({"coin": "id!", "set": "coin!", "weight": "int"}, row, f"{where}.")
        if row.get("weight") is not None and row["weight"] < 0:
            raise _bad(f"{where}.weight", "is below 0")
    if len({row["coin"] for row in value}) != len(value):
        raise _bad(where, "names a coin twice")


def _ids(value, detail, where):
    _rows(value, where, 5000)
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


_CHECKS = {
    "text": _text, "int": _int, "cents": _cents, "date": _date, "id": _id, "uuid": _uuid, "digest": _digest,
    "flag": _flag, "one": _one, "some": _some, "grade": _grade, "costs": _costs, "bought": _bought,
    "ids": _ids, "value": _json, **{rule: _setting(rule) for rule in settings.CHECKS},
}  # fmt: skip
