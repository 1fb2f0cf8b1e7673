"""How far can the price come down? What a dealer asks across the table, from one coin's figures.

All money is in minor units of the book's currency, before sales tax: tax passes through and is no part of a price.
Margin, markup and break-even: common practice, no source.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from . import holding
from .cents import show
from .margin import margin, markup, percent
from .rounding import half_up
from .salestax import rate


@dataclass(frozen=True)
class Selling:
    """What a sale costs the seller: a part of the price before tax (per cent, as text), and a fixed amount."""

    percent: str = "0"
    fixed: int = 0

    def of(self, price: int) -> int:
        """The cost of selling at `price`, the part rounded half up."""
        return half_up(price * rate(self.percent)) + self.fixed


@dataclass(frozen=True)
class Bargain:
    """The answer. `break_even` is the least price that loses nothing; discounts are per cent of the ask, as text.

    Discounts are rounded down to one decimal, so that giving the figure shown never goes below the price beside it.
    None: not known. `lines` is the arithmetic to show: (what, how it comes about, figure).
    """

    days: int | None
    profit: int | None
    margin: Fraction | None
    markup: Fraction | None
    break_even: int | None
    to_break_even: str | None
    to_floor: str | None
    lines: tuple[tuple[str, str, str], ...]


def bargain(
    cost: int | None,
    floor: int | None,
    ask: int | None,
    acquired: date | None,
    today: date,
    selling: Selling | None = None,
    currency: str = "USD",
) -> Bargain:
    """Days held, profit, margin and markup at the ask, and how far down it can come. Raises BadTax, BadDates."""
    selling = selling or Selling()
    days = None if acquired is None else holding.days(acquired, today)
    even = None if cost is None else break_even(cost, selling)
    profit = cost_at_ask = None
    if cost is not None and ask is not None:
        cost_at_ask = cost + selling.of(ask)
        profit = ask - cost_at_ask
    found = Bargain(
        days=days,
        profit=profit,
        margin=None if profit is None else margin(ask, cost_at_ask),
        markup=None if profit is None else markup(ask - selling.of(ask), cost),
        break_even=even,
        to_break_even=discount(ask, even),
        to_floor=discount(ask, floor),
        lines=(),
    )
    lines = _Lines(currency).of(found, cost, floor, ask, acquired, today, selling)
    return Bargain(**{**vars(found), "lines": tuple(lines)})


def break_even(cost: int, selling: Selling) -> int | None:
    """The least price from which `cost` is left after the costs of selling; None where they eat every price."""
    left = 1 - rate(selling.percent)
    if not left:
        return None
    price = max(0, half_up((cost + selling.fixed) / left) - 2)
    while price - selling.of(price) < cost:
        price += 1
    while price and (price - 1) - selling.of(price - 1) >= cost:
        price -= 1
    return price


def discount(ask: int | None, price: int | None) -> str | None:
    """What `price` is below the ask, in per cent of the ask, rounded down to one decimal; below zero: above the ask."""
    if not ask or price is None:
        return None
    tenths = (ask - price) * 1000 // ask
    return percent(Fraction(tenths, 1000), 1)


class _Lines:
    def __init__(self, currency: str):
        self._currency = currency

    def of(self, found, cost, floor, ask, acquired, today, selling):
        money = self._money
        if found.days is not None:
            yield "Held", f"{acquired} to {today}", f"{found.days:,} {'day' if found.days == 1 else 'days'}"
        if found.profit is not None:
            fee = selling.of(ask)
            parts = f"{money(ask)} − {money(cost)}" + (f" − {money(fee)} to sell it" if fee else "")
            yield "Profit at the ask", parts, money(found.profit)
            if found.margin is not None:
                yield "Margin", f"{money(found.profit)} ÷ {money(ask)}", f"{percent(found.margin)} %"
            if found.markup is not None:
                yield "Markup", f"{money(found.profit)} ÷ {money(cost)}", f"{percent(found.markup)} %"
        if found.break_even is not None:
            yield "Break-even price", self._even(cost, selling), money(found.break_even)
        for what, price, figure in (
            ("Down to break even", found.break_even, found.to_break_even),
            ("Down to the floor", floor, found.to_floor),
        ):
            if figure is not None:
                how = f"({money(ask)} − {money(price)}) ÷ {money(ask)}, rounded down"
                yield what, how, f"{figure.replace('-', '−')} %"

    def _even(self, cost, selling) -> str:
        above = f"{self._money(cost)} + {self._money(selling.fixed)}" if selling.fixed else self._money(cost)
        if not rate(selling.percent):
            return above
        above = f"({above})" if selling.fixed else above
        return f"{above} ÷ (1 − {selling.percent} %), rounded up"

    def _money(self, amount) -> str:
        return show(amount, self._currency)
