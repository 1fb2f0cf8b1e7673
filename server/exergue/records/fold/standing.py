"""Where a coin is and how many pieces of it are left: its moves, read in their order.

A state is never set by hand: an entry adds a move, undoing it takes the move away, and the rest is read again.
A list of moves that cannot be read to its end is one that cannot have happened.
"""

import json
from dataclasses import dataclass, field

from ...money.events import BadEntry
from .. import quick, units
from ..tables import Coin, Move, Sale
from ..verdicts import Refused
from . import coins
from .entry import Entry

GONE = ("sold", "traded", "returned")
OWN = "in stock"


class Clash(Exception):
    """A move that does not follow from those before it. `first`: the entry by which the coin had gone, if it had."""

    def __init__(self, message: str, first: str | None = None):
        super().__init__(message)
        self.message, self.first = message, first


@dataclass
class Standing:
    """Pieces that are left (and how many are missing), the state, and whether the coin is somebody else's."""

    pieces: int
    left: int
    missing: int = 0
    state: str = OWN
    base: str = OWN  # the state it comes back to
    theirs: bool = False
    out: dict[str, int] = field(default_factory=dict)  # entry → pieces that went out by it and are not back
    since: str | None = None  # the entry by which it is where it is


def read(pieces: int, moves) -> Standing:
    """The standing after `moves` (rows of MOVES) of a record of so many pieces. Raises Clash."""
    now = Standing(pieces, pieces)
    for move in moves:
        STEPS[move[1]](now, *move)
    return now


def _out(now: Standing, fact, step, state, pieces, of):
    if pieces > now.left + now.missing:
        gone = next(reversed(now.out), now.since)
        many = f"Only {now.left} of this lot are left" if now.left else f"This coin was already {now.state}"
        raise Clash(f"{many}.", gone)
    here = min(now.left, pieces)
    now.left -= here
    now.missing -= pieces - here  # what is sold was found
    now.out[fact], now.since = pieces, fact
    if not now.left:
        now.state = "missing" if now.missing else state


def _return(now: Standing, fact, step, state, pieces, of):
    if now.out.get(of, 0) < pieces:
        raise Clash("This was already returned.")
    now.out[of] -= pieces
    if not now.out[of]:
        del now.out[of]
    if not now.left:
        now.state = now.base
    now.left += pieces
    now.since = fact


def _off(now: Standing, fact, step, state, pieces, of):
    if not now.left or now.state != now.base:
        raise Clash(f"This coin is {now.state}; it must be here before it can go elsewhere.")
    now.state, now.since = state, fact


def _back(now: Standing, fact, step, state, pieces, of):
    if now.left and now.state != now.base:
        now.state = now.base
    elif now.missing:
        now.left, now.missing, now.state = now.left + now.missing, 0, now.base if not now.left else now.state
    elif now.theirs and now.left:
        now.left, now.state = 0, "returned"
    else:
        raise Clash(f"This coin is {now.state}; it has nowhere to come back from.")
    now.since = fact


def _lost(now: Standing, fact, step, state, pieces, of):
    if pieces > now.left:
        raise Clash(f"Only {now.left} of this lot are left." if now.left else f"This coin is {now.state}.")
    now.left, now.missing = now.left - pieces, now.missing + pieces
    now.state, now.since = now.state if now.left else "missing", fact


def _theirs(now: Standing, fact, step, state, pieces, of):
    now.left, now.missing, now.theirs, now.out = now.pieces, 0, True, {}
    now.state = now.base = state
    now.since = fact


def _ours(now: Standing, fact, step, state, pieces, of):
    now.left, now.missing = pieces, 0  # what was with us, or had gone back and was bought then
    if now.state in (now.base, "returned"):
        now.state = OWN
    now.base, now.theirs, now.out, now.since = OWN, False, {}, fact


def _came(now: Standing, fact, step, state, pieces, of):
    if now.theirs or (now.missing and not now.left):
        raise Clash("This lot is missing; enter it as back before more pieces are added to it.")
    now.state = now.state if now.left else OWN
    now.pieces, now.left, now.since = now.pieces + pieces, now.left + pieces, fact


def _held(now: Standing, fact, step, state, pieces, of):
    if not now.left:
        raise Clash(f"This coin is {now.state}; only what is still there can be held otherwise.")


