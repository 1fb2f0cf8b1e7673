"""The catalogue that this book knows: the built-in types and the owner's own."""

from pathlib import Path

from ..coins import catalogue as coins_catalogue
from .verdicts import Refused

_current = None


def use(folder: Path | None) -> None:
    """Load the catalogue with the owner's files in `folder`, if there are any."""
    global _current
    _current = coins_catalogue.load(folder if folder and folder.is_dir() else None)


def catalogue():
    if _current is None:
        use(None)
    return _current


def denomination_name(key: str) -> str:
    known = catalogue().denominations.get(key)
    return known.name if known else key


def type_name(key: str) -> str:
    return catalogue().types[key].name if key in catalogue().types else ""


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
