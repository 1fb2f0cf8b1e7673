"""Coins that come in: bought, or acquired by another road."""

from decimal import Decimal

from ...money import coming, events, shares
from ...money.gains import GiftBasis
from .. import quick
from ..tables import Bought, Coin, Purchase, Receipt
from ..verdicts import Refused
from . import coins, dating, paid, standing
from .entry import Entry, Outcome, contested, raise_look


def taken(row: dict) -> bool:
    """Whether the label is on another coin, on one that was already bought, or on somebody's that is not here."""
    found = quick.row("select pieces, theirs, state from coin where id = ?", row["coin"])
    if found is None or adds(row):
        return False
    return bool(row["set"]) or first_coming(row["coin"]) is not None or (bool(found[1]) and _not_here(row["coin"], found[2]))


def _not_here(coin_id: str, state: str) -> bool:
    return state in ("sold", "traded", "missing") or bool(standing.of(Coin.get_by_id(coin_id)).missing)


def first_coming(coin_id: str) -> str | None:
    """The entry that says how the coin came, before any pieces were added to it."""
    found = quick.row(_FIRST, coin_id, "came")
    return found and found[0]


_FIRST = (
    "select b.purchase from bought b where b.coin = ? and not exists "
    "(select 1 from move m where m.coin = b.coin and m.fact = b.purchase and m.step = ?)"
)


def adds(row: dict) -> bool:
    """Whether the row adds pieces to a lot of ours: it says how many, and nothing else of the coin."""
    if row["set"] or not row.get("pieces"):
        return False
    found = quick.row("select pieces, theirs from coin where id = ?", row["coin"])
    return bool(found) and found[0] > 1 and not found[1] and first_coming(row["coin"]) is not None


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
    if adds(row):
        return row["pieces"]
    told = {one["pieces"] for one in (row, row["set"]) if one.get("pieces") is not None}
    held = None if row["set"] else quick.row("select pieces from coin where id = ?", row["coin"])
    told |= {held[0]} if held else set()
    if len(told) > 1:
        raise Refused("pieces_differ", "The entry gives two numbers of pieces for one coin; give one, or change the record first.")
    return told.pop() if told else 1


def bring_in(entry: Entry, fact_id: str, row: dict, lines: list[dict], **more) -> Coin:
    """Put one coin in stock with its cost lines; None as the cents of a line: nobody knows the cost. `more`: of a gift."""
    known = None not in [line["cents"] for line in lines]
    total = shares.total(lines) if known else None
    lines = lines if known else []
    share = {"purchase": fact_id, "costs": lines, "total": total, "want": row.get("want")} | more
    if row.get("want"):
        entry.touch("want", row["want"])
    if adds(row):
        coin = Coin.get_by_id(row["coin"])
        quick.insert(Bought, coin=coin.id, **share)
        coin.pieces += row["pieces"]
        standing.step(entry, fact_id, coin, "came", pieces=row["pieces"])
        return coin
    if coins.is_there(row["coin"]):
        coin = Coin.get_by_id(row["coin"])
        quick.insert(Bought, coin=coin.id, **share)
        if coin.theirs:
            there = coin.left or coin.pieces - sum(standing.of(coin).out.values()) or coin.pieces
            standing.add(entry, fact_id, coin, "ours", pieces=there)
            standing.settle(coin, entry)
        else:
            standing.reprice(coin)
            coins.stamp(coin, entry)
        return coin
    about = row["set"] if row.get("pieces") is None else row["set"] | {"pieces": row["pieces"]}
    coin = coins.create(entry, row["coin"], about, total)
    quick.insert(Bought, coin=coin.id, **share)
    return coin


def for_wants(body: dict) -> list[dict]:
    """The rows that a purchase or a trade brings in, each with the want that it fills; a purchase's own is its first coin's."""
    rows = body.get("bought") or body.get("in") or []
    return [{"want": body["want"]} | rows[0], *rows[1:]] if body.get("want") else rows


def purchase(entry: Entry) -> Outcome:
    return record_purchase(entry, entry.id, entry.body)


