"""Ways of payment, and amounts in sentences."""

import json

from ...money import cents, shares
from ...money.allocate import BadSplit, split
from .. import quick
from ..verdicts import Refused


def said(amount: int) -> str:
    """An amount in the book's currency, as people read it."""
    return cents.show(amount, currency())


def currency() -> str:
    """The book's currency."""
    found = quick.row('select value from setting where "key" = ?', "currency")
    code = json.loads(found[0]) if found else "USD"
    return code if code in list(cents.CURRENCIES) else "USD"


def payments(body: dict, total: int, what: str) -> list[dict]:
    """The payments of an entry, [] for none. Refused where they do not add up to `total`, which is called `what`."""
    rows = body.get("payments") or []
    paid = shares.total(rows)
    if rows and paid != total:
        raise Refused("payments_differ", f"The payments add up to {said(paid)}, and {what} to {said(total)}; "
                                         "make them agree, or leave the payments out.")  # fmt: skip
    return rows


def way(body: dict) -> str | None:
    """The one way by which all was paid; None where it is not told, or there were several."""
    ways = {row["how"] for row in body.get("payments") or []}
    return body.get("payment") if not ways else ways.pop() if len(ways) == 1 else None


def weights(rows: list[dict], pieces: list[int]) -> list:
    """What an amount is divided by: the weights as given, or the pieces where no row has one."""
    given = [row.get("weight") for row in rows]
    return pieces if all(weight is None for weight in given) else given


def spread(costs: list[dict], weights: list) -> list[list[dict]]:
    """Cost lines for each row, each line divided to the cent. Refused where the weights cannot carry it."""
    try:
        return shares.split_costs(costs, weights)
    except BadSplit as problem:
        raise Refused("bad_weights", str(problem)) from None


def divide(total: int, weights: list) -> list[int]:
    """An amount divided to the cent. Refused where the weights cannot carry it."""
    if not all(weight is not None for weight in weights):
        raise Refused("bad_weights", "Give every coin a weight, or none of them.")
    try:
        return split(total, weights)
    except BadSplit as problem:
        raise Refused("bad_weights", str(problem)) from None
