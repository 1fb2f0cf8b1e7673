"""The show floor: what is packed, counts, the drawer, whether a show is closed, differences explained."""

from .. import floor_cards, quick
from ..tables import Closing, Drawer, Pack, Packed, Round, Seen, Settled
from ..verdicts import Refused
from . import coins
from .entry import Entry, Outcome, merged


def find_show(key: str) -> None:
    if not quick.there("select 1 from show where id = ?", key):
        raise Refused("no_such_show", "The book has no such show.")


def pack(entry: Entry) -> Outcome:
    """Coins go to a show, or are taken out again. What says nothing new is kept all the same: the last word counts."""
    show, out = entry.body["show"], bool(entry.body.get("undo"))
    find_show(show)
    found = [coins.find(key) for key in entry.body["coins"]]
    was = [quick.row("select box from packed where coin = ? and show = ?", coin.id, show) for coin in found]
    for coin in found:
        quick.insert(Pack, coin=coin.id, fact=entry.id, show=show, seq=entry.seq, box=entry.text("box").strip(), taken_out=out)
        _repack(entry, coin.id, show)
    if out and not any(was):
        return merged("These coins were not packed for this show.")
    if not out and all(row == (entry.text("box").strip(),) for row in was):
        return merged("These coins were packed for this show already.")
    return Outcome()


def _repack(entry: Entry, coin: str, show: str) -> None:
    """Whether the coin is packed, read from the last word on it."""
    quick.run("delete from packed where coin = ? and show = ?", coin, show)
    last = quick.row("select seq, box, taken_out from pack where coin = ? and show = ? order by seq desc limit 1", coin, show)
    if last and not last[2]:
        quick.insert(Packed, coin=coin, show=show, seq=last[0], box=last[1])
    entry.touch("coin", coin)
    entry.touch("show", show)


def undo_pack(entry: Entry, target) -> None:
    quick.run("delete from pack where fact = ?", target.id)
    for coin in target.body["coins"]:
        if coins.is_there(coin):
            _repack(entry, coin, target.body["show"])


def count(entry: Entry) -> Outcome:
    """Labels scanned in a round. The work goes by the labels of this entry, however many the round has."""
    body, key = entry.body, entry.body["count"]
    show = body.get("show")
    if show:
        find_show(show)
    held = quick.row("select show, seen, scans from round where id = ?", key)
    if held and held[0] != show:
        raise Refused("other_show", "This round of counting is of another show; begin a round of its own.")
    new = sum(not _is_seen(key, row["coin"]) for row in body["seen"])
    for row in body["seen"]:
        quick.insert(Seen, fact=entry.id, coin=row["coin"], round=key, place=entry.text("place").strip(), how=row.get("how") or "scan",
                     when_ms=entry.when_ms, device=entry.device)  # fmt: skip
    if held is None:
        quick.insert(Round, id=key, show=show, seq=entry.seq, when_ms=entry.when_ms, began_ms=entry.received_ms, seen=0, scans=0)
        if not show:
            _retell_stock(entry, key, entry.received_ms)
    _tally(entry, key, new, len(body["seen"]))
    entry.touch("seen", entry.id)
    return Outcome()


def _is_seen(round_id: str, coin: str) -> bool:
    return quick.there("select 1 from seen where round = ? and coin = ?", round_id, coin)


def _tally(entry: Entry, key: str, new: int, scans: int) -> None:
    quick.run("update round set seen = seen + ?, scans = scans + ? where id = ?", new, scans, key)
    entry.touch("round", key)


def undo_count(entry: Entry, target) -> None:
    key, rows = target.body["count"], target.body["seen"]
    quick.run("delete from seen where fact = ?", target.id)
    _tally(entry, key, -sum(not _is_seen(key, row["coin"]) for row in rows), -len(rows))
    gone = quick.row("select began_ms from round where id = ? and scans = ?", key, 0)
    quick.run("delete from round where id = ? and scans = ?", key, 0)
    if gone and not target.body.get("show"):
        _retell_stock(entry, key, gone[0])
    entry.touch("seen", target.id)


def drawer(entry: Entry) -> Outcome:
    body = entry.body
    find_show(body["show"])
    if not all(row["cents"] for row in body["pieces"]):
        raise Refused("bad_body", "pieces.cents is 0; give what one such coin or note is worth.")
    quick.insert(Drawer, fact=entry.id, show=body["show"], seq=entry.seq, date=body["date"], pieces=body["pieces"],
                 cents=sum(row["cents"] * row["number"] for row in body["pieces"]))  # fmt: skip
    entry.touch("show", body["show"])
    return Outcome()


def closing(entry: Entry) -> Outcome:
    show, closed = entry.body["show"], entry.kind == "show.close"
    find_show(show)
    was = floor_cards.closed(show)
    quick.insert(Closing, fact=entry.id, show=show, seq=entry.seq, closed=closed, date=entry.body["date"])
    _retell(entry, show)
    if closed == bool(was):
        return merged("This show was closed already." if closed else "This show is open already.")
    return Outcome()


def _retell(entry: Entry, show: str) -> None:
    """The scans of a closed show leave the phones; those of one that is open again come back."""
    entry.touch("show", show)
    for (fact,) in quick.rows("select distinct s.fact from seen s join round r on r.id = s.round where r.show = ? order by s.fact", show):
        entry.touch("seen", fact)


_STOCK = (
    "select distinct s.fact from seen s join round r on r.id = s.round where r.show is null and r.began_ms <= ? and not exists "
    "(select 1 from round n where n.show is null and n.id <> ? and n.began_ms >= r.began_ms + ?) order by s.fact"
)


def _retell_stock(entry: Entry, key: str, began: int) -> None:
    """A round of the whole stock begins, or is gone: the scans of those that are past by it leave the phones, or come back."""
    for (fact,) in quick.rows(_STOCK, began - floor_cards.WEEK_MS, key, floor_cards.WEEK_MS):
        entry.touch("seen", fact)


def settle(entry: Entry) -> Outcome:
    quick.insert(Settled, fact=entry.id, show=entry.body.get("show"), key=entry.body["key"], seq=entry.seq, note=entry.text("note").strip())
    return Outcome()


def _take_away(table):
    def undo(entry: Entry, target) -> None:
        table.delete().where(table.fact == target.id).execute()
        show = target.body.get("show")
        if table is Closing:
            _retell(entry, show)
        elif show:
            entry.touch("show", show)

    return undo


FOLDS = {"pack": pack, "count": count, "drawer": drawer, "show.close": closing, "show.open": closing, "settle": settle}
UNDO = {"pack": undo_pack, "count": undo_count, "drawer": _take_away(Drawer), "show.close": _take_away(Closing),
        "show.open": _take_away(Closing), "settle": _take_away(Settled)}  # fmt: skip
