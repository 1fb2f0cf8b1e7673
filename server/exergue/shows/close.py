"""Close of show: does the stock agree, does the cash agree, and what was earned.

Expected = opening + in − out; variance = counted − expected. All money is in minor units.
"""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from fractions import Fraction

from ..money.margin import margin, markup, percent


@dataclass(frozen=True)
class Bought:
    """A purchase at the show: how many coins, what all of them cost (all in), how it was paid."""

    pieces: int
    cents: int
    payment: str | None = None
    trade: bool = False  # the coins came in by trade


@dataclass(frozen=True)
class Sold:
    """A coin that left: its price, its own cost (None: not recorded), what the sale cost the seller.

    `pieces`: 0 for a part of a lot of which more is left, so that its record still stands in the case.
    """

    cents: int
    cost: int | None
    costs: int = 0
    payment: str | None = None
    trade: bool = False
    pieces: int = 1


@dataclass(frozen=True)
class Returned:
    """A coin that was sold and came back: what is kept of its price, and what the sale and the return cost all the same."""

    kept: int
    costs: int = 0


@dataclass(frozen=True)
class Moved:
    """Cash put into the box (more than zero) or taken out (less), or an expense paid from elsewhere."""

    what: str
    cents: int
    expense: bool = False  # part of what the show cost; an expense is below zero
    payment: str | None = "cash"


@dataclass(frozen=True)
class Row:
    """One printed line; `mark` is "", "total" or "off" (it does not agree)."""

    label: str
    pieces: int | None = None
    cents: int | None = None
    mark: str = ""


@dataclass(frozen=True)
class Close:
    """The close of a show, ready to print: tables of rows, and the figures that checks read."""

    name: str
    stock: list[Row]
    cash: list[Row]
    result: list[Row]
    sales: int
    cost_of_sales: int
    gross_profit: int
    net: int  # gross profit less the costs of selling and the expenses
    margin: Fraction | None  # of the sales whose cost is known; None without such sales
    markup: Fraction | None
    expected_pieces: int
    expected_cash: int
    pieces_off: int | None  # counted − expected; None: not counted
    cash_off: int | None
    swapped: int = 0  # so many coins were not counted, and as many others were: the number alone agrees
    remarks: list[str] = field(default_factory=list)

    @property
    def agrees(self) -> bool:
        """Everything that was counted is what it should be."""
        return not self.pieces_off and not self.cash_off and not self.swapped

    def as_json(self) -> dict:
        """The same as plain values; margin and markup in per cent, two decimals."""
        plain = asdict(self) | {"agrees": self.agrees}
        return plain | {"margin": percent(self.margin), "markup": percent(self.markup)}


def shrinkage(expected: int, counted: int, base: int) -> Fraction | None:
    """(expected − counted) ÷ base. Sources differ in the base: print it beside the figure."""
    return Fraction(expected - counted, base) if base else None


