"""Sales tax taken over a period, by place and rate, and the sales without tax with their certificates."""

from collections.abc import Sequence
from datetime import date

from ..money.salestax import CAUTION, Taxed, collected
from .model import Column, Report, Section
from .words import counted

COLUMNS = (
    Column("place", "Place"), Column("rate", "Rate %", "percent"), Column("count", "Entries", "int"),
    Column("sales", "Sales", "money"), Column("exempt", "of which exempt", "money"), Column("taxable", "Taxable", "money"),
    Column("tax", "Tax taken", "money"),
)  # fmt: skip
FREE = (
    Column("date", "Date", "date"), Column("place", "Place"), Column("net", "Sale", "money"),
    Column("certificate", "Certificate"), Column("reason", "Reason"),
)  # fmt: skip
OFF = Column("off", "Taken less due", "money")
OFF_NOTE = "“Taken less due” is the tax taken less the tax at the rate, sale by sale: look at the tickets of those places."
_SUMS = ("count", "sales", "exempt", "taxable", "tax", "off")


def report(sales: Sequence[Taxed], first: date, last: date) -> Report:
    """The tax that was taken on the days first … last. Returns count with their sign. Raises BadTax."""
    places = collected(sales, first, last)
    rows = [vars(place) for place in places]
    total = {"place": "Total", **{key: sum(row[key] for row in rows) for key in _SUMS}}
    sections = [Section("Collected by place", rows, [total] if rows else [])]
    off = any(place.off for place in places)
    free = sorted((s for s in sales if s.exempt and first <= s.date <= last), key=lambda s: (s.date, s.place))
    if free:
        lines = [
            {"date": s.date, "place": s.place, "net": s.net, "certificate": s.exempt.certificate, "reason": s.exempt.reason}
            for s in free
        ]
        sections.append(Section("Sales without tax", lines, [{"place": "Total", "net": total["exempt"]}], columns=FREE))
    return Report(
        title="Sales tax by place",
        subtitle=f"{first.isoformat()} to {last.isoformat()} · {counted(sum(p.count for p in places), 'entry', 'entries')}",
        columns=(*COLUMNS, OFF) if off else COLUMNS,
        sections=sections,
        caution=CAUTION,
        notes=[OFF_NOTE] if off else [],
    )
