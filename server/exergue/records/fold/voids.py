"""Undoing an entry by a later one."""

from .. import quick
from ..tables import Added, Bought, Check, Coin, Deal, Evidence, Fact, Look, Move, Note, Photo, Purchase, Receipt, Sale, Voided
from ..verdicts import REFUSED, Refused
from . import coins, deals, edits, elsewhere, floor, lists, receipts, standing
from .entry import Entry, Outcome, merged


def void(entry: Entry) -> Outcome:
    target = Fact.get_or_none((Fact.id == entry.body["of"]) & (Fact.seq < entry.seq))
    if target is None or target.verdict == REFUSED:
        raise Refused("no_such_entry", "The book has no such entry to undo.")
    if Voided.get_or_none(Voided.fact == target.id):
        return merged("This entry was already undone.")
    if target.kind not in UNDO:
        raise Refused("cannot_undo", "An entry of this kind is changed by a new one, not undone.")
    outcome = UNDO[target.kind](entry, target) or Outcome()
    Voided.create(fact=target.id, by=entry.id)
    close_looks(entry, target)
    return outcome


def close_looks(entry: Entry, target: Fact) -> None:
    """Nothing of an undone entry waits any more, though a later decision may have raised the look."""
    for look in Look.select().where(Look.open == True).order_by(Look.id):  # noqa: E712
        if target.id in (look.fact, look.offer.get("purchase"), look.offer.get("second")):
            settle_look(entry, look)


def settle_look(entry: Entry, look: Look) -> None:
    look.open, look.choice, look.decided_by = False, "undone", entry.id
    look.save()
    entry.touch(*look.subject.split("/", 1))


def undo_deal(entry: Entry, target: Fact):
    """Take away all that an entry did to coins and money; what is left of it follows from the rest."""
    moves = list(Move.select().where(Move.fact == target.id).order_by(Move.coin))
    bought = [row.coin_id for row in Bought.select(Bought.coin).where(Bought.purchase == target.id)]
    added = [row.coin_id for row in Added.select(Added.coin).where(Added.fact == target.id)]
    more = {move.coin_id: move.pieces for move in moves if move.step == "came"}
    found = {key: Coin.get_by_id(key) for key in sorted({*bought, *added, *(move.coin_id for move in moves)})}
    for coin in found.values():
        if coin.made_by == target.id:
            refuse_if_used(coin, target.id)
        elif coin.id in bought and coin.id not in more:
            refuse_if_sold(coin, target.id)
    if target.kind == "withdrawn":
        kept = elsewhere.undo_withdrawn(moves, found)
    for table in (Sale, Move, Added, Deal, Purchase, Receipt):
        table.delete().where(table.fact == target.id).execute()
    for coin in found.values():
        if coin.made_by == target.id:
            coins.forget(coin, entry)
        else:
            coin.pieces -= more.get(coin.id, 0)
            standing.resettle(coin, entry, SAID.get(target.kind, "This entry"))
    for want in filter(None, (row.get("want") for row in deals.for_wants(target.body))):  # what it brought is sought again
        entry.touch("want", want)
    for move in moves:
        if move.step == "out" and move.live:
            let_rivals_stand(entry, found[move.coin_id])
    if target.kind == "withdrawn" and kept:
        return merged("The way a coin is held was changed again since and stays as it is.")


SAID = {"purchase": "This purchase", "sale": "This sale", "ticket": "This ticket", "trade": "This trade",
        "return": "This return"}  # fmt: skip


def let_rivals_stand(entry: Entry, coin: Coin) -> None:
    """Another sale of the coin that waited for a decision stands now, if there is room for it."""
    waiting = Look.select().where(Look.subject == f"coin/{coin.id}", Look.kind == "sold_twice", Look.open == True)  # noqa: E712
    for look in waiting.order_by(Look.id):
        standing.put_aside(coin.id, look.offer["second"], live=True)
        try:
            standing.settle(coin, entry)
        except standing.Clash:
            standing.put_aside(coin.id, look.offer["second"])
        else:
            settle_look(entry, look)


def refuse_if_sold(coin: Coin, but: str) -> None:
    if quick.there("select 1 from move where coin = ? and step = ? and live = ? and fact <> ?", coin.id, "out", True, but):
        raise Refused("sold_since", "The coin was sold since; undo the sale first.")


def refuse_if_used(coin: Coin, but: str) -> None:
    """A coin leaves the book with the entry that made it, unless something else was entered about its money or place."""
    refuse_if_sold(coin, but)
    if quick.there("select 1 from move where coin = ? and live = ? and fact <> ?", coin.id, True, but):
        raise Refused("used_since", "It was entered since where a coin of this went or how it is held; undo that first.")
    if quick.there("select 1 from added where coin = ? and fact <> ?", coin.id, but):
        raise Refused("cost_since", "A later cost was recorded for a coin of this since; undo that first.")


def undo_add(entry: Entry, target: Fact):
    coin = Coin.get_or_none(Coin.made_by == target.id)
    if coin is None:
        return
    refuse_if_used(coin, target.id)
    if Bought.get_or_none(Bought.coin == coin):
        raise Refused("bought_since", "A purchase was recorded for this coin since; undo that first.")
    coins.forget(coin, entry)


def undo_note(entry: Entry, target: Fact):
    Note.delete().where(Note.fact == target.id).execute()
    coin = Coin.get_or_none(Coin.id == target.body["coin"])
    if coin:
        coins.stamp(coin, entry)


def undo_photo(entry: Entry, target: Fact):
    Photo.delete().where(Photo.fact == target.id).execute()
    entry.touch("coin", target.body["coin"])


def undo_check(entry: Entry, target: Fact):
    body = target.body
    present = Check.get_or_none((Check.coin == body["coin"]) & (Check.key == body["key"]))
    if present and present.fact == target.id:
        coins.set_check(body["coin"], body["key"], body.get("base") or "", "", entry)


def undo_evidence(entry: Entry, target: Fact):
    Evidence.delete().where(Evidence.fact == target.id).execute()


UNDO = {
    "sale.seen": undo_evidence,
    "coin.add": undo_add, "coin.edit": edits.undo, "note": undo_note, "check": undo_check, "photo": undo_photo,
    "receipt": receipts.undo,
    **dict.fromkeys(("purchase", "acquired", "cost", "sale", "ticket", "return", "trade", "memo", "away", "back", "lost",
                     "withdrawn", "money"), undo_deal),
    **lists.UNDO, **floor.UNDO,
}  # fmt: skip
FOLDS = {"void": void}
