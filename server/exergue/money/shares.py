"""How a lump sum is shared over coins, to the cent, and what a foreign price is in the book's money.

However the weights came about (stated, estimate, face, metal content, evenly), here they are weights. Every cost line is
shared apart by largest remainder, so that each adds up exactly over the coins. What belongs to the cost of a bought
thing: IRS Publication 551, "Cost Basis" (from memory).
"""

from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from . import cents
from .allocate import BadSplit, split


def weights_of(weights: Sequence, pieces: Sequence[int] | None = None) -> list:
    """The weights as given; all None: evenly over the pieces of each line. Raises BadSplit if some only are given."""
    unsaid = sum([weight is None for weight in weights])
    if unsaid == len(weights):
        return list(pieces) if pieces is not None else [1] * len(weights)
    if unsaid:
        raise BadSplit("Give every coin of the purchase a weight, or none of them.")
    return list(weights)


def share_out(costs: Sequence[dict], weights: Sequence, pieces: Sequence[int] | None = None) -> list[list[int]]:
    """For each coin of a lump sum, its cents of each cost line.

    The weights are the coins' fair values when bought, in any unit, each for its whole line; all None: evenly over
    `pieces` (absent: one each). Raises BadSplit.
    """
    if len(weights) == 1 and weights[0] is None:  # one coin carries all; the common case
        return [[line["cents"] for line in costs]]
    shares = weights_of(weights, pieces)
    if not costs:
        return [[] for _ in shares]
    return [list(coin) for coin in zip(*[split(line["cents"], shares) for line in costs], strict=True)]


def split_costs(costs: Sequence[dict], weights: Sequence, pieces: Sequence[int] | None = None) -> list[list[dict]]:
    """The same as one list of cost lines [{what, cents}] for each coin; lines of one kind are split apart, as entered."""
    return [
        [{"what": line["what"], "cents": cents} for line, cents in zip(costs, coin, strict=True)]
        for coin in share_out(costs, weights, pieces)
    ]


def settled(lines: Sequence, costs: Sequence[dict]) -> list[Sequence[dict]] | None:
    """The costs of each line as the lines say, where they do and come to the whole."""
    parts = [line.costs for line in lines]
    if None in parts or sum(total(part) for part in parts) != total(costs):
        return None
    return parts


def total(costs: Sequence[dict]) -> int:
    """The sum of cost lines, in minor units."""
    return sum([line["cents"] for line in costs])


def in_book(amount: int, currency: str, rate: str, book: str = "USD") -> int:
    """Minor units of the book for `amount` minor units of `currency`, at `rate` book units for one foreign unit.

    The rate is decimal text, taken exactly; the result is rounded once, half up. Raises BadAmount.
    """
    try:
        exact = Decimal(rate)
        if not exact.is_finite() or exact <= 0:
            raise InvalidOperation
    except InvalidOperation:
        raise cents.BadAmount(f"“{rate}” is not a rate of exchange; write it like 1.0832.") from None
    scale = Fraction(10) ** (cents.currency(book).digits - cents.currency(currency).digits)
    return (amount * Fraction(exact) * scale + Fraction(1, 2)).__floor__()