def close(
    name: str,
    *,
    opening_pieces: int,
    opening_cost: int,
    cash_float: int = 0,
    bought: Sequence[Bought] = (),
    sold: Sequence[Sold] = (),
    returned: Sequence[Returned] = (),
    moved: Sequence[Moved] = (),
    others: Sequence[Row] = (),
    box: Sequence[Row] | None = None,
    income: Sequence[Row] = (),
    counted_pieces: int | None = None,
    counted_cash: int | None = None,
    missing: int = 0,
) -> Close:
    """Close a show from what was bought, sold and moved, and what was counted at its end.

    Costs of a sale are taken not to pass through the cash box. A coin sold without a recorded cost
    counts as a sale and a piece, and is left out of profit, margin and markup; a remark says so.
    `others` are coins that came or went otherwise (rows with pieces and cost), `income` what came in without a sale.
    `box` replaces the lines of cash after the float, where payments are known better than one way a deal.
    What is kept of the price of `returned` coins is part of the result, and no sale: the accounts have it as income of its own.
    `missing` of the expected coins are not among the `counted_pieces`, whatever their number.
    """
    known = [s for s in sold if s.cost is not None]
    sales, cost = sum(s.cents for s in sold), sum(s.cost for s in known)
    known_sales = sum(s.cents for s in known)
    gross = known_sales - cost
    selling = sum(each.costs for each in (*sold, *returned))
    kept = sum(each.kept for each in returned)
    expenses = -sum(m.cents for m in moved if m.expense)
    more = sum(row.cents for row in income)
    net = gross + kept - selling - expenses + more
    stock, pieces = _stock(opening_pieces, opening_cost, bought, sold, others)
    swapped = missing if counted_pieces == pieces else 0
    stock += [Row("Counted", counted_pieces), Row(_swapped(swapped), None, None, "off")] if swapped else _counted(counted_pieces, pieces, "pieces")
    cash, drawer = _cash(cash_float, bought, sold, moved, box, counted_cash)
    result = [
        Row("Sales", len(sold), sales),
        Row("Cost of coins sold", len(known), -cost),
        Row("Gross profit", None, gross, "total"),
        *([Row("Kept of sales that came back", len(returned), kept)] if returned else []),
        Row("Costs of selling", None, -selling),
        Row("Expenses of the show", None, -expenses),
        *income,
        Row("Result of the show", None, net, "total"),
    ]
    remarks = []
    if len(known) < len(sold):
        result.insert(1, Row("of which without a recorded cost", len(sold) - len(known), known_sales - sales))
        remarks.append(
            f"{len(sold) - len(known)} sold without a recorded cost: left out of profit, margin and markup."
        )
    return Close(
        name=name,
        stock=stock,
        cash=cash,
        result=result,
        sales=sales,
        cost_of_sales=cost,
        gross_profit=gross,
        net=net,
        margin=margin(known_sales, cost),
        markup=markup(known_sales, cost),
        expected_pieces=pieces,
        expected_cash=drawer,
        pieces_off=None if counted_pieces is None else counted_pieces - pieces,
        cash_off=None if counted_cash is None else counted_cash - drawer,
        swapped=swapped,
        remarks=remarks,
    )


def _swapped(many: int) -> str:
    one = "1 is missing and 1 other is there" if many == 1 else f"{many} are missing and {many} others are there"
    return f"The number agrees, the coins do not: {one} (see the differences of the count)"


def _stock(opening, cost, bought, sold, others) -> tuple[list[Row], int]:
    rows = [Row("Opening stock", opening, cost)]
    for label, trade in (("Bought", False), ("Traded in", True)):
        part = [b for b in bought if b.trade is trade]
        if part or not trade:
            rows.append(Row(label, sum(b.pieces for b in part), sum(b.cents for b in part)))
    for label, trade in (("Sold", False), ("Traded out", True)):
        part = [s for s in sold if s.trade is trade]
        if part or not trade:
            rows.append(Row(label, -sum(s.pieces for s in part), -sum(s.cost or 0 for s in part)))
    rows += others
    pieces = sum(row.pieces for row in rows)
    rows.append(Row("Stock that should be there", pieces, sum(row.cents for row in rows), "total"))
    return rows, pieces


def _cash(opening, bought, sold, moved, box, counted) -> tuple[list[Row], int]:
    rows = [
        Row("Float", None, opening),
        Row("Cash from sales", None, sum(s.cents for s in sold if s.payment == "cash" and not s.trade)),
        Row("Cash for purchases", None, -sum(b.cents for b in bought if b.payment == "cash" and not b.trade)),
    ]
    rows += [Row(m.what, None, m.cents) for m in moved if m.payment == "cash"]
    rows = rows if box is None else [rows[0], *box]
    due = sum(row.cents for row in rows)
    rows.append(Row("Cash that should be there", None, due, "total"))
    return rows + _counted(counted, due, "cents"), due


def _counted(counted, expected, unit) -> list[Row]:
    if counted is None:
        return []
    off = counted - expected
    label = "Over" if off > 0 else "Short" if off < 0 else "Agrees"
    return [Row("Counted", **{unit: counted}), Row(label, **{unit: off}, mark="off" if off else "total")]
