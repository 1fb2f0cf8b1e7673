"""The gains of a year, in the columns of Form 8949 (from memory of the form)."""

from ..money.taxreport import Row, TaxYear, Totals
from .model import Column, Report, Section
from .words import counted

COLUMNS = (
    Column("a", "(a) Description"), Column("b", "(b) Acquired", "date"), Column("c", "(c) Sold", "date"),
    Column("d", "(d) Proceeds", "money"), Column("e", "(e) Cost or basis", "money"), Column("f", "(f) Code"),
    Column("g", "(g) Adjustment", "money"), Column("h", "(h) Gain or loss", "money"),
    Column("coin", "ID"), Column("note", "Remark"),
)  # fmt: skip
STEPS = (Column("line", "28 % rate gain"), Column("how", "How"), Column("amount", "Amount", "money"))


def report(year: TaxYear, who: str = "") -> Report:
    """Short and long term with totals, what has no known basis, the 28 % rate gain, and a dealer's stock apart."""
    sections = [
        _part("Part I: short term, held one year or less", year.short, year.short_total),
        _part("Part II: long term, held more than one year", year.long, year.long_total),
    ]
    if year.unknown:
        note = "Find out the basis before you file. In no total; none is taken as zero."
        sections.append(Section("Basis not known", [_row(row) for row in year.unknown], note=note))
    sections.append(_worksheet(year))
    if year.stock:
        note = "Ordinary business income, not on the form."
        sections.append(_part("Stock of a dealer", year.stock, year.stock_total, note))
    sold = sum(map(len, (year.short, year.long, year.unknown, year.stock)))
    return Report(
        title=f"Gains and losses of {year.year}",
        subtitle=" · ".join(filter(None, (who, counted(sold, "disposal")))),
        columns=COLUMNS,
        sections=sections,
        caution=year.caution,
        notes=year.notes,
    )


def _part(heading: str, rows: list[Row], sums: Totals, note: str = "") -> Section:
    total = {"a": "Total", **{key: getattr(sums, key) for key in "degh"}}
    return Section(heading, [_row(row) for row in rows], [total] if rows else [], note)


def _row(row: Row) -> dict:
    return {**vars(row), "g": row.g or None}


def _worksheet(year: TaxYear) -> Section:
    sums = year.worksheet
    rows = [
        {"line": "Gain on collectibles", "how": "long-term gains of Part II", "amount": sums.gain},
        {"line": "Loss on collectibles", "how": "long-term losses of Part II that count", "amount": -sums.loss},
        {"line": "Net short-term loss", "how": "if Part I adds up to a loss", "amount": -sums.short_loss},
        {"line": "Long-term loss carried over", "how": "from earlier years", "amount": -sums.carried},
    ]
    total = {"line": "28 % rate gain", "how": "not below zero", "amount": sums.rate_gain}
    note = "From this book alone: gains and losses on other things belong in it, too."
    return Section("Worksheet: 28 % rate gain", rows, [total], note, STEPS)
