"""Whether a gain is short or long term.

The holding period begins the day after the acquisition and includes the day of the disposal; long term is more than one
year (IRC 1222; IRS Pub. 544, "Holding period"). Bought on a month's last day: each month ends on a month's last day.
"""

from calendar import monthrange
from datetime import date


def term(acquired: date, disposed: date) -> str:
    """"short" or "long"."""
    year, month, day = acquired.year + 1, acquired.month, acquired.day
    if day >= 28 and day == monthrange(acquired.year, month)[1]:
        day = monthrange(year, month)[1]
    return "long" if (disposed.year, disposed.month, disposed.day) > (year, month, day) else "short"
