"""The catalogue that this book knows: the built-in types and the owner's own."""

from pathlib import Path

from ..coins import catalogue as coins_catalogue
from .verdicts import Refused

_folder: Path | None = None
_current = None
_mark = ""


def use(folder: Path | None) -> None:
    """From now on the catalogue is the one with the owner's files in `folder`, read when it is first asked for."""
    global _folder, _current, _mark
    _folder, _current, _mark = folder, None, ""


def catalogue():
    global _current
    if _current is None:
        mark()  # before the files are read: one that changes meanwhile is noticed at the next start
        _current = coins_catalogue.load(_folder)
    return _current


def mark() -> str:
    """Another one means that the catalogue may say something else; see coins.catalogue.mark."""
    global _mark
    _mark = _mark or coins_catalogue.mark(_folder)
    return _mark


def denomination_name(key: str) -> str:
    known = catalogue().denominations.get(key)
    return known.name if known else key


def type_name(key: str) -> str:
    return catalogue().types[key].name if key in catalogue().types else ""


def title(denomination: str, name: str) -> str:
    """The line that says what it is: `Half cent, Draped Bust`."""
    if name and denomination and not name.lower().startswith(denomination.lower()):
        return f"{denomination}, {name}"
    return name or denomination or "Coin not named yet"


def date_text(year: int | None, mint: str) -> str:
    return "no date" if year is None else f"{year}-{mint}" if mint else str(year)


def check_coin(about: dict) -> None:
    """Refused for a denomination or type that nobody knows, and for a date never struck."""
    if about.get("denom") and about["denom"] not in catalogue().denominations:
        raise Refused("unknown_denomination", f"No denomination is called “{about['denom']}”.")
    key = about.get("type")
    if not key:
        return
    if key not in catalogue().types:
        raise Refused("unknown_type", f"The catalogue has no type “{key}”.")
    if about.get("year") is not None:
        never = catalogue().check_date(key, about["year"], about.get("mint") or "")
        if never:
            raise Refused("never_struck", never)
