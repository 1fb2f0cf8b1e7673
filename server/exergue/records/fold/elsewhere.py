"""Coins that are not where they usually are: on memo, at grading, missing, back again, or held otherwise."""

from .. import quick
from ..tables import Coin, Deal, Move
from ..verdicts import Refused
from . import coins, dating, deals, standing
from .entry import Entry, Outcome, merged

STATES = {"memo": "on memo", "consignment": "on consignment", "grading": "at grading"}


def _head(fact_id: str, kind: str, body: dict, **more) -> None:
    quick.insert(Deal, fact=fact_id, kind=kind, date=body["date"], party=body.get("with") or "", note=body.get("note") or "", **more)


def memo(entry: Entry) -> Outcome:
    return record_memo(entry, entry.id, entry.body)


def record_memo(entry: Entry, fact_id: str, body: dict) -> Outcome:
    """Our coins with somebody else, or somebody's with us; nothing of it, where a label is already on another coin."""
    rows, state, due = body["coins"], STATES[body["kind"]], body.get("due")
    if due and due < body["date"]:
        raise Refused("bad_body", "due is before the date; give the day by which the coins are to be back.")
    head = {"how": body["kind"], "way": body["way"], "due": due}
    if body["way"] == "out":
        found = [_ours(row) for row in rows]
        dating.after(entry, body["date"], [coin.id for coin in found])
        _head(fact_id, "memo", body, **head)
        for coin, row in zip(found, rows, strict=True):
            standing.step(entry, fact_id, coin, "off", state=state, pieces=coin.left, cents=row["net"])
        return dating.told(entry, body["date"], [coin.id for coin in found])
    rows = [row | {"set": row.get("set") or {}} for row in rows]
    for row in rows:
        deals.pieces_of(row)
    clash = deals.label_clash(entry, "memo", fact_id, body, rows, taken)
    if clash:
        return clash
    _head(fact_id, "memo", body, **head)
    dating.after(entry, body["date"], [row["coin"] for row in rows])
    for row in rows:
        known = Coin.get_or_none(Coin.id == row["coin"])
        coin = known or coins.create(entry, row["coin"], row["set"])
        standing.step(entry, fact_id, coin, "theirs", state=state, pieces=coin.pieces, cents=row["net"])
    return dating.told(entry, body["date"], [row["coin"] for row in rows])


def _ours(row: dict) -> Coin:
    coin = coins.find(row["coin"])
    if coin.theirs:
        raise Refused("not_ours", "This coin is somebody else's; it can only go back to its owner.")
    if row.get("set"):
        raise Refused("bad_body", "coins.set is for a coin that comes in; leave it out where our own goes out.")
    return coin


def taken(row: dict) -> bool:
    """Whether a coin cannot come in under this label: it is another's, or its coin was ours, or is here."""
    here = 'select 1 from coin where id = ? and ("left" > 0 or theirs = ? or state = ?)'
    used = bool(row["set"]) and coins.is_there(row["coin"])
    return used or quick.there(here, row["coin"], False, "missing")


def away(entry: Entry) -> Outcome:
    body = entry.body
    found = [coins.find(key) for key in body["coins"]]
    _head(entry.id, "away", body, how=body["why"])
    dating.after(entry, body["date"], body["coins"])
    for coin in found:
        standing.step(entry, entry.id, coin, "off", state=STATES.get(body["why"], "away"), pieces=coin.left)
    return dating.told(entry, body["date"], body["coins"])


def back(entry: Entry) -> Outcome:
    body = entry.body
    found = [coins.find(key) for key in body["coins"]]
    coming = [coin for coin in found if not _is_back(coin)]
    if not coming:
        return merged("It was back already.")
    _head(entry.id, "back", body)
    dating.after(entry, body["date"], [coin.id for coin in coming])
    for coin in coming:
        standing.step(entry, entry.id, coin, "back", was=coin.state, pieces=coin.left)
    outcome = None if len(coming) == len(found) else merged("Some of these were back already.")
    return dating.told(entry, body["date"], [coin.id for coin in coming], outcome)


def _is_back(coin: Coin) -> bool:
    """Somebody's coin that went back to its owner, or ours that is here with nothing missing."""
    if coin.theirs:
        return coin.state == "returned"
    return coin.state == standing.OWN and not standing.of(coin).missing


def lost(entry: Entry) -> Outcome:
    body, coin = entry.body, coins.find(entry.body["coin"])
    if coin.state == "missing":
        return merged("It was already recorded as missing.")
    _head(entry.id, "lost", body, how=body["how"], cents=body.get("reimbursed"))
    pieces = standing.wanted(coin, body.get("pieces"))
    of = standing.choice(coin, pieces, body.get("of"))
    dating.after(entry, body["date"], [coin.id])
    standing.step(entry, entry.id, coin, "lost", state="missing", pieces=pieces, cents=body.get("reimbursed"), of=of)
    return dating.told(entry, body["date"], [coin.id])


def withdrawn(entry: Entry) -> Outcome:
    body = entry.body
    found = [coins.find(key) for key in body["coins"]]
    _head(entry.id, "withdrawn", body, how=body["to"])
    dating.after(entry, body["date"], body["coins"])
    for coin in found:
        if coin.theirs:
            raise Refused("not_ours", "This coin is somebody else's; only a coin of our own can be held otherwise.")
        was, coin.held = coin.held, body["to"]
        standing.step(entry, entry.id, coin, "held", state=body["to"], was=was, pieces=coin.left)
    return dating.told(entry, body["date"], body["coins"])


def undo_withdrawn(rows: list[Move], found: dict[str, Coin]) -> bool:
    """Hold the coins as before, unless that was changed since; whether it was. They are saved by who undoes."""
    later = "select 1 from move where coin = ? and step = ? and seq > ?"
    if any(quick.there(later, row.coin_id, "held", row.seq) for row in rows):
        raise Refused("rests_on", "This withdrawal was followed by another of the same coin; undo that first.")
    kept = False
    for row in rows:
        coin = found[row.coin_id]
        kept = kept or coin.held != row.state
        coin.held = row.was if coin.held == row.state else coin.held
    return kept


FOLDS = {"memo": memo, "away": away, "back": back, "lost": lost, "withdrawn": withdrawn}
