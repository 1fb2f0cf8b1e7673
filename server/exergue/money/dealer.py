"""A dealer's year: cost of sales, gross profit and margin. IRS Pub. 334, ch. 7. All money is in minor units."""

from dataclasses import dataclass
from fractions import Fraction

from .margin import margin, markup


class BadYear(ValueError):
    """A figure of the year cannot be; the message says why in one sentence."""


@dataclass(frozen=True)
class Year:
    """The pieces of a dealer's year, all 0 or more.

    `purchases` is what all stock of the year cost, `withdrawn` the cost of stock taken for own use or held otherwise
    from now on, `closing` the stock at cost at the end. `sold` is the cost of the coins sold, `lost` of those lost, from
    the coins' own records; None where they are not known.
    """

    opening: int
    purchases: int
    withdrawn: int
    closing: int
    receipts: int
    returns: int = 0
    sold: int | None = None
    lost: int = 0

    def __post_init__(self):
        for name, amount in vars(self).items():
            if amount is not None and amount < 0:
                raise BadYear(f"“{name}” is below zero; give each figure of the year as 0 or more.")

    @property
    def net_purchases(self) -> int:
        return self.purchases - self.withdrawn

    @property
    def available(self) -> int:
        return self.opening + self.net_purchases

    @property
    def cost_of_sales(self) -> int:
        """Opening stock + purchases − withdrawn − closing stock."""
        return self.available - self.closing

    @property
    def net_receipts(self) -> int:
        return self.receipts - self.returns

    @property
    def gross_profit(self) -> int:
        return self.net_receipts - self.cost_of_sales

    @property
    def margin(self) -> Fraction | None:
        """Gross profit ÷ net receipts; None without receipts."""
        return margin(self.net_receipts, self.cost_of_sales)

    @property
    def markup(self) -> Fraction | None:
        """Gross profit ÷ cost of sales; None without cost."""
        return markup(self.net_receipts, self.cost_of_sales)

    @property
    def off(self) -> int | None:
        """Cost of sales by the stock less the cost of what was sold and lost, coin by coin; None where not known."""
        return None if self.sold is None else self.cost_of_sales - self.sold - self.lost
