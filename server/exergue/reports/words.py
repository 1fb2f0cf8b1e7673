"""Small words and sums that several reports need."""

from collections.abc import Iterable


def counted(count: int, one: str, many: str = "") -> str:
    """ "1 coin", "1,020 coins"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def known_sum(amounts: Iterable[int | None]) -> int | None:
    """The sum of the amounts that are known; None where none of several is."""
    amounts = list(amounts)
    known = [amount for amount in amounts if amount is not None]
    return sum(known) if known or not amounts else None
