"""Money without a coin that comes or goes: a later cost of coins, and money that moves by itself."""

from ...money import shares
from .. import quick, units
from ..tables import Added, Deal
from ..verdicts import Refused
from . import coins, dating, paid, standing
from .entry import Entry, Outcome, merged


def cost(entry: Entry) -> Outcome:
    body, rows, costs = entry.body, entry.body["coins"], entry.body["costs"]
    if not costs:
        raise Refused("bad_body", "costs is empty; give what was paid, such as grading and its amount.")
    found = [coins.find(row["coin"]) for row in rows]
    ways = paid.payments(body, shares.total(costs), "the costs")
    parts = paid.spread(costs, paid.weights(rows, [coin.left or 1 for coin in found]))
    day = dating.after(entry, body["date"], [coin.id for coin in found], came_only=True)
    quick.insert(Deal, fact=entry.id, kind="cost", date=body["date"], party=entry.text("from"), cents=shares.total(costs),
                 costs=costs, payments=ways, note=entry.text("note"))  # fmt: skip
    late = 0
    for coin, lines in zip(found, parts, strict=True):
        quick.insert(Added, fact=entry.id, coin=coin.id, seq=entry.seq, date=body["date"], party=entry.text("from"),
                     costs=lines, total=shares.total(lines), note=entry.text("note"), day=day)  # fmt: skip
        standing.reprice(coin)
        coins.stamp(coin, entry)
        late += not coin.theirs and entry.id not in units.bearing(units.worked(coin.id, coin.pieces), coin.id)
    outcome = None
    if late:
        which = "This coin was" if len(found) == 1 else f"{late} of these coins were"
        outcome = merged(f"{which} gone already; the cost is kept as one after the sale.")
    return dating.told(entry, body["date"], {coin.id for coin in found}, outcome)


def money(entry: Entry) -> Outcome:
    body = entry.body
    where = body.get("to_how")
    if (body["what"] == "transfer") != (where is not None):
        raise Refused("bad_body", "to_how says where a transfer goes; give it for a transfer, and for nothing else.")
    if where == body["how"]:
        raise Refused("bad_body", "to_how is the same as how; a transfer goes from one to the other.")
    if (body["what"] == "consignor") != bool(entry.text("to").strip()):
        raise Refused("bad_body", "to is the owner of coins sold who is paid; give it for that, and for nothing else.")
    quick.insert(
        Deal, fact=entry.id, kind="money", party=entry.text("to").strip(), how=body["what"], way=where or "", date=body["date"], show=body.get("show"),
        cents=body["cents"], payments=[{"how": body["how"], "cents": body["cents"]}], about=entry.text("about"),
        place=entry.text("place"), note=entry.text("note"),
    )  # fmt: skip
    return Outcome()


FOLDS = {"cost": cost, "money": money}
