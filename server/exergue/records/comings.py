"""How coins came in, told as one purchase each: of a lot that was topped up, the first one, with the costs of all."""

from typing import NamedTuple

from .tables import Bought, Purchase


class Coming(NamedTuple):
    deal: Purchase
    costs: list  # [{what, cents}]


def of(keys: list[str]) -> dict[str, Coming]:
    """The comings of these coins, by ID. Use inside `connected()`."""
    found: dict[str, Coming] = {}
    rows = Bought.select(Bought, Purchase).join(Purchase, on=(Bought.purchase == Purchase.fact)).where(Bought.coin.in_(keys))
    for share in rows.order_by(Purchase.day, Purchase.at, Purchase.fact):
        first = found.get(share.coin_id)
        found[share.coin_id] = Coming(share.purchase, share.costs) if first is None else first._replace(costs=first.costs + share.costs)
    return found
