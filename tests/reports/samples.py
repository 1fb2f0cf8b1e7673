"""Reports to print: invented coins."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

from exergue.reports.model import Column, Report, Section

COLUMNS = (
    Column("coin", "ID"), Column("title", "Coin"), Column("since", "Since", "date"), Column("pieces", "Pieces", "int"),
    Column("weight", "Grams", "weight"), Column("margin", "Margin %", "percent"), Column("cost", "Cost", "money"),
)  # fmt: skip


def rows(count: int) -> list[dict]:
    return [
        {
            "coin": f"7K3M9-{at:05}",
            "title": f"Half dollar {1840 + at % 50} O, seated figure, number {at}",
            "since": date(2020, 1 + at % 12, 1 + at % 28),
            "pieces": 1 + at % 3,
            "weight": Decimal("6.2209") if at % 3 else Decimal("13.36"),
            "margin": Fraction(at % 90, 100),
            "cost": None if at % 50 == 7 else 1_00 + 37 * at,
        }
        for at in range(count)
    ]


def stock(count: int) -> Report:
    """A report of one section, with a caution, a total and a note."""
    lines = rows(count)
    total = {"title": "Total", "cost": sum(row["cost"] or 0 for row in lines)}
    return Report("Stock list", "2026-11-28", COLUMNS, [Section("In stock", lines, [total])], "A caution.", ["A note."])
