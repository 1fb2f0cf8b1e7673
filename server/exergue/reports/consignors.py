"""What is still owed to each owner of coins that we sold for them, with the entries that it comes from."""

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from .model import Column, Report, Section
from .words import counted

COLUMNS = (
    Column("date", "Date", "date"), Column("what", "Entry"), Column("coin", "Coin"), Column("id", "ID"),
    Column("due", "Due", "money"), Column("paid", "Paid", "money"), Column("owed", "Still owed", "money"),
)  # fmt: skip
NOTE = "Due is what was agreed with the owner for the coin. Coins of others that are still here stand in the stock list."
AHEAD = "Where “still owed” is below nothing, more was paid than is due."


class Line(NamedTuple):
    """One change of what an owner is due; `cents` above zero: due, below: paid or taken back."""

    party: str
    date: date
    about: str
    coin: str
    id: str
    cents: int


def report(lines: Sequence[Line], last: date) -> Report:
    """A statement for each owner up to a day, the owners by name."""
    owners: dict[str, list[Line]] = {}
    for line in lines:
        if line.date <= last:
            owners.setdefault(line.party, []).append(line)
    sections, whole = [], 0
    for party in sorted(owners, key=str.casefold):
        owed, rows = 0, []
        for line in owners[party]:
            owed += line.cents
            side = {"paid": -line.cents} if line.about == "paid" else {"due": line.cents}
            rows.append({"date": line.date, "what": line.about.capitalize(), "coin": line.coin, "id": line.id, "owed": owed, **side})
        total = {"what": "Total", "due": sum(row.get("due") or 0 for row in rows), "paid": sum(row.get("paid") or 0 for row in rows),
                 "owed": owed}  # fmt: skip
        sections.append(Section(party or "Owner not named", rows, [total]))
        whole += owed
    if len(sections) > 1:
        sections.append(Section("All owners", [], [{"what": "Total", "owed": whole}]))
    ahead = any(row["owed"] < 0 for section in sections for row in section.rows)
    return Report(
        title="Owed to consignors", subtitle=f"up to {last.isoformat()} · {counted(len(owners), 'owner')}", columns=COLUMNS,
        sections=sections, notes=[NOTE, *([AHEAD] if ahead else [])],
    )  # fmt: skip
