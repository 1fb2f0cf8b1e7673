"""The close of a show as a report: stock, cash, result, and what else a dealer wants to know."""

from collections.abc import Sequence

from ..money.margin import percent
from ..shows.close import Close, Row
from .model import Column, Report, Section

COLUMNS = (Column("line", "Line"), Column("coins", "Coins", "int"), Column("amount", "Amount", "money"))
AMOUNTS = (Column("line", "Line"), Column("amount", "Amount", "money"))
SALES = (Column("line", "Sale"), Column("coin", "Coin"), Column("amount", "Gain", "money"))
FILLED = (Column("line", "Want"), Column("coin", "Filled by"), Column("amount", "Cost", "money"))
DIFFERENCES = (Column("coin", "Coin"), Column("what", "What"), Column("story", "Likely story"), Column("settled", "Settled"))
WAYS = (Column("how", "How"), Column("came", "Came in", "money"), Column("went", "Went out", "money"))
SAID = {"": "Not said", "cash": "Cash", "check": "Check", "card": "Card", "transfer": "Transfer", "other": "Other"}


def report(
    close: Close,
    subtitle: str,
    *,
    differences: Sequence[tuple[str, str, str, str]] = (),
    best: Sequence[tuple[str, str, int]] = (),
    wants: Sequence[tuple[str, str, int | None]] = (),
    ways: Sequence[tuple[str, int, int]] = (),
    expenses: Sequence[tuple[str, int]] = (),
    budget: tuple[int, int] | None = None,
) -> Report:
    """`differences` (coin, what, story, settled), `best` (which, coin, gain), `wants` (want, coin, cost), `ways` (how, in, out),
    `expenses` (about, cents), `budget` (budget, spent on coins). Cents."""
    ratios = [f"{name} {percent(ratio).replace('-', '−')} %" for name, ratio in (("margin", close.margin), ("markup", close.markup))
              if ratio is not None]  # fmt: skip
    sections = [
        Section("Stock", *_rows(close.stock), note="At cost. A lot counts as one coin while any of it is left."),
        Section("Cash", *_rows(close.cash), columns=AMOUNTS),
        Section("Result", *_rows(close.result), note=", ".join(ratios).capitalize()),
    ]
    if differences:
        rows = [dict(zip(("coin", "what", "story", "settled"), row, strict=True)) for row in differences]
        sections.insert(1, Section("Differences of the count", rows, columns=DIFFERENCES))
    if best:
        sections.append(Section("Best and worst sale", [_line(which, gain, coin) for which, coin, gain in best], columns=SALES))
    if wants:
        sections.append(Section("Wants filled", [_line(want, cost, coin) for want, coin, cost in wants], columns=FILLED))
    if ways:
        rows = [{"how": SAID[how], "came": came, "went": went} for how, came, went in ways]
        sections.append(Section("Payments by kind", rows, columns=WAYS))
    if expenses:
        total = _line("Expenses", sum(cents for _, cents in expenses))
        sections.append(Section("Expenses", [_line(about, cents) for about, cents in expenses], [total], columns=AMOUNTS))
    if budget:
        rows = [_line("Budget", budget[0]), _line("Spent on coins", -budget[1])]
        sections.append(Section("Budget for coins", rows, [_line("Left", budget[0] - budget[1])], columns=AMOUNTS))
    return Report(title=f"Close of show: {close.name}", subtitle=subtitle, columns=COLUMNS, sections=sections, notes=close.remarks)


def _line(name: str, amount: int | None, coin: str = "") -> dict:
    return {"line": name, "coin": coin, "amount": amount}


def _rows(rows: Sequence[Row]) -> tuple[list[dict], list[dict]]:
    """Lines, and those set off below: the last sum, and what does not agree."""
    made = [{"line": row.label, "coins": row.pieces, "amount": row.cents} for row in rows]
    first = next((n for n, row in enumerate(rows) if row.mark and n >= len(rows) - 3), len(rows))
    return made[:first], made[first:]