def record_purchase(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Record the purchase `fact_id`; nothing of it, where a label is already on another coin."""
    rows, costs = for_wants(body), body["costs"]
    pieces = [pieces_of(row) for row in rows]
    ways = paid.payments(body, shares.total(costs), "the costs")
    foreign = body.get("foreign")
    if foreign and not Decimal(foreign["rate"]):
        raise Refused("bad_body", "foreign.rate is 0; give what one unit of that currency is worth, such as 1.08.")
    clash = label_clash(entry, "purchase", fact_id, body, rows)
    if clash:
        return clash
    costs = all_costs(entry, costs, foreign)
    parts = paid.spread(costs, paid.weights(rows, pieces)) if costs else [UNKNOWN] * len(rows)
    quick.insert(
        Purchase, fact=fact_id, date=body["date"], party=body.get("from") or "", show=body.get("show"),
        payment=paid.way(body), payments=ways, note=body.get("note") or "", costs=costs, total=shares.total(costs),
        foreign=foreign, **place(entry, body["date"], rows),
    )  # fmt: skip
    if body.get("receipt"):
        quick.insert(Receipt, fact=fact_id, of=fact_id, photo=body["receipt"])
    for row, lines in zip(rows, parts, strict=True):
        bring_in(entry, fact_id, row, lines)
    return dating.told(entry, body["date"], {row["coin"] for row in rows})


UNKNOWN = [{"what": "price", "cents": None}]  # without a cost line nobody knows the cost; a line of 0 says it was free


def all_costs(entry: Entry, costs: list[dict], foreign: dict | None) -> list[dict]:
    """The costs to be shared, a foreign price reckoned in the book's money. Refused, when it comes, where two prices differ."""
    if foreign is None:
        return costs
    said = events.Foreign(foreign["currency"], foreign["cents"], foreign["rate"])
    try:
        return coming.all_costs(tuple(costs), said, paid.currency())
    except ValueError as problem:
        if entry.fresh:
            raise Refused("prices_differ", str(problem)) from None
        return costs


def place(entry: Entry, own: str, rows: list[dict]) -> dict:
    """{day, at}: where coins that come in stand in the book."""
    known = [row for row in rows if coins.is_there(row["coin"])]
    others = {row["coin"] for row in known if adds(row) or Coin.get_by_id(row["coin"]).theirs}
    day, at = dating.coming(entry, own, {row["coin"] for row in known} - others, others)
    return {"day": day, "at": at}


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
    ways = paid.payments(body, sum(row.get("paid") or 0 for row in rows), "what was paid")
    worth = [_worth(how, row) for row in rows]
    total = sum(amount or 0 for amount in worth)
    quick.insert(
        Purchase, fact=fact_id, how=how, date=body["date"], party=body.get("from") or "", note=body.get("note") or "",
        costs=[{"what": how, "cents": total}], total=total, payments=ways, payment=paid.way(body), **place(entry, body["date"], rows),
    )  # fmt: skip
    for row, amount in zip(rows, worth, strict=True):
        bring_in(entry, fact_id, row, [{"what": how, "cents": amount}], **_gift(how, row))
    return dating.told(entry, body["date"], {row["coin"] for row in rows})


GIFTS = {"basis": "the donor's adjusted basis", "since": "the donor's day", "gift_tax": "an addition for gift tax",
         "paid": "what was paid for a gift in part"}  # fmt: skip


def _check_road(how: str, row: dict, day: str) -> None:
    for name, said in GIFTS.items():
        if how != "gift" and row.get(name) is not None:
            raise Refused("bad_body", f"coins.{name} is {said}, which only a gift has; leave it out.")
    if (row.get("since") or day) > day:
        raise Refused("bad_body", "coins.since is after the gift; give the day from which the donor held the coin.")
    if row.get("gift_tax") and row.get("basis") is None:
        raise Refused("bad_body", "coins.gift_tax is added to the donor's basis; give the basis, too.")


def _worth(how: str, row: dict) -> int | None:
    """What the coin counts as having cost, in cents; None: unknown. A gift as the law has it (money/gains.py)."""
    if how == "gift":
        return GiftBasis(row.get("basis"), row.get("value"), row.get("gift_tax") or 0, row.get("paid") or 0).for_gain
    return row.get("value")


def _gift(how: str, row: dict) -> dict:
    return {"since": row.get("since"), "value": row.get("value")} if how == "gift" else {"since": row.get("since")}


FOLDS = {"purchase": purchase, "acquired": acquired}
