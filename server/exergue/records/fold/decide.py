"""A person settles what could not be merged."""

from ..tables import Coin, Look
from ..verdicts import Refused
from . import coins, deals, edits, elsewhere, lists, standing, trades
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
        edits.change(entry, coins.find(key), {name: value})
    elif kind == "setting":
        lists.set_setting(key, value, entry)
    else:
        table = lists.TABLES[kind]
        lists.change(entry, kind, table.get(table.id == key), {name: value})


def take_check(entry: Entry, look: Look):
    key = look.subject.split("/", 1)[1]
    coins.set_check(key, look.offer["field"], look.offer["proposed"], look.offer["note"], entry)


def second_sale(entry: Entry, look: Look):
    """The later one stands; the first does not, nor what else has to make way for it."""
    coin, first = coins.find(look.subject.split("/", 1)[1]), look.offer["first"]
    stood = list(standing.of(coin).out)
    standing.put_aside(coin.id, look.offer["second"], live=True)
    way = [fact for fact in reversed(stood) if fact != first]
    for fact in [first, *way] if first in stood else [None, *way]:
        if fact:
            standing.put_aside(coin.id, fact)
        try:
            return standing.settle(coin, entry)
        except standing.Clash:
            pass
    raise Refused("cannot_stand", "The second sale does not fit with what was entered since; undo that first.")


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
    kind, fact_id, body = look.offer.get("kind", "purchase"), look.offer["purchase"], look.offer["body"]
    rows, body = body[ROWS[kind]], relabelled(look.offer, old, fresh)
    if len({row["coin"] for row in body[ROWS[kind]]}) < len(rows):
        raise Refused("id_used", f"This label is on another coin of the same {kind}; give one that is free.")
    for row in rows:
        if row["coin"] == old and (USED[kind](row | {"set": row.get("set") or {}}) if fresh == old else coins.is_there(fresh)):
            raise Refused("id_used", "Give a label that is on no other coin.")
    outcome = RECORD[kind](entry, fact_id, body)
    Coin.update(made_by=fact_id).where(Coin.made_by == entry.id).execute()
    return outcome


def relabelled(offer: dict, old: str, fresh: str) -> dict:
    """The waiting entry's body with its coin under another label."""
    name = ROWS[offer.get("kind", "purchase")]
    rows = [row | {"coin": fresh} if row["coin"] == old else row for row in offer["body"][name]]
    return offer["body"] | {name: rows}


ROWS = {"purchase": "bought", "acquired": "coins", "trade": "in", "memo": "coins"}
RECORD = {"purchase": deals.record_purchase, "acquired": deals.record_acquired, "trade": trades.record_trade,
          "memo": elsewhere.record_memo}  # fmt: skip
USED = {"purchase": deals.taken, "acquired": deals.taken, "trade": trades.taken, "memo": elsewhere.taken}

CHOICES = {
    "edit": {"keep": nothing, "take": take_edit},
    "check": {"keep": nothing, "take": take_check},
    "dates": {"keep": nothing},
    "sold_twice": {"first": nothing, "second": second_sale},
    "label_used_twice": {"drop": nothing, "new_id": new_label},
    "unknown_kind": {"drop": nothing},
    "fault": {"drop": nothing},
}
FOLDS = {"decide": decide}
