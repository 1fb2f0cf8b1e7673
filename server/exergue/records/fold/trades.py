"""Coins for coins, and the boot that makes it even."""

from ...money import shares
from .. import quick
from ..tables import Deal, Purchase, Receipt
from ..verdicts import Refused
from . import coins, dating, deals, paid, selling, standing
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
    chosen = [standing.choice(coin, count, row.get("of")) for coin, count, row in zip(leaving, counts, out, strict=True)]
    values, costs = [row["value"] for row in out], body.get("costs") or []
    parts = paid.spread(costs, values if any(values) else [1] * len(values))
    clash = deals.label_clash(entry, "trade", fact_id, body, come, taken)
    if clash:
        return clash
    head = {"fact": fact_id, "date": body["date"], "party": body.get("with") or "", "show": body.get("show"),
            "note": body.get("note") or ""}  # fmt: skip
    quick.insert(Deal, kind="trade", cents=boot, costs=costs, payments=ways, **head)
    total = sum(row["value"] for row in come)
    place = _place(entry, body["date"], leaving, come)
    quick.insert(Purchase, how="trade", costs=[{"what": "trade", "cents": total}], total=total, **head, **place)
    if body.get("receipt"):
        quick.insert(Receipt, fact=fact_id, of=fact_id, photo=body["receipt"])
    clashes = []
    for coin, count, of, row, lines in zip(leaving, counts, chosen, out, parts, strict=True):
        move = {"state": "traded", "pieces": count, "cents": row["value"], "costs": shares.total(lines), "of": of}
        if selling.let_go(entry, fact_id, coin, move, coin.id):
            clashes.append(coin.id)
    for row in come:
        deals.bring_in(entry, fact_id, row, [{"what": "trade", "cents": row["value"]}])
    about = {coin.id for coin in leaving} | {row["coin"] for row in come}
    return dating.told(entry, body["date"], about, selling.gone(clashes, len(out), "traded"))


def _place(entry: Entry, own: str, leaving: list, come: list[dict]) -> dict:
    """{day, at} of a trade: what goes out was here before. A coin that comes in and that the book had may have moved already."""
    known = {row["coin"] for row in come if coins.is_there(row["coin"])}
    dating.after(entry, own, {coin.id for coin in leaving} | known)
    return {"day": entry.day, "at": 2 * entry.seq}


def taken(row: dict) -> bool:
    """Whether a coin cannot come in under this label: it is another's, or its coin was bought, or went anywhere."""
    if deals.adds(row):
        return False
    if deals.taken(row):
        return True
    found = quick.row("select theirs from coin where id = ?", row["coin"])
    return bool(found) and not found[0] and quick.there("select 1 from move where coin = ? and live = ?", row["coin"], True)


def _check_balance(out: list[dict], come: list[dict], boot: int) -> None:
    given, got = sum(row["value"] for row in out), sum(row["value"] for row in come)
    off = given - got - boot
    if off:
        way = "received" if boot >= 0 else "paid"
        raise Refused("unbalanced", f"The sides of the trade differ by {paid.said(abs(off))}: {paid.said(given)} goes out, "
                                    f"{paid.said(got)} comes in, {paid.said(abs(boot))} boot {way}; change a value or the boot.")  # fmt: skip


FOLDS = {"trade": trade}