STEPS = {"out": _out, "return": _return, "off": _off, "back": _back, "lost": _lost, "theirs": _theirs,
         "ours": _ours, "held": _held, "came": _came}  # fmt: skip
_MOVES = "select fact, step, state, pieces, of from move where coin = ? and live = ? order by seq, fact"


def moves(coin_id: str) -> list[tuple]:
    """The moves of a coin that stand, in their order: (entry, step, state, pieces, of)."""
    return quick.rows(_MOVES, coin_id, True)


def of(coin: Coin) -> Standing:
    found = moves(coin.id)
    first = coin.pieces - sum(move[3] for move in found if move[1] == "came")
    if first < 1:
        raise Clash("More pieces were added to this lot since.")
    return read(first, found)


def settle(coin: Coin, entry: Entry) -> None:
    """Make the record say what follows from its moves and costs, and save it. Raises Clash."""
    now = of(coin)
    coin.state, coin.left, coin.theirs = now.state, now.left, now.theirs
    price(coin)
    coins.stamp(coin, entry)


def price(coin: Coin) -> None:
    """What the coin cost: what it came in for, and the later costs that lie on it; unknown, where the first is. Raises Clash."""
    if coin.theirs or (coin.pieces == 1 and not quick.there("select 1 from added where coin = ?", coin.id)):
        found = quick.row("select total from bought where coin = ?", coin.id)
        coin.cost = coin.cost_left = found and found[0]
        return
    try:
        made = units.worked(coin.id, coin.pieces)
    except BadEntry as problem:
        raise Clash(str(problem)) from None
    coin.cost, here = units.cost(made, coin.id)
    coin.cost_left = here if coin.left else coin.cost


def reprice(coin: Coin) -> None:
    """`price`, where what is entered cannot be. Raises Refused."""
    try:
        price(coin)
    except Clash as clash:
        raise Refused("not_there", clash.message) from None


def resettle(coin: Coin, entry: Entry, why: str) -> None:
    """Settle after something was taken away. Raises Refused where a later entry rests on it."""
    try:
        settle(coin, entry)
    except Clash:
        raise Refused("rests_on", f"{why} was followed by another entry about this coin; undo that first.") from None


def add(entry: Entry, fact_id: str, coin: Coin, step: str, **more) -> None:
    """One more move of this coin, without asking whether it fits: `settle` does."""
    quick.insert(Move, coin=coin.id, fact=fact_id, seq=entry.seq, step=step, day=entry.day, **more)


def put_aside(coin_id: str, fact_id: str, live: bool = False) -> None:
    """An entry's part in this coin stands no more, or does again."""
    for table in (Move, Sale):
        table.update(live=live).where(table.coin == coin_id, table.fact == fact_id).execute()


def wanted(coin: Coin, given: int | None) -> int:
    """Pieces that an entry is about: as given, or all that are left (of a coin that has gone: all it had)."""
    if given is not None and given > coin.pieces:
        raise Refused("too_many", f"This record has {coin.pieces} {'piece' if coin.pieces == 1 else 'pieces'}; give that many at most.")
    return given or coin.left or coin.pieces


def choice(coin: Coin, pieces: int, of: str | None) -> str | None:
    """The entry by which the pieces meant came, None for the first in. Refused where it brought none, or one must be named."""
    if of is not None:
        if not quick.there("select 1 from bought where coin = ? and purchase = ?", coin.id, of):
            raise Refused("not_from_there", "None of these pieces came by the entry that is named; name one by which they came.")
        return of
    if coin.pieces > 1 and pieces < coin.left and not coin.theirs:
        chosen = quick.row('select value from setting where "key" = ?', "lots")
        if chosen and json.loads(chosen[0]) == "specific" and len(units.here(units.worked(coin.id, coin.pieces), coin.id)) > 1:
            raise Refused("say_which", "This lot came by several purchases, and the book does not take the first in; name the purchase that the pieces are from.")  # fmt: skip
    return None


def step(entry: Entry, fact_id: str, coin: Coin, name: str, **more) -> None:
    """Add a move that must fit; Refused where it does not."""
    add(entry, fact_id, coin, name, **more)
    try:
        settle(coin, entry)
    except Clash as clash:
        raise Refused("not_there", clash.message) from None
