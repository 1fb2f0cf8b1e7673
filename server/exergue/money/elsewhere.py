"""Coins that are elsewhere, or here and not ours: memo and consignment both ways, at grading, withdrawn, back again."""

from dataclasses import replace

from .events import HELD, Away, Back, BadEntry, Memo, Withdrawn
from .going import find, found_again
from .ledger import add
from .standing import MEMO_STATES, Elsewhere, Record, missing


def ours(books, coin: str) -> Record:
    record = books.records.get(coin)
    if record is None or not record.units:
        other = books.others.get(coin)
        if other is not None:
            raise BadEntry(f"{coin} is not ours but {other.party or 'somebody'}’s.")
        raise BadEntry(f"{coin} is not here: {'it is not in these books' if record is None else 'it is ' + record.state}.")
    return record


def at_home(books, coins: tuple[str, ...], any_: bool = False) -> list[Record]:
    """Our coins that are in the case; `any_`: there may be none. Raises BadEntry."""
    if not (coins or any_) or len(set(coins)) < len(coins):
        raise BadEntry("Say which coins it is about, each once.")
    records = [ours(books, coin) for coin in coins]
    for record in records:
        if record.state != "in stock":
            raise BadEntry(f"{record.coin} is {record.state}; book it back first.")
    return records


def memo(books, event: Memo) -> dict[str, int]:
    if event.kind not in MEMO_STATES:
        raise BadEntry(f"Coins are out on memo or on consignment, not on “{event.kind}”.")
    coins = tuple(line.coin for line in event.coins)
    if event.way == "out":
        for record, line in zip(at_home(books, coins), event.coins, strict=True):
            record.state = MEMO_STATES[event.kind]
            record.out = Elsewhere(record.coin, event.with_, line.net, event.kind, event.id, event.date, event.due)
        return {}
    if event.way != "in":
        raise BadEntry("Say whether the coins go out or come in.")
    if not coins or len(set(coins)) < len(coins):
        raise BadEntry("Say which coins came in, each once.")
    for coin in coins:
        record = books.records.get(coin)
        if coin in books.others or coin in books.lost_of_others:
            raise BadEntry(f"{coin} is with us already.")
        if record is not None and (record.units or record.state == "missing"):
            raise BadEntry(f"{coin} is ours, so nobody can have left it with us.")
    for line in event.coins:
        books.others[line.coin] = Elsewhere(line.coin, event.with_, line.net, event.kind, event.id, event.date, event.due, line.pieces)
        books.ever_others.add(line.coin)
    return {}


def away(books, event: Away) -> dict[str, int]:
    theirs = [books.others[coin] for coin in event.coins if coin in books.others]
    for other in theirs:
        if other.away:
            raise BadEntry(f"{other.coin} is away; book it back first.")
    for record in at_home(books, tuple(coin for coin in event.coins if coin not in books.others), any_=bool(theirs)):
        record.state = _state(event)
        record.out = Elsewhere(record.coin, event.with_, None, event.why, event.id, event.date)
    for other in theirs:
        books.others[other.coin] = replace(other, away=_state(event))
    return {}


def _state(event: Away) -> str:
    return "at grading" if event.why == "grading" else "away"


def back(books, event: Back) -> dict[str, int]:
    """Ours is in the case again; somebody's has gone back to its owner."""
    if not event.coins or len(set(event.coins)) < len(event.coins):
        raise BadEntry("Say which coins came back, each once.")
    for coin in event.coins:
        if coin not in books.others and coin not in books.lost_of_others and not _out(books.records.get(coin)):
            raise BadEntry(f"{coin} was not away, so it cannot come back.")
    postings: dict[str, int] = {}
    for coin in event.coins:
        other = books.others.get(coin)
        if other is not None and other.away:
            books.others[coin] = replace(other, away="")
        elif coin in books.lost_of_others:
            found_again(books, postings, event, coin)
        elif other is not None:
            del books.others[coin]
        else:
            _home(books, postings, books.records[coin], event)
    return postings


def _out(record: Record | None) -> bool:
    if record is None:
        return False
    return bool(missing(record)) or (bool(record.units) and record.state != "in stock")


def _home(books, postings: dict[str, int], record: Record, event: Back) -> None:
    if record.units and record.state != "in stock":
        record.state, record.out = "in stock", None
        return
    find(books, postings, record, sum(each.pieces for each in missing(record)), event.date)


def withdrawn(books, event: Withdrawn) -> dict[str, int]:
    """Coins are held otherwise from now on, at their cost."""
    if event.to not in HELD:
        raise BadEntry(f"A coin is held as one of {', '.join(HELD)}, not as “{event.to}”.")
    if not event.coins or len(set(event.coins)) < len(event.coins):
        raise BadEntry("Say which coins are withdrawn, each once.")
    records = [ours(books, coin) for coin in event.coins]
    postings: dict[str, int] = {}
    for record in records:
        known = sum(unit.cents for unit in record.units)
        add(postings, f"coins:{record.held}", -known)
        add(postings, f"coins:{event.to}", known)
        record.held = event.to
    return postings
