"""A person settles what could not be merged."""

from ..tables import Coin, Look, Sale
from ..verdicts import Refused
from . import coins, deals, lists
from .entry import Entry, Outcome, merged


def decide(entry: Entry) -> Outcome:
    look = Look.get_or_none(Look.id == entry.body["look"])
    if look is None:
        if not entry.fresh:  # what it put aside was of a kind that this desk has learnt since
            return Outcome()
        raise Refused("no_such_look", "Nothing of this number waits for a decision.")
    if not look.open:
        return merged("This was already decided.")
    choice = entry.body["choice"]
    if choice not in CHOICES[look.kind]:
        raise Refused("no_such_choice", "This choice does not fit what waits.")
    outcome = CHOICES[look.kind][choice](entry, look) or Outcome()
    look.open, look.choice, look.decided_by = False, choice, entry.id
    look.save()
    entry.touch(*look.subject.split("/", 1))
    return outcome


def nothing(entry: Entry, look: Look):
    return None


def take_edit(entry: Entry, look: Look):
    kind, key = look.subject.split("/", 1)
    name, value = look.offer["field"], look.offer["proposed"]
    if kind == "coin":
        coin = coins.find(key)
        setattr(coin, name, value)
        coins.stamp(coin, entry)
    elif kind == "setting":
        lists.set_setting(key, value, entry)
    else:
        table = lists.TABLES[kind]
        table.update(**{name: value}, fact_seq=entry.seq).where(table.id == key).execute()
        entry.touch(kind, key)


def take_check(entry: Entry, look: Look):
    key = look.subject.split("/", 1)[1]
    coins.set_check(key, look.offer["field"], look.offer["proposed"], look.offer["note"], entry)


def second_sale(entry: Entry, look: Look):
    key = look.subject.split("/", 1)[1]
    Sale.update(live=False).where(Sale.coin == key).execute()  # whichever stood: one sale stands at a time
    Sale.update(live=True).where(Sale.fact == look.offer["second"]).execute()


def new_label(entry: Entry, look: Look):
    """The later coin takes another ID, or its own where that was freed; its waiting entry then goes in under it."""
    old = look.subject.split("/", 1)[1]
    fresh = entry.body.get("coin") or old
    if "purchase" not in look.offer:
        if coins.is_there(fresh):
            raise Refused("id_used", "Give a label that is on no other coin.")
        coins.create(entry, fresh, look.offer["set"])
        Coin.update(made_by=look.fact).where(Coin.id == fresh).execute()
        return None
    body = look.offer["body"]
    bought = [row | {"coin": fresh} if row["coin"] == old else row for row in body["bought"]]
    if len({row["coin"] for row in bought}) < len(bought):
        raise Refused("id_used", "This label is on another coin of the same purchase; give one that is free.")
    if any(row["coin"] == fresh and (deals.taken(row) if fresh == old else coins.is_there(fresh)) for row in bought):
        raise Refused("id_used", "Give a label that is on no other coin.")
    outcome = deals.record_purchase(entry, look.offer["purchase"], body | {"bought": bought})
    Coin.update(made_by=look.offer["purchase"]).where(Coin.made_by == entry.id).execute()
    return outcome


CHOICES = {
    "edit": {"keep": nothing, "take": take_edit},
    "check": {"keep": nothing, "take": take_check},
    "sold_twice": {"first": nothing, "second": second_sale},
    "label_used_twice": {"drop": nothing, "new_id": new_label},
    "unknown_kind": {"drop": nothing},
    "fault": {"drop": nothing},
}
FOLDS = {"decide": decide}
