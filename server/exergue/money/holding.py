"""How long a coin was held: IRC 1222, IRS Pub. 544 (2024), "Holding period"; month ends after a tax guide of 2013."""

from calendar import monthrange
from datetime import date

from . import rules

SHORT, LONG = "short", "long"


class BadDates(ValueError):
    """The dates cannot be; the message says why in one sentence."""


def days(acquired: date, disposed: date) -> int:
    """Days held: the day of acquisition does not count, the day of disposal does. Raises BadDates."""
    if disposed < acquired:
        raise BadDates(f"It cannot have left on {disposed}, before it came on {acquired}; correct one of the dates.")
    return (disposed - acquired).days


def term(acquired: date, disposed: date) -> str:
    """ "long" where it was held for more than one year, else "short". Raises BadDates."""
    days(acquired, disposed)
    return LONG if disposed > years_on(acquired, rules.value("long_term_years")) else SHORT


def years_on(start: date, years: int) -> date:
    """The day on which so many years of holding are full.

    What came on a month's last day fills each year on that month's last day: 2023-02-28 → 2024-02-29.
    """
    year = start.year + years
    last = monthrange(year, start.month)[1]
    at_end = start.day == monthrange(start.year, start.month)[1]
    return date(year, start.month, last if at_end else min(start.day, last))


def tacked(since: date | None, given: date, donor_basis_used: bool) -> date:
    """The date from which a gift is held: the donor's (`since`) where the donor's basis is used, else that of the gift.

    IRC 1223(2). Where the donor's date is not known, it is that of the gift. Raises BadDates.
    """
    if since and since > given:
        raise BadDates(f"The donor cannot have got it on {since}, after the gift on {given}; correct one of the dates.")
    return since if since and donor_basis_used else given
