"""One coin's own little accounts: which of its pieces are here, what they cost, and what was gained on those that left.

Made of what stands in the tables about this coin alone, in the order of the book, by the very rules of the accounts; so a
card and the accounts cannot say two things of a lot. Of a single coin without later costs nothing of this is needed.
"""

import json
from datetime import date

from ..money import events
from ..money.books import Books
from . import quick

_BOUGHT = (
    'select b.purchase, b.costs, b.total, p.day, p."at", p.how, b.value, (select pieces from move m where m.coin = b.coin and m.fact = b.purchase '
    "and m.step = ?) from bought b join purchase p on p.fact = b.purchase where b.coin = ?"
)
_ADDED = "select fact, costs, day, seq from added where coin = ?"
_MOVES = "select fact, step, pieces, cents, costs, of, day, seq from move where coin = ? and live = ? order by seq, fact"
_OURS = "select pieces from move where coin = ? and step = ? and live = ?"


def worked(coin: str, pieces: int) -> Books:
    """Books of this one coin of so many pieces, ever. Raises BadEntry where what stands cannot have been. Change nothing in them.

    What a fold asks for its card asks again: the last books are kept, together with the very rows that they were made of.
    """
    global _last
    rows = (coin, pieces, quick.rows(_MOVES, coin, True), quick.rows(_BOUGHT, "came", coin), quick.rows(_ADDED, coin),
            quick.row(_OURS, coin, "ours", True))  # fmt: skip
    held = _last
    if held is None or held[0] != rows:
        held = _last = rows, _made(*rows)
    return held[1]


_last: tuple | None = None


def _made(coin: str, pieces: int, moves, bought, added, came_to_us) -> Books:
    ours = next((at for at, move in enumerate(moves) if move[1] == "ours"), None)
    if ours is not None:  # what was somebody's is ours from then on
        moves = moves[ours + 1 :]
    first = pieces - sum(move[2] for move in moves if move[1] == "came")
    history, begins = [], None
    if ours is not None:
        first = came_to_us[0]
    if ours is None:  # a purchase that tells how it came takes the place of this
        history.append(events.Acquired(id="entered", date=date.min, how="entered", coins=(events.In(coin, first),)))
    for fact, costs, total, day, at, how, value, more in bought:
        row = events.In(coin, more or first, more=bool(more))
        if how == "gift":  # two bases: what it counts as having cost, and its value that day
            row = row._replace(basis=total, value=value)
            history.append(events.Acquired(**_head(fact, day, at), how=how, coins=(row,)))
        else:
            lines = tuple(json.loads(costs)) if total is not None else ()
            history.append(events.Purchase(**_head(fact, day, at), bought=(row,), costs=lines))
        begins = (day, at) if ours is not None and not more else begins
    for fact, costs, day, seq in added:
        if begins and (day, 2 * seq) < begins:  # while it was somebody's
            continue
        history.append(events.Cost(**_head(fact, day, 2 * seq), coins=(events.Out(coin),), costs=tuple(json.loads(costs))))
    for fact, step, count, cents, costs, of, day, seq in moves:
        made = _move(coin, step, count, cents or 0, costs, of, _head(fact, day, 2 * seq))
        if made is not None:
            history.append(made)
    return Books.of(history)


def _head(fact: str, day: str, at: int) -> dict:
    return {"id": fact, "date": date.fromisoformat(day), "order": at}


def _move(coin, step, count, cents, costs, of, head):
    if step == "out":
        lines = ({"what": "other", "cents": costs},) if costs else ()
        return events.Ticket(**head, sold=(events.Out(coin, count, of=of),), price=cents, costs=lines)
    if step == "return":
        return events.Return(**head, of=of, coins=(coin,), pieces=count)
    if step == "off":
        return events.Away(**head, coins=(coin,))
    if step == "back":
        return events.Back(**head, coins=(coin,))
    if step == "lost":
        return events.Lost(**head, coin=coin, pieces=count, of=of)
    return None


def cost(made: Books, coin: str) -> tuple[int | None, int | None]:
    """(what all its pieces cost that came and are not lost to another account, what those cost that are left), cents."""
    record = made.records[coin]
    gone = [each.part for each in record.gone if each.undone is None]
    return _known(record.units + gone), _known(record.units)


def _known(units) -> int | None:
    return None if any(unit.unknown for unit in units) else sum(unit.cents for unit in units)


def bearing(made: Books, coin: str) -> set[str]:
    """The later costs that lie on the coin, by entry; others came when it was not here."""
    record = made.records[coin]
    units = [*record.units, *(each.part for each in record.gone)]
    return {line.fact for unit in units for line in unit.lines}


def gains(made: Books, coin: str) -> dict[str, tuple[int | None, int | None]]:
    """Of each entry by which pieces went: (its whole gain, that of the pieces not given back); None: not known."""
    found: dict[str, list] = {}
    for each in made.records[coin].gone:
        found.setdefault(each.fact, []).append(each)
    return {fact: (_sum(rows), _sum([each for each in rows if each.undone is None])) for fact, rows in found.items()}


def _sum(rows) -> int | None:
    return None if any(each.gain is None for each in rows) else sum(each.gain for each in rows)


def here(made: Books, coin: str) -> list[str]:
    """The entries whose pieces are here, first in first."""
    return list(dict.fromkeys(unit.fact for unit in made.records[coin].units))


def rows(made: Books, coin: str) -> list[dict]:
    """The units of cost that are here, first in first: {fact, left, costs: cents of each line that lies on them, or None}."""
    return [{"fact": unit.fact, "left": unit.pieces, "costs": None if unit.unknown else [line.cents for line in unit.lines]}
            for unit in made.records[coin].units]  # fmt: skip


def loss_basis(made: Books, coin: str) -> tuple[bool, int | None]:
    """(whether what is here has a basis of its own for a loss, as a gift worth less than its donor's basis has; that basis)."""
    units = made.records[coin].units
    bases = [gift.for_loss if gift else unit.cost for unit in units for gift in [unit.basis()[1]]]
    apart = all(not unit.unknown for unit in units) and bases != [unit.cost for unit in units]
    return apart, None if None in bases else sum(bases)
