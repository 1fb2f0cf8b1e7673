"""What the desk makes of a count, with the story of each difference and what settles it; for the owner also the close of the show."""

from dataclasses import asdict

from flask import abort

from ..records import counting, show_close
from ..records.tables import Show, dumps
from . import here, packing
from .api import api, paired
from .desk.floor import clock, today


@api.get("/floor", defaults={"show": None})
@api.get("/floor/<uuid:show>")
def floor(show):
    """{count: {round, rows, expected, seen, missing, unexpected, differences} or null, close, cash_key}; a helper gets the count alone."""
    owner = paired().role == "owner"
    row = Show.get_or_none(Show.id == str(show)) or abort(404) if show else None
    rounds = counting.rounds(row and row.id)
    said = {"count": _count(row, rounds[-1]["id"]) if rounds else None}
    if owner and row:
        done = show_close.done(here.book(), row, today(), clock)
        told = {key: None if one is None else {"coin": one.coin, "gain": one.gain} for key, one in (("best", done.best), ("worst", done.worst))}
        said["close"] = done.close.as_json() | told | {"closed": done.closed, "open": done.open, "spent": done.spent, "left": done.left,
                                                       "wants": len(done.wants), "expenses": done.expenses, "ways": done.ways}  # fmt: skip
        said["cash_key"] = show_close.cash_key(row.id)
        said["cash_settled"] = counting.settled().get(said["cash_key"])
    return packing.json(dumps(said))


def _count(row, round_id: str) -> dict:
    done = counting.reconciled(row and row.id, round_id, today(), clock)
    return asdict(done) | {"round": round_id, "differences": [asdict(one) | {"open": one.open} for one in done.differences]}
