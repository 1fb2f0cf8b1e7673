"""Undoing an entry by a later one."""

from ..kinds import fields_of
from ..tables import Bought, Check, Coin, Fact, Look, Note, Photo, Purchase, Sale, Voided
from ..verdicts import REFUSED, Refused
from . import coins, deals, merge
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
        if target.id in (look.fact, look.offer.get("purchase")):
            look.open, look.choice, look.decided_by = False, "undone", entry.id
            look.save()
            entry.touch(*look.subject.split("/", 1))


def undo_purchase(entry: Entry, target: Fact):
    rows = list(Bought.select().where(Bought.purchase == target.id).order_by(Bought.coin))
    bought = [Coin.get_by_id(row.coin_id) for row in rows]
    for coin in bought:
        refuse_if_sold(coin)
    for coin in bought:
        if coin.made_by == target.id:
            coins.forget(coin, entry)
        else:
            coin.cost = None
            coins.stamp(coin, entry)
    Purchase.delete().where(Purchase.fact == target.id).execute()
    if target.body.get("want"):  # what it brought is sought again
        entry.touch("want", target.body["want"])


def refuse_if_sold(coin: Coin) -> None:
    if deals.live_sale(coin.id):
        raise Refused("sold_since", "The coin was sold since; undo the sale first.")


def undo_add(entry: Entry, target: Fact):
    coin = Coin.get_or_none(Coin.made_by == target.id)
    if coin is None:
        return
    refuse_if_sold(coin)
    if Bought.get_or_none(Bought.coin == coin):
        raise Refused("bought_since", "A purchase was recorded for this coin since; undo that first.")
    coins.forget(coin, entry)


def undo_sale(entry: Entry, target: Fact):
    sale = Sale.get_or_none(Sale.fact == target.id)
    if sale is None:
        return
    coin = Coin.get_by_id(sale.coin_id)
    rival = (
        Sale.select()
        .join(Look, on=(Look.fact == Sale.fact))
        .where(Sale.coin == coin, Sale.fact != sale.fact, Look.kind == "sold_twice", Look.open == True)  # noqa: E712
        .order_by(Sale.fact)
        .first()
    )
    was_live = sale.live
    sale.delete_instance()
    if was_live and rival:  # the other sale of the same coin now stands
        rival.live = True
        rival.save()
        close_looks(entry, Fact.get(Fact.id == rival.fact))
    elif was_live and not deals.live_sale(coin.id):
        coin.state = sale.state_before
    coins.stamp(coin, entry)


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


def undo_edit(entry: Entry, target: Fact):
    coin = coins.find(target.body["coin"])
    rules = fields_of("coin")
    base, new = merge.fields(rules, target.body["base"]), merge.fields(rules, target.body["set"])
    kept = []
    for name, value in new.items():
        if name in base and getattr(coin, name) == value:
            setattr(coin, name, base[name])
        elif name not in base or getattr(coin, name) != base[name]:
            kept.append(name)
    coins.stamp(coin, entry)
    if kept:
        names = " and ".join(merge.SAID.get(name, name) for name in kept)
        return merged(f"The {names} was changed again since and stays as it is.")


UNDO = {"purchase": undo_purchase, "sale": undo_sale, "coin.add": undo_add, "coin.edit": undo_edit,
        "note": undo_note, "check": undo_check, "photo": undo_photo}  # fmt: skip
FOLDS = {"void": void}
