"""The part of a coin's card that tells of its money and its whereabouts.

A card says nothing of what is usual: one piece, ours, here, held as the book's setting says.
"""

import json

from ..money import lots
from . import quick, units

_FIRST = (
    'select b.costs, p.fact, p.date, p.party, p.show, p.payment, p.note, p.total, p.how, p.payments, p."foreign", b.since '
    "from bought b join purchase p on p.fact = b.purchase where b.coin = ? and b.purchase not in "
    "(select fact from move where coin = b.coin and step = 'came') order by p.day, p.at"
)
_MORE = (
    "select b.costs, p.fact, p.date, p.party, m.pieces from bought b join purchase p on p.fact = b.purchase "
    "join move m on m.fact = b.purchase and m.coin = b.coin and m.step = 'came' where b.coin = ? order by p.day, p.at"
)
_CAME = (
    "select p.show, p.how from bought b join purchase p on p.fact = b.purchase "
    "where b.coin = ? and p.show is not null order by p.day, p.at"
)
_ADDED = "select costs, fact, date, seq from added where coin = ? order by seq"
_MOVES = (
    "select m.fact, m.seq, m.step, m.state, m.pieces, m.cents, m.costs, m.of, d.kind, d.how, d.way, d.due, "
    "coalesce(d.date, s.date), coalesce(d.party, s.party), coalesce(d.show, s.show), coalesce(d.note, s.note), "
    "s.price, s.costs, s.payment from move m left join deal d on d.fact = m.fact "
    "left join sale s on s.fact = m.fact and s.coin = m.coin where m.coin = ? and m.live = ? order by m.seq, m.fact"
)
_NAMES = ("fact", "seq", "step", "state", "pieces", "cents", "costs", "of", "kind", "how", "way", "due", "date",
          "party", "show", "note", "price", "lines", "payment")  # fmt: skip


def moves(key: str) -> list[dict]:
    """What happened to a coin, in order, each with its date and party."""
    return [dict(zip(_NAMES, row, strict=True)) for row in quick.rows(_MOVES, key, True)]


def whereabouts(state: str, happened: list[dict]) -> dict:
    """{where: {with, date, why, due?}} of a coin that is not simply here: with whom, since when, why, until when."""
    for move in reversed(happened):
        if move["step"] in ("off", "theirs", "lost") and move["state"] == state:
            due = {"due": move["due"]} if move["due"] else {}
            return {"where": {"with": move["party"], "date": move["date"], "why": move["how"]} | due}
    return {}


def purchase(key: str) -> dict:
    """{costs, purchase} by which the coin came in; a line without `fact` is of that purchase."""
    found = quick.row(_FIRST, key)
    if found is None:
        return {"costs": [], "purchase": None}
    names = ("fact", "date", "from", "show", "payment", "note", "total")
    how, payments, foreign, since = found[8], json.loads(found[9]), found[10], found[11]
    more = {"how": how} if how != "purchase" else {}
    more |= {"payments": payments} if payments else {}
    more |= {"foreign": json.loads(foreign)} if foreign else {}
    more |= {"since": since} if since else {}
    return {"costs": json.loads(found[0]), "purchase": dict(zip(names, found[1:8], strict=True)) | more}


def parts(key: str, made) -> dict:
    """{units?, loss_basis?} of what is here. `units`, of a lot whose pieces came by several entries: [{fact, left, costs, date,
    from, how?}], first in first; `loss_basis`, where a gift has one that is not its cost: cents, None for not known."""
    rows, told = units.rows(made, key), {}
    if len({row["fact"] for row in rows}) > 1:
        deals = {row[0]: row[1:] for row in quick.rows(_CAME_BY, key)}
        for row in rows:
            day, party, how = deals.get(row["fact"]) or ("", "", "entered")
            row |= {"date": day, "from": party} | ({"how": how} if how != "purchase" else {})
        told["units"] = rows
    apart, basis = units.loss_basis(made, key)
    return told | ({"loss_basis": basis} if apart else {})


_CAME_BY = "select p.fact, p.date, p.party, p.how from bought b join purchase p on p.fact = b.purchase where b.coin = ?"


