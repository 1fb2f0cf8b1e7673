"""Several payments for one amount: do they add up, how much of it is cash, and the change to give back."""

from collections.abc import Sequence
from dataclasses import dataclass

from .cents import show

CASH = "cash"


class BadPayments(ValueError):
    """The payments do not make up the amount; the message says the difference in one sentence."""


@dataclass(frozen=True)
class Payment:
    """One payment: `how` is cash, check, card, transfer or other; `cents` what it settles, change taken off."""

    how: str
    cents: int


def difference(due: int, payments: Sequence[Payment]) -> int:
    """Paid less due, in minor units: below zero is still missing, above zero is too much."""
    return sum(payment.cents for payment in payments) - due


def check(due: int, payments: Sequence[Payment], currency: str = "USD") -> None:
    """Raises BadPayments unless every payment is more than nothing and all add up to `due`."""
    for payment in payments:
        if payment.cents <= 0:
            raise BadPayments(f"A payment by {payment.how} of {show(payment.cents, currency)} settles nothing; leave it out.")
    off = difference(due, payments)
    if off:
        paid = show(due + off, currency)
        word = "too much" if off > 0 else "missing"
        raise BadPayments(f"{paid} is paid of {show(due, currency)}: {show(abs(off), currency)} {word}.")


def cash_part(payments: Sequence[Payment]) -> int:
    """What of it is cash."""
    return sum(payment.cents for payment in payments if payment.how == CASH)


def by_way(payments: Sequence[Payment]) -> dict[str, int]:
    """Sums by the way of paying, in the order in which they first come."""
    sums: dict[str, int] = {}
    for payment in payments:
        sums[payment.how] = sums.get(payment.how, 0) + payment.cents
    return sums


def change(cash_due: int, handed: int, currency: str = "USD") -> int:
    """What is given back when `handed` was put on the table for a cash part of `cash_due`. Raises BadPayments."""
    if handed < cash_due:
        raise BadPayments(f"{show(handed, currency)} was handed over: {show(cash_due - handed, currency)} missing.")
    return handed - cash_due


def take(due: int, handed: Sequence[Payment], currency: str = "USD") -> tuple[list[Payment], int]:
    """What each payment settles of `due`, and the change in cash, from what was handed over.

    Change comes out of the cash alone. Raises BadPayments where something is missing, or where the other payments
    alone are more than what is due.
    """
    check(due + max(0, difference(due, handed)), handed, currency)
    back = difference(due, handed)
    cash = cash_part(handed)
    if back > cash:
        over = show(back - cash, currency)
        what = show(due, currency)
        raise BadPayments(f"The payments without cash are {over} more than the {what} due; change is given in cash.")
    if not back:
        return list(handed), 0
    rest = [payment for payment in handed if payment.how != CASH]
    return rest + ([Payment(CASH, cash - back)] if cash > back else []), back
