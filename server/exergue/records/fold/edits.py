"""A coin's fields, edited and edited back."""

from ..kinds import fields_of
from ..knowledge import check_coin
from ..tables import Coin
from ..verdicts import Refused
from . import coins, merge, standing
from .entry import Entry, Outcome

RULES = fields_of("coin")
ISSUE = {"denom", "type", "year", "mint"}  # what the catalogue can contradict


def edit(entry: Entry) -> Outcome:
    coin = coins.find(entry.body["coin"])
    changes, clashes = merge.merge(coin, RULES, entry.body["base"], entry.body["set"])
    if entry.fresh and changes.keys() & ISSUE:  # a coin that was recorded before the catalogue knew better stays editable
        check_coin({name: getattr(coin, name) for name in ISSUE} | changes)
    seen = entry.body.get("seen")
    moved_on = seen is not None and seen < coin.fact_seq and coin.fact_device != entry.device
    if changes:
        change(entry, coin, changes)
    return merge.outcome(entry, ("coin", coin.id), clashes, moved_on)


def change(entry: Entry, coin: Coin, changes: dict) -> None:
    """Give the coin these values. Refused where fewer pieces would be left than have gone."""
    for name, value in changes.items():
        setattr(coin, name, value)
    if "pieces" not in changes:
        return coins.stamp(coin, entry)
    try:
        standing.settle(coin, entry)
    except standing.Clash:
        raise Refused("too_few", "More pieces of this lot have gone than that; give all that it had when it came.") from None


def undo(entry: Entry, target) -> Outcome | None:
    coin = coins.find(target.body["coin"])
    base, new = merge.fields(RULES, target.body["base"]), merge.fields(RULES, target.body["set"])
    back, kept = {}, []
    for name, value in new.items():
        if name in base and getattr(coin, name) == value:
            back[name] = base[name]
        elif name not in base or getattr(coin, name) != base[name]:
            kept.append(name)
    change(entry, coin, back)
    if kept:
        names = " and ".join(merge.SAID.get(name, name) for name in kept)
        return merge.merged(f"The {names} was changed again since and stays as it is.")


FOLDS = {"coin.edit": edit}