def receipts(key: str) -> dict:
    """{receipts?}: the photos of receipts by the entry of this coin that they are of, {entry: [photo]}."""
    found: dict[str, list[str]] = {}
    for of, photo in quick.rows(_RECEIPTS, key, key, key):
        found.setdefault(of, []).append(photo)
    return {"receipts": found} if found else {}


_RECEIPTS = (
    "select of, photo from receipt where of in (select purchase from bought where coin = ? union select fact from move where coin = ? "
    "union select fact from added where coin = ?) order by fact"
)


def asking(card: dict) -> int | None:
    """Cents asked for what is left of a coin; of one that has gone whole, what was asked for all of it."""
    if card["ask"] is None or not card.get("left"):
        return card["ask"]
    return lots.asked(card["ask"], card["pieces"], card["left"])


def came(key: str) -> dict:
    """{came?: {show: "bought" | "traded in"}}: the shows at which the coin, or pieces of it, came in. No amount, no party."""
    found = quick.rows(_CAME, key)
    return {"came": {show: "traded in" if how == "trade" else "bought" for show, how in found}} if found else {}


def later_costs(key: str, made) -> list[dict]:
    """Lines [{what, cents, fact, date, after?, pieces?, from?}] of pieces added to a lot, so many and from whom, and of later
    costs. `after`: the coin had gone by then, so that the cost is none of the coin's. `made`: the coin's own accounts
    (units.py), None where it was never ours."""
    lies = units.bearing(made, key) if made else set()
    more = [(*row[:3], {"pieces": row[4], "from": row[3]}) for row in quick.rows(_MORE, key)]
    paid = [(*row[:3], {} if made is None or row[1] in lies else {"after": True}) for row in quick.rows(_ADDED, key)]
    return [
        {"what": line["what"], "cents": line["cents"], "fact": fact, "date": date} | said
        for costs, fact, date, said in more + paid
        for line in json.loads(costs)
    ]


def history(row: dict, cost: int | None, happened: list[dict], made=None) -> dict:
    """{sale, moves?}: the sale that stands, and everything since the purchase that touched the coin's money.

    A gain is what came in, less what that cost us, less the cost of those pieces; None where that is unknown. `made`: the
    coin's own accounts (units.py), where it is a lot or had later costs.
    """
    gains = units.gains(made, row["id"]) if made else {}
    went, lines, sales, pieces, net = 0, [], {}, row["pieces"], None
    for move in happened:
        if move["step"] == "came":  # told among the costs
            continue
        if move["step"] == "ours":
            net = None
            continue
        if move["step"] == "theirs":
            went, net = 0, move["cents"]
        line = {"fact": move["fact"], "kind": move["kind"] or "sale", "date": move["date"], "with": move["party"],
                "how": move["how"] or move["way"] or "", "cents": move["cents"]}  # fmt: skip
        line |= {"pieces": move["pieces"]} if pieces > 1 else {}
        line |= {"way": "in"} if move["step"] == "theirs" else {"of": move["of"]} if move["step"] == "return" else {}
        line |= {"due": move["due"]} if move["due"] else {}
        if move["step"] == "out":
            basis = net if net is not None and cost is None else cost
            share = None if basis is None else lots.some(basis, pieces, went, move["pieces"])
            went += move["pieces"]
            line["gain"] = None if share is None else move["cents"] - move["costs"] - share
            line["gain"], stands = gains.get(move["fact"], (line["gain"], line["gain"]))
            sales[move["fact"]] = [move, move["pieces"], stands]
        elif move["step"] == "return":
            went -= move["pieces"]
            sales[move["of"]][1] -= move["pieces"]
        lines.append(line)
    sold = [(move, gain) for move, left, gain in sales.values() if left and move["state"] == "sold"]
    told = {"sale": _sale(*sold[-1], pieces) if sold and row["state"] == "sold" else None}
    return told | ({"moves": lines} if [line["kind"] for line in lines] not in ([], ["sale"]) else {})


def _sale(move: dict, gain: int | None, pieces: int) -> dict:
    sale = {"fact": move["fact"], "price": move["price"], "costs": json.loads(move["lines"]), "to": move["party"],
            "date": move["date"], "show": move["show"], "payment": move["payment"], "note": move["note"], "gain": gain}  # fmt: skip
    return sale | ({"pieces": move["pieces"]} if pieces > 1 else {})
