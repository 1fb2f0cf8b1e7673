"""Coins for coins, and the boot that makes it even."""

from ...money import shares
from .. import quick
from ..tables import Deal, Purchase
from ..verdicts import Refused
from . import coins, deals, paid, selling, standing
from .entry import Entry, Outcome


def trade(entry: Entry) -> Outcome:
    return record_trade(entry, entry.id, entry.body)


def record_trade(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Record the trade `fact_id`; nothing of it, where the label of a coin that comes in is already on another.

    A coin that comes in cost its value in the trade; costs are borne by the coins that go out.
    """
    out, come, boot = body["out"], body["in"], body["boot"]
    if {row["coin"] for row in out} & {row["coin"] for row in come}:
        raise Refused("bad_body", "A coin of this trade stands on both sides; give the one that comes in its own label.")
    _check_balance(out, come, boot)
    ways = paid.payments(body, abs(boot), "the boot")
    for row in come:
        deals.pieces_of(row)
    leaving = [coins.find(row["coin"]) for row in out]
    counts = [standing.wanted(coin, row.get("pieces")) for coin, row in zip(leaving, out, strict=True)]
    values, costs = [row["value"] for row in out], body.get("costs") or []
    parts = paid.spread(costs, values if any(values) else [1] * len(values))
    clash = deals.label_clash(entry, "trade", fact_id, body, come, taken)
    if clash:
        return clash
    head = {"fact": fact_id, "date": body["date"], "party": body.get("with") or "", "show": body.get("show"),
            "note": body.get("note") or ""}  # fmt: skip
    quick.insert(Deal, kind="trade", cents=boot, costs=costs, payments=ways, **head)
    total = sum(row["value"] for row in come)
    quick.insert(Purchase, how="trade", costs=[{"what": "trade", "cents": total}], total=total, **head)
    clashes = []
    for coin, count, row, lines in zip(leaving, counts, out, parts, strict=True):
        move = {"state": "traded", "pieces": count, "cents": row["value"], "costs": shares.total(lines)}
        if selling.let_go(entry, fact_id, coin, move, coin.id):
            clashes.append(coin.id)
    for row in come:
        deals.bring_in(entry, fact_id, row, [{"what": "trade", "cents": row["value"]}])
    return selling.gone(clashes, len(out), "traded")


def taken(row: dict) -> bool:
    """Whether a coin cannot come in under this label: it is another's, or its coin was bought, or has gone."""
    if deals.taken(row):
        return True
    found = quick.row('select "left", theirs from coin where id = ?', row["coin"])
    return bool(found) and not found[0] and not found[1]


def _check_balance(out: list[dict], come: list[dict], boot: int) -> None:
    given, got = sum(row["value"] for row in out), sum(row["value"] for row in come)
    off = given - got - boot
    if off:
        way = "received" if boot >= 0 else "paid"
        raise Refused("unbalanced", f"The sides of the trade differ by {paid.said(abs(off))}: {paid.said(given)} goes out, "
                                    f"{paid.said(got)} comes in, {paid.said(abs(boot))} boot {way}; change a value or the boot.")  # fmt: skip


FOLDS = {"trade": trade}
