"""A rate limit kept in the book: a bucket that fills evenly and is spent one by one."""

from fractions import Fraction

from .clock import now_ms
from .tables import Throttle


class TooMany(Exception):
    """Too many tries; `seconds` until the next is allowed."""

    def __init__(self, seconds: int):
        super().__init__(f"Too many tries. Wait {seconds} seconds.")
        self.seconds = seconds


def spend(key: str, capacity: int, per_ms: int, at_ms: int | None = None) -> None:
    """Take one of `capacity` tries, which come back over `per_ms`. Inside a write transaction. Raises TooMany."""
    moment = now_ms() if at_ms is None else at_ms
    row = Throttle.get_or_none(Throttle.key == key)
    tokens = Fraction(capacity)
    if row:
        gained = Fraction(max(0, moment - row.stamp_ms) * capacity, per_ms)
        tokens = min(tokens, Fraction(row.tokens) + gained)
    if tokens < 1:
        raise TooMany(-int((tokens - 1) * per_ms // (capacity * 1000)))
    Throttle.replace(key=key, tokens=str((tokens - 1).limit_denominator(10**6)), stamp_ms=moment).execute()


def forgive(key: str) -> None:
    Throttle.delete().where(Throttle.key == key).execute()
