"""The owner's sign-in at the desk."""

import secrets
from functools import cache

from werkzeug.security import check_password_hash, generate_password_hash

from .clock import now_ms
from .store import write
from .tables import Owner
from .throttle import TooMany, forgive, spend

MIN_PASSWORD = 8

__all__ = ["BadPassword", "TooMany", "change_password", "check", "create", "exists", "get"]


class BadPassword(ValueError):
    """A password that is not taken; the message says why."""


def exists() -> bool:
    return Owner.select().exists()


def get() -> Owner | None:
    return Owner.select().first()


def _hashed(password: str) -> str:
    if len(password) < MIN_PASSWORD:
        raise BadPassword(f"A password needs at least {MIN_PASSWORD} characters.")
    return generate_password_hash(password)


def create(name: str, password: str) -> Owner:
    """The one owner of the book. Raises BadPassword, or ValueError where there is one."""
    hashed = _hashed(password)
    with write():
        if exists():
            raise ValueError("This book already has an owner.")
        return Owner.create(
            name=name.strip(), password=hashed, session=secrets.token_urlsafe(16), created_ms=now_ms()
        )


def check(name: str, password: str, address: str = "") -> Owner | None:
    """The owner, if name and password fit. Raises TooMany after ten tries in ten minutes from one address."""
    with write():
        spend(f"sign-in/{address}", capacity=10, per_ms=10 * 60_000)
    owner = get()
    fits = check_password_hash(owner.password if owner else _nobodys(), password)
    if not (owner and fits and name.strip().casefold() == owner.name.casefold()):
        return None
    with write():
        forgive(f"sign-in/{address}")
    return owner


def change_password(password: str) -> None:
    """A new password; sign-ins made with the old one end."""
    hashed = _hashed(password)
    with write():
        Owner.update(password=hashed, session=secrets.token_urlsafe(16)).execute()


@cache
def _nobodys() -> str:
    """A hash that no password fits: where there is no owner, a try takes as long. Made when first needed, not at the desk's start."""
    return generate_password_hash(secrets.token_urlsafe(16))
