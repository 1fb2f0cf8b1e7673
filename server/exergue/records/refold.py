"""Folding the whole journal again: to prove the tables, and to renew them after an upgrade."""

import hashlib

from . import cards
from .fold import Entry, Outcome
from .journal import Turn, fold, publish
from .store import memory_database, write
from .tables import ALL, FOLDED, Card, CardSum, Fact, dumps
from .verdicts import REFUSED

UNKNOWN = "unknown_kind"
UNORDERED = {"Card": {"seq"}, "CardSum": {"sum"}}  # numbers that depend on when a card was renewed


def empty() -> None:
    for table in reversed(FOLDED):
        table.delete().execute()


def replay(turn: Turn, facts) -> list[tuple[Fact, Outcome]]:
    """Fold journal lines into empty tables. Returns the lines whose verdict came out different, with the new one."""
    other = []
    for row in facts:
        unchecked = row.code == UNKNOWN  # nobody could check it when it came
        entry = Entry(row.seq, row.id, row.device, row.kind, row.when_ms, row.received_ms, row.body, fresh=unchecked)
        if row.verdict != REFUSED:
            outcome = fold(entry)
            if outcome.verdict != row.verdict or (unchecked and outcome.code != UNKNOWN):
                other.append((row, outcome))
        publish(turn, entry)
    turn.settle()
    return other


def keep_verdicts(other: list[tuple[Fact, Outcome]]) -> None:
    """What an upgrade makes of an entry is its verdict from now on.

    But what was taken once stays so: as a refused entry it would never be folded again.
    """
    for row, outcome in other:
        if outcome.verdict != REFUSED or row.code == UNKNOWN:
            Fact.update(verdict=outcome.verdict, code=outcome.code, message=outcome.message, now=None).where(
                Fact.seq == row.seq
            ).execute()


def said(other: list[tuple[Fact, Outcome]]) -> list[str]:
    return [f"Entry {row.seq} ({row.kind}) was {row.verdict}, and is {new.verdict} now." for row, new in other]


def prints() -> dict[str, str]:
    """SHA-256 of every folded table's rows, by table name."""
    out = {}
    for table in FOLDED:
        skip = UNORDERED.get(table.__name__, set())
        names = [f for f in table._meta.sorted_fields if f.name not in skip]
        digest = hashlib.sha256()
        for line in sorted(dumps(list(row)) for row in table.select(*names).where(_live(table)).tuples()):
            digest.update(line.encode() + b"\n")
        out[table.__name__] = digest.hexdigest()
    return out


def _live(table):
    return Card.open.is_null(False) if table is Card else True


def verify() -> list[str]:
    """Refold the journal beside the book and compare. Returns a sentence for each thing that disagrees."""
    facts = list(Fact.select().order_by(Fact.seq))
    found = prints()
    problems = check_sums()
    with memory_database().bind_ctx(ALL, bind_refs=False, bind_backrefs=False):
        Fact._meta.database.create_tables(ALL)
        with write():
            for start in range(0, len(facts), 500):
                Fact.insert_many([f.__data__ for f in facts[start : start + 500]]).execute()
            turn = Turn()
            problems += said(replay(turn, facts))
            turn.end()
        again = prints()
    problems += [f"Table {name} does not follow from the journal." for name in found if found[name] != again[name]]
    return problems


def check_sums() -> list[str]:
    """The digest sums must follow from the cards."""
    sums: dict[str, list[int]] = {}
    for kind, key, seq in Card.select(Card.kind, Card.id, Card.seq).where(Card.open.is_null(False)).tuples():
        count = sums.setdefault(kind, [0, 0])
        count[0] += 1
        count[1] = (count[1] + cards.mark(kind, key, seq)) % cards.SUM_MODULUS
    kept = {row.kind: [row.count, row.sum] for row in CardSum.select() if row.count}
    return [] if sums == kept else ["The digest sums do not follow from the cards."]


def rebuild() -> list[str]:
    """Fold the journal into this book's tables anew; cards that come out different get new numbers.

    Returns a sentence for each verdict that came out different.
    """
    facts = list(Fact.select().order_by(Fact.seq))
    with write():
        held = {(c.kind, c.id): c for c in Card.select()}
        turn = Turn()
        empty()
        turn.sums.now = {}
        other = replay(turn, facts)
        keep_verdicts(other)
        for card in list(Card.select()):
            was = held.pop((card.kind, card.id), None)
            if was and (was.open, was.own) == (card.open, card.own):
                if card.open is not None:
                    turn.sums.add(card.kind, card.id, card.seq, -1)
                    turn.sums.add(was.kind, was.id, was.seq)
                Card.update(seq=was.seq).where(Card.kind == was.kind, Card.id == was.id).execute()
        for was in held.values():  # a card that no longer is: devices must hear of it
            Card.replace(kind=was.kind, id=was.id, seq=turn.next(), open=None, own=None).execute()
        turn.end()
    return said(other)

