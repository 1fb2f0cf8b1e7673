"""The photo of a receipt, added to a deal that is recorded."""

from .. import quick
from ..tables import Fact, Photo, Receipt, Voided
from ..verdicts import REFUSED, Refused
from .entry import Entry, Outcome

KINDS = ("purchase", "acquired", "cost", "sale", "ticket", "return", "trade", "memo", "money")  # that may have one
_COINS = (
    "select coin from bought where purchase = ? union select coin from move where fact = ? union select coin from added where fact = ?"
)


def receipt(entry: Entry) -> Outcome:
    of, photo = entry.body["of"], entry.body["photo"]
    target = Fact.get_or_none(Fact.id == of, Fact.seq < entry.seq)
    if target is None or target.kind not in KINDS or target.verdict == REFUSED:
        raise Refused("no_such_deal", "The book has no such deal; add the receipt to a deal that is recorded.")
    if Voided.get_or_none(Voided.fact == of):
        raise Refused("no_such_deal", "This deal was undone, so that no receipt is added to it.")
    if Receipt.get_or_none(Receipt.photo == photo) or Photo.get_or_none(Photo.photo == photo):
        raise Refused("photo_used", "This photo is already in the book.")
    quick.insert(Receipt, fact=entry.id, of=of, photo=photo)
    touch(entry, of)
    return Outcome()


def undo(entry: Entry, target: Fact) -> None:
    Receipt.delete().where(Receipt.fact == target.id).execute()
    touch(entry, target.body["of"])


def touch(entry: Entry, deal: str) -> None:
    """The coins of a deal: their cards say that there is a receipt."""
    for (coin,) in sorted(quick.rows(_COINS, deal, deal, deal)):
        entry.touch("coin", coin)


FOLDS = {"receipt": receipt}
