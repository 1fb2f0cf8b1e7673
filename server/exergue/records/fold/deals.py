"""Coins that come in: bought, or acquired by another road."""

from decimal import Decimal

from ...money import shares
from .. import quick
from ..tables import Bought, Coin, Purchase
from ..verdicts import Refused
from . import coins, paid, standing
from .entry import Entry, Outcome, contested, raise_look


def taken(row: dict) -> bool:
    """Whether the label is on another coin, or on one that was already bought."""
    if not coins.is_there(row["coin"]):
        return False
    return bool(row["set"]) or quick.there("select 1 from bought where coin = ?", row["coin"])


def label_clash(entry: Entry, kind: str, fact_id: str, body: dict, rows: list[dict], used=taken) -> Outcome | None:
    """Check what is said of the coins; the contest, where a label is on another coin and nothing may go in."""
    for row in rows:
        coins.check_about(entry, row["set"])
    for row in rows:
        if used(row):
            named = {} if kind == "purchase" else {"kind": kind}
            raise_look(entry, "label_used_twice", ("coin", row["coin"]), {"purchase": fact_id, "body": body} | named)
            return contested("label_used_twice", "This label is already on another coin. Both entries are kept.",
                             {"coin": row["coin"]})  # fmt: skip
    return None


def pieces_of(row: dict) -> int:
    """How many pieces a row brings in; those of the record, where the book has the coin. Refused where two numbers differ."""
    told = {one["pieces"] for one in (row, row["set"]) if one.get("pieces") is not None}
    held = None if row["set"] else quick.row("select pieces from coin where id = ?", row["coin"])
    told |= {held[0]} if held else set()
    if len(told) > 1:
        raise Refused("pieces_differ", "The entry gives two numbers of pieces for one coin; give one, or change the record first.")
    return told.pop() if told else 1


def bring_in(entry: Entry, fact_id: str, row: dict, lines: list[dict], since: str | None = None) -> Coin:
    """Put one coin in stock with its cost lines; None as the cents of a line: nobody knows the cost."""
    known = None not in [line["cents"] for line in lines]
    total = shares.total(lines) if known else None
    lines = lines if known else []
    if coins.is_there(row["coin"]):
        coin = Coin.get_by_id(row["coin"])
        quick.insert(Bought, coin=coin.id, purchase=fact_id, costs=lines, total=total, since=since)
        if coin.theirs:
            standing.add(entry, fact_id, coin, "ours")
            standing.settle(coin, entry)
        else:
            standing.price(coin)
            coins.stamp(coin, entry)
        return coin
    about = row["set"] if row.get("pieces") is None else row["set"] | {"pieces": row["pieces"]}
    coin = coins.create(entry, row["coin"], about, total)
    quick.insert(Bought, coin=coin.id, purchase=fact_id, costs=lines, total=total, since=since)
    return coin


def purchase(entry: Entry) -> Outcome:
    return record_purchase(entry, entry.id, entry.body)


def record_purchase(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Record the purchase `fact_id`; nothing of it, where a label is already on another coin."""
    rows, costs = body["bought"], body["costs"]
    pieces = [pieces_of(row) for row in rows]
    ways = paid.payments(body, shares.total(costs), "the costs")
    foreign = body.get("foreign")
    if foreign and not Decimal(foreign["rate"]):
        raise Refused("bad_body", "foreign.rate is 0; give what one unit of that currency is worth, such as 1.08.")
    clash = label_clash(entry, "purchase", fact_id, body, rows)
    if clash:
        return clash
    parts = paid.spread(costs, paid.weights(rows, pieces))
    quick.insert(
        Purchase, fact=fact_id, date=body["date"], party=body.get("from") or "", show=body.get("show"),
        payment=paid.way(body), payments=ways, note=body.get("note") or "", costs=costs, total=shares.total(costs),
        foreign=foreign, want=body.get("want"),
    )  # fmt: skip
    if body.get("want"):
        entry.touch("want", body["want"])
    for row, lines in zip(rows, parts, strict=True):
        bring_in(entry, fact_id, row, lines)
    return Outcome()


def acquired(entry: Entry) -> Outcome:
    return record_acquired(entry, entry.id, entry.body)


def record_acquired(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Record coins that came without a purchase; nothing of it, where a label is already on another coin."""
    how, rows = body["how"], body["coins"]
    for row in rows:
        pieces_of(row)
        _check_road(how, row, body["date"])
    clash = label_clash(entry, "acquired", fact_id, body, rows)
    if clash:
        return clash
    worth = [_worth(how, row) for row in rows]
    total = sum(amount or 0 for amount in worth)
    quick.insert(
        Purchase, fact=fact_id, how=how, date=body["date"], party=body.get("from") or "", note=body.get("note") or "",
        costs=[{"what": how, "cents": total}], total=total,
    )  # fmt: skip
    for row, amount in zip(rows, worth, strict=True):
        bring_in(entry, fact_id, row, [{"what": how, "cents": amount}], row.get("since"))
    return Outcome()


GIFTS = {"basis": "the donor's adjusted basis", "since": "the donor's day", "gift_tax": "an addition for gift tax"}


def _check_road(how: str, row: dict, day: str) -> None:
    for name, said in GIFTS.items():
        if how != "gift" and row.get(name) is not None:
            raise Refused("bad_body", f"coins.{name} is {said}, which only a gift has; leave it out.")
    if (row.get("since") or day) > day:
        raise Refused("bad_body", "coins.since is after the gift; give the day from which the donor held the coin.")
    if row.get("gift_tax") and row.get("basis") is None:
        raise Refused("bad_body", "coins.gift_tax is added to the donor's basis; give the basis, too.")


def _worth(how: str, row: dict) -> int | None:
    """What the coin counts as having cost, in cents; None: unknown. A gift carries the donor's basis on
    (IRS Publication 551, "Property Received as a Gift", from memory)."""
    if how == "gift":
        return None if row.get("basis") is None else row["basis"] + (row.get("gift_tax") or 0)
    return row.get("value")


FOLDS = {"purchase": purchase, "acquired": acquired}
