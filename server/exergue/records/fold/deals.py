"""Purchases and sales."""

from ...money import landed
from .. import quick
from ..tables import Bought, Coin, Purchase, Sale
from ..verdicts import Refused
from . import coins
from .entry import Entry, Outcome, contested, raise_look


def purchase(entry: Entry) -> Outcome:
    return record_purchase(entry, entry.id, entry.body)


def taken(row: dict) -> bool:
    """Whether the label is on another coin, or on one that was already bought."""
    if not coins.is_there(row["coin"]):
        return False
    return bool(row["set"]) or quick.there("select 1 from bought where coin = ?", row["coin"])


def record_purchase(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Record the purchase `fact_id`; nothing of it, where a label is already on another coin."""
    rows, costs = body["bought"], body["costs"]
    for row in rows:
        coins.check_about(entry, row["set"])
    for row in rows:
        if taken(row):
            raise_look(entry, "label_used_twice", ("coin", row["coin"]), {"purchase": fact_id, "body": body})
            return contested("label_used_twice", "This label is already on another coin. Both entries are kept.",
                             {"coin": row["coin"]})  # fmt: skip
    try:
        shares = landed.split_costs(costs, [row.get("weight") for row in rows])
    except landed.BadSplit as problem:
        raise Refused("bad_weights", str(problem)) from None
    quick.insert(
        Purchase, fact=fact_id, date=body["date"], party=body.get("from") or "", show=body.get("show"),
        payment=body.get("payment"), note=body.get("note") or "", costs=costs, total=landed.total(costs),
        want=body.get("want"),
    )  # fmt: skip
    if body.get("want"):
        entry.touch("want", body["want"])
    for row, lines in zip(rows, shares, strict=True):
        total = landed.total(lines)
        if coins.is_there(row["coin"]):
            coin = Coin.get_by_id(row["coin"])
            coin.cost = total
            coins.stamp(coin, entry)
        else:
            coins.create(entry, row["coin"], row["set"], total)
        quick.insert(Bought, coin=row["coin"], purchase=fact_id, costs=lines, total=total)
    return Outcome()


def sale(entry: Entry) -> Outcome:
    coin, body = coins.find(entry.body["coin"]), entry.body
    first = live_sale(coin.id)
    Sale.create(
        fact=entry.id, coin=coin, price=body["price"], costs=body.get("costs") or [], party=entry.text("to"),
        date=body["date"], show=body.get("show"), payment=body.get("payment"), note=entry.text("note"),
        state_before=first.state_before if first else coin.state, live=first is None,
    )  # fmt: skip
    if first:
        raise_look(entry, "sold_twice", ("coin", coin.id), {"first": first.fact, "second": entry.id})
        return contested("sold_twice", "This coin was already sold. Both sales are kept.",
                         {"price": first.price, "date": first.date, "to": first.party})  # fmt: skip
    coin.state = "sold"
    coins.stamp(coin, entry)
    return Outcome()


def live_sale(coin_id: str) -> Sale | None:
    return Sale.get_or_none((Sale.coin == coin_id) & (Sale.live == True))  # noqa: E712


FOLDS = {"purchase": purchase, "sale": sale}
