"""Coins that are sold: one, or several and parts of lots on one ticket.

A coin that had gone already clashes: the whole entry is kept, and its line for that coin alone waits
for a decision. The other lines stand, for those coins did change hands.
"""

from ...money import shares
from .. import quick
from ..tables import Coin, Deal, Move, Sale
from ..verdicts import Refused
from . import coins, dating, paid, standing
from .entry import Entry, Outcome, contested, raise_look

MANY = "Both entries are kept."


def let_go(entry: Entry, fact_id: str, coin: Coin, move: dict, part: str = "") -> standing.Clash | None:
    """Let a coin go by `move` (state, pieces, cents, costs). The clash, kept and looked at, where it had gone already."""
    standing.add(entry, fact_id, coin, "out", **move)
    try:
        standing.settle(coin, entry)
    except standing.Clash as clash:
        standing.put_aside(coin.id, fact_id)
        raise_look(entry, "sold_twice", ("coin", coin.id), {"first": clash.first, "second": fact_id}, part)
        return clash
    return None


def sale(entry: Entry) -> Outcome:
    coin, body = coins.find(entry.body["coin"]), entry.body
    costs, pieces = body.get("costs") or [], standing.wanted(coin, None)
    dating.after(entry, body["date"], [coin.id])
    quick.insert(
        Sale, fact=entry.id, coin=coin.id, price=body["price"], pieces=pieces, costs=costs, party=entry.text("to"),
        date=body["date"], show=body.get("show"), payment=body.get("payment"), note=entry.text("note"), live=True,
    )  # fmt: skip
    move = {"state": "sold", "pieces": pieces, "cents": body["price"], "costs": shares.total(costs)}
    clash = let_go(entry, entry.id, coin, move)
    if clash is None:
        return dating.told(entry, body["date"], [coin.id])
    if coin.state == "sold":
        return contested("sold_twice", "This coin was already sold. Both sales are kept.", went(coin, clash.first))
    return contested("sold_twice", f"{clash.message} {MANY}", went(coin, clash.first))


def went(coin: Coin, fact_id: str) -> dict:
    """{price, date, to} of the entry by which the coin had gone."""
    sold = Sale.get_or_none(Sale.coin == coin, Sale.fact == fact_id)
    if sold:
        return {"price": sold.price, "date": sold.date, "to": sold.party}
    move = Move.get(Move.coin == coin, Move.fact == fact_id)
    deal = Deal.get(Deal.fact == fact_id)
    return {"price": move.cents, "date": deal.date, "to": deal.party}


def ticket(entry: Entry) -> Outcome:
    body, rows = entry.body, entry.body["sold"]
    found = [coins.find(row["coin"]) for row in rows]
    pieces = [standing.wanted(coin, row.get("pieces")) for coin, row in zip(found, rows, strict=True)]
    chosen = [standing.choice(coin, count, row.get("of")) for coin, count, row in zip(found, pieces, rows, strict=True)]
    dating.after(entry, body["date"], [coin.id for coin in found])
    prices = _prices(body["price"], rows, pieces)
    tax = _tax(body)
    ways = paid.payments(body, body["price"] + tax, "price and tax" if tax else "the price")
    costs = body.get("costs") or []
    parts = paid.spread(costs, prices if any(prices) else pieces)
    quick.insert(
        Deal, fact=entry.id, kind="ticket", date=body["date"], party=entry.text("to"), show=body.get("show"),
        cents=body["price"], discount=body.get("discount"), tax=body.get("tax"), exempt=body.get("exempt"), costs=costs,
        payments=ways, note=entry.text("note"),
    )  # fmt: skip
    clashes = []
    for coin, count, of, price, lines in zip(found, pieces, chosen, prices, parts, strict=True):
        quick.insert(
            Sale, fact=entry.id, coin=coin.id, price=price, pieces=count, costs=lines, party=entry.text("to"),
            date=body["date"], show=body.get("show"), payment=paid.way(body), note=entry.text("note"), live=True,
        )  # fmt: skip
        move = {"state": "sold", "pieces": count, "cents": price, "costs": shares.total(lines), "of": of}
        if let_go(entry, entry.id, coin, move, coin.id):
            clashes.append(coin.id)
    return dating.told(entry, body["date"], [coin.id for coin in found], gone(clashes, len(rows), "sold"))


def gone(clashes: list[str], many: int, how: str) -> Outcome:
    """The verdict on an entry of which these coins clash."""
    if not clashes:
        return Outcome()
    if len(clashes) == many:
        whole = "This coin was" if many == 1 else "These coins were"
        return contested("sold_twice", f"{whole} already gone. {MANY}", {"coins": clashes})
    which = "One coin" if len(clashes) == 1 else f"{len(clashes)} coins"
    return contested("sold_twice", f"{which} of this entry had already gone; the others are {how}. {MANY}", {"coins": clashes})


def _prices(price: int, rows: list[dict], pieces: list[int]) -> list[int]:
    """The price of each line: as given, or the agreed price divided by weight. Cents."""
    given = [row.get("price") for row in rows]
    if all(one is None for one in given):
        return paid.divide(price, paid.weights(rows, pieces))
    if None in given:
        raise Refused("line_prices", "Some lines have a price and some have none; give one for every line, or for none.")
    if sum(given) != price:
        raise Refused("line_prices", f"The lines add up to {paid.said(sum(given))}, and the price is {paid.said(price)}; "
                                     "make them agree.")  # fmt: skip
    return given


def _tax(body: dict) -> int:
    """Sales tax on top of the price, cents."""
    tax = (body.get("tax") or {}).get("cents") or 0
    if tax and body.get("exempt"):
        raise Refused("exempt_and_taxed", "A sale that is exempt has no sales tax; leave out the one or the other.")
    return tax


FOLDS = {"sale": sale, "ticket": ticket}
