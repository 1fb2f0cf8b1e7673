"""What the pages of a show share: the show itself, moments in its stories."""

from datetime import date, datetime

from flask import abort

from ...records import show_looks
from ...records.tables import Show
from .. import here
from .showing import MONTHS


def show_or_404(key) -> Show:
    return Show.get_or_none(Show.id == str(key)) or abort(404, "The book has no such show.")


def today() -> str:
    return date.today().isoformat()


def clock(ms: int) -> str:
    """A moment as the stories tell it, in this machine's time: “14:10 (15 Mar)”."""
    try:
        when = datetime.fromtimestamp(ms / 1000).astimezone()
    except (OverflowError, OSError, ValueError):
        return "an impossible time"
    return f"{when:%H:%M} ({when.day} {MONTHS[when.month - 1]})"


def waiting() -> list[dict]:
    """Closed shows with open differences."""
    return show_looks.waiting(here.book(), today(), clock)
