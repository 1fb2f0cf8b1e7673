"""The journal: every entry, newest first."""

from flask import render_template, request

from ...labels import ids
from ...records import devices, reading
from . import desk, words

PER = 100


@desk.get("/journal")
def journal():
    before, device = request.args.get("before", type=int), request.args.get("device", "")
    lines = reading.journal(PER, before, device)
    for line in lines:
        line["said"], line["details"] = words.sentence(line)
        line["coins"] = coins_of(line["body"])
    return render_template("desk/journal.html", lines=lines, device=device, names=devices.names(),
                           before=lines[-1]["seq"] if len(lines) == PER else None, first=before is None)  # fmt: skip


def coins_of(body: dict) -> list[tuple[str, str]]:
    """(ID, as shown) of the coins that an entry names; at most three."""
    found = [body["coin"]] if isinstance(body.get("coin"), str) else []
    if isinstance(body.get("bought"), list):
        found += [row.get("coin", "") for row in body["bought"] if isinstance(row, dict)]
    return [(key, ids.show(key)) for key in found[:3] if isinstance(key, str) and len(key) == ids.LENGTH]
