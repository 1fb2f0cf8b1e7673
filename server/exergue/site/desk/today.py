"""The first page: what there is, what needs a look, which phones are out of touch, the next show."""

from datetime import date

from flask import g, render_template

from ...records import devices, reading
from ...records.clock import now_ms
from ...records.states import HELD
from . import desk, floor
from .contact import out_of_touch


@desk.get("/")
def today():
    counts = reading.counts()
    stock = reading.stock(state="in stock", per=1)
    day = date.today().isoformat()
    coming = [show for show in reversed(reading.shows()) if (show["ends"] or show["starts"]) >= day]
    return render_template(
        "desk/today.html", counts=counts, stock=stock, held=sum(counts["states"].get(s, 0) for s in HELD) - counts["theirs"],
        next_show=coming[0] if coming else None, show_on=bool(coming) and coming[0]["starts"] <= day, looks=reading.looks(),
        shows_waiting=floor.waiting(), notices=devices.notices(),
        quiet=out_of_touch(now_ms()), phones=[d for d in devices.listing() if d.revoked_ms is None],
        newest=reading.stock(order="newest", per=12).rows, settings=g.settings,
    )  # fmt: skip
