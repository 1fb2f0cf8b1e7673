"""Cards that follow from an entry without being named as its own: the show's cash, the other party's deals."""

from .. import quick
from ..tables import Fact, Look
from .entry import Entry

MONEY = {"purchase", "sale", "ticket", "return", "trade", "memo", "money", "cost", "away", "acquired"}
_OF_COIN = (
    "select show, party from sale where coin = ? union select d.show, d.party from move m join deal d on d.fact = m.fact "
    "where m.coin = ? union select p.show, p.party from bought b join purchase p on p.fact = b.purchase where b.coin = ?"
)
_OF_FACT = "select show, party from sale where fact = ? union select show, party from deal where fact = ?"


def touch(entry: Entry) -> None:
    """Touch the shows and the contacts whose figures the entry may have changed."""
    if entry.kind in MONEY:
        _touch_of(entry, entry.kind, entry.body)
    elif entry.kind == "void":
        target = Fact.get(Fact.id == entry.body["of"])
        if target.kind in MONEY:
            _touch_of(entry, target.kind, target.body)
            _touch_coins(entry)
    elif entry.kind == "decide":
        look = Look.get_or_none(Look.id == entry.body["look"])
        body = (look.offer.get("body") if look else None) or {}
        _touch_pair(entry, body.get("show"), _party(body))
        _touch_coins(entry)


def _touch_coins(entry: Entry) -> None:
    """Another sale may stand now, or stand no more."""
    for kind, coin in list(entry.touched):
        if kind == "coin":
            for show, party in sorted(quick.rows(_OF_COIN, coin, coin, coin), key=str):
                _touch_pair(entry, show, party)


def _touch_of(entry: Entry, kind: str, body: dict) -> None:
    _touch_pair(entry, body.get("show"), _party(body))
    if kind == "return":
        for show, party in sorted(quick.rows(_OF_FACT, body["of"], body["of"]), key=str):
            _touch_pair(entry, show, party)


def _party(body: dict) -> str:
    return body.get("from") or body.get("to") or body.get("with") or ""


def _touch_pair(entry: Entry, show: str | None, party: str) -> None:
    if show:
        entry.touch("show", show)
    if party:
        for (key,) in quick.rows("select id from contact where name = ? order by id", party):
            entry.touch("contact", key)
