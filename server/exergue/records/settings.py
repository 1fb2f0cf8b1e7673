"""The settings of a book: what they are before anybody sets them, and the rules that plain kinds of field do not say."""

from urllib.parse import urlsplit

from ..money import cents, costcode

DEFAULTS = {
    "name": "My book", "currency": "USD", "label_address": "", "cost_code": "", "found_line": "", "label_shows": [],
    "lots": "fifo", "held": "stock", "spot": {}, "worth": {},
}  # fmt: skip


class BadSetting(ValueError):
    """The value does not fit; the message says why in one sentence."""


def cost_code(text: str, currency: str = "USD") -> costcode.Code | None:
    """The owner's cost code: ten letters, and an eleventh for “the same digit again” (X without). Raises BadCode."""
    letters = "".join((text or "").split())
    return costcode.Code(letters[:10], letters[10:] or "X", code=currency) if letters else None


def check_cost_code(text: str) -> None:
    try:
        cost_code(text)
    except costcode.BadCode as problem:
        raise BadSetting(str(problem)) from None


def check_currency(code: str) -> None:
    if code not in cents.CURRENCIES:
        raise BadSetting(f"“{code}” is not a currency known here: {', '.join(cents.CURRENCIES)}.")


def check_address(text: str) -> None:
    """A label's address is a site: scheme and host. Raises BadSetting."""
    if text and not _site(text):
        raise BadSetting("A label address reads like https://coins.example, without a path.")


def _site(text: str) -> bool:
    try:
        parts = urlsplit(text)
        return (
            parts.scheme in ("http", "https") and bool(parts.hostname) and not any(c.isspace() for c in text)
            and not (parts.path.strip("/") or parts.query or parts.fragment) and (parts.port or 1) > 0
        )  # fmt: skip
    except ValueError:  # a port that is none, half a bracket
        return False


CHECKS = {"currency": check_currency, "address": check_address, "costcode": check_cost_code}
