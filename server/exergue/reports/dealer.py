"""The dealer's view of a year or a period: cost of sales, gross profit, margin, and whether the pieces agree."""

from collections.abc import Sequence
from datetime import date

from ..money.dealer import Year
from ..money.margin import percent
from ..money.rules import TAX_CAUTION
from .model import Column, Report, Section

COLUMNS = (Column("line", "Line"), Column("how", "How"), Column("amount", "Amount", "money"))


def report(year: Year, first: date, last: date, expenses: Sequence[tuple[str, int]] = ()) -> Report:
    """The figures of `year` over the days first … last; `expenses` [(what, cents)] end in the result before tax."""
    sections = [
        Section(
            "Cost of sales",
            [
                _line("Opening stock at cost", "", year.opening),
                _line("Purchases", "all in: fees, tax and shipping with them", year.purchases),
                _line("Withdrawn", "for own use, or held otherwise from now on", -year.withdrawn),
                _line("Available", "opening + purchases − withdrawn", year.available),
                _line("Closing stock at cost", "", -year.closing),
            ],
            [_line("Cost of sales", "available − closing", year.cost_of_sales)],
        ),
        Section(
            "Gross profit",
            [
                _line("Gross receipts", "before sales tax", year.receipts),
                _line("Returns", "", -year.returns),
                _line("Net receipts", "receipts − returns", year.net_receipts),
                _line("Cost of sales", "", -year.cost_of_sales),
            ],
            [_line("Gross profit", _ratios(year), year.gross_profit)],
        ),
    ]
    if expenses:
        spent = sum(cents for _, cents in expenses)
        rows = [_line("Gross profit", "", year.gross_profit), *(_line(what, "", -cents) for what, cents in expenses)]
        sections.append(Section("Result", rows, [_line("Result before tax", "", year.gross_profit - spent)]))
    sections += _check(year)
    return Report(
        title="Dealer's view",
        subtitle=f"{first.isoformat()} to {last.isoformat()}",
        columns=COLUMNS,
        sections=sections,
        caution=TAX_CAUTION,
        notes=["Cost of sales and gross profit as IRS Pub. 334, ch. 7, has them: stock at cost, once a year counted."],
    )


def _line(name: str, how: str, amount: int | None) -> dict:
    return {"line": name, "how": how, "amount": amount}


def _ratios(year: Year) -> str:
    known = (("margin", year.margin), ("markup", year.markup))
    return ", ".join(f"{name} {percent(ratio).replace('-', '−')} %" for name, ratio in known if ratio is not None)


def _check(year: Year) -> list[Section]:
    if year.off is None:
        return []
    rows = [
        _line("Cost of sales", "by the stock", year.cost_of_sales),
        _line("Cost of the coins sold", "coin by coin", -year.sold),
        _line("Cost of the coins lost", "in the cost of sales, once", -year.lost),
    ]
    said = "agrees" if not year.off else "does not agree: a coin is missing in the count, or an entry in the book"
    return [Section("Do the pieces agree?", rows, [_line("Difference", said, year.off)])]
