"""Landed cost: what each coin of a purchase cost, line by line, buyer's fee, tax and shipping included.

What belongs to the cost of a bought thing: IRS Publication 551, "Cost Basis" (from memory).
"""

from collections.abc import Sequence

from .allocate import BadSplit, split


def split_costs(costs: Sequence[dict], weights: Sequence) -> list[list[dict]]:
    """One list of cost lines [{what, cents}] for each coin of a lot.

    Every line is split over the coins by weight, so each line adds up exactly over the coins. The
    weights are the coins' fair values when bought, in any unit; all None: evenly. Lines of one kind
    are split apart, as entered. Raises BadSplit.
    """
    given = [weight is not None for weight in weights]
    if any(given) and not all(given):
        raise BadSplit("Give every coin of the purchase a weight, or none of them.")
    shares = weights if any(given) else [1] * len(weights)
    lines = [split(line["cents"], shares) for line in costs]
    return [
        [{"what": line["what"], "cents": cents[coin]} for line, cents in zip(costs, lines, strict=True)]
        for coin in range(len(weights))
    ]


def total(costs: Sequence[dict]) -> int:
    """The sum of cost lines, in minor units."""
    return sum(line["cents"] for line in costs)


def of_pieces(cost: int, pieces: int, first: int, count: int) -> int:
    """What `count` pieces of a lot cost, after `first` of them went before; first in, first out.

    The lot's cost is divided evenly, to the cent, the cents left over to the pieces that go first; so
    the parts add up to `cost` (minor units, 0 or more) however the lot is sold.
    """
    each, over = divmod(cost, pieces)
    return each * count + max(0, min(first + count, over) - min(first, over))
