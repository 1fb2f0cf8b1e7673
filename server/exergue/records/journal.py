"""The one door: a fact comes in, gets its verdict, and is written with its effect in one transaction."""

import hashlib
import json
import logging
from dataclasses import replace

from . import cards, fitting, goals, kinds, quick
from .allowed import forbidden
from .clock import now_ms
from .fold import FOLDS, Entry, Outcome, around
from .fold.entry import contested, raise_look
from .store import write
from .tables import About, Device, Fact, Meta, dumps
from .uuid7 import is_uuid
from .verdicts import REFUSED, JournalError, Refused, Verdict

log = logging.getLogger(__name__)
DESK = "desk"


def digest_of(text: str) -> str:
    """What makes two facts the same: their content as JSON text, whatever their device and number."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


class Turn:
    """One write transaction's hold on the book's sequence and digest sums."""

    def __init__(self):
        self.seq = int(meta("seq", "0"))
        self.sums = cards.Sums()
        self.sets = goals.Waiting()

    def next(self) -> int:
        self.seq += 1
        return self.seq

    def settle(self) -> None:
        """Make the cards of sets again that what went before concerns: once, however many entries that were."""
        for key, at in self.sets.taken():
            renew(self, "goal", key, at)

    def end(self) -> None:
        self.settle()
        set_meta("seq", str(self.seq))
        self.sums.save()


def meta(key: str, default: str | None = None) -> str | None:
    row = Meta.get_or_none(Meta.key == key)
    return row.value if row else default


def set_meta(key: str, value: str) -> None:
    Meta.replace(key=key, value=value).execute()


def accept(device_id: str, facts: list[dict], received_ms: int | None = None, strict: bool = False) -> list[Verdict]:
    """Take facts of one device in order; all of them are on disk when this returns.

    A fact: {id, n, kind, when, body}. Facts taken before are answered with the same verdict.
    Raises JournalError (number_gap, cloned, id_reused, bad_fact), and with `strict` Refused;
    then nothing of the batch was taken.
    """
    received = now_ms() if received_ms is None else received_ms
    for fact in facts:
        check_shape(fact)
    with write():
        device = Device.get_by_id(device_id)
        turn = Turn()
        verdicts = [take(turn, device, fact, received, strict) for fact in facts]
        turn.end()
        Device.update(next_n=device.next_n).where(Device.id == device_id).execute()
    return verdicts


def check_shape(fact) -> None:
    ok = (
        isinstance(fact, dict)
        and is_uuid(fact.get("id"))
        and type(fact.get("n")) is int
        and 0 < fact["n"] < 2**31
        and isinstance(fact.get("kind"), str)
        and 0 < len(fact["kind"]) <= 40
        and type(fact.get("when")) is int
        and abs(fact["when"]) < 2**53
        and isinstance(fact.get("body"), dict)
    )
    if not ok:
        raise JournalError("bad_fact", "An entry lacks its id, number, kind, time or body.")


def take(turn: Turn, device: Device, fact: dict, received: int, strict: bool) -> Verdict:
    kind, body = fact["kind"], fact["body"]
    text = dumps([kind, fact["when"], body])
    digest = digest_of(text)
    if quick.there("select 1 from fact where id = ?", fact["id"]):
        known = Fact.get(Fact.id == fact["id"])
        if known.digest != digest:
            raise JournalError("id_reused", "Two different entries carry the same id.", id=fact["id"])
        if fact["n"] == device.next_n:  # offered again under a new identity or after a restore
            device.next_n += 1
        return verdict_of(known, fact["n"])
    if fact["n"] < device.next_n:
        raise JournalError("cloned", "This number was used for another entry: two phones share one identity.")
    if fact["n"] > device.next_n:
        raise JournalError("number_gap", "Entries are missing before this one.", next_n=device.next_n)
    unfit = fitting.problem(text)
    if unfit and strict:
        raise unfit
    if unfit:
        kind, body = fitting.whole(kind), fitting.kept(body)
    entry = Entry(turn.next(), fact["id"], device.id, kind, fact["when"], received, body)
    outcome = refusal(unfit) if unfit else forbidden(device, kind, body) or fold(entry, strict)
    if device.role != "owner":  # the present value may be the owner's alone: a price, a floor
        outcome = replace(outcome, now=None)
    quick.insert(
        Fact, seq=entry.seq, id=entry.id, device=device.id, n=fact["n"], kind=entry.kind, when_ms=entry.when_ms,
        received_ms=received, body=entry.body, digest=digest, verdict=outcome.verdict, code=outcome.code,
        message=outcome.message, now=outcome.now,
    )  # fmt: skip
    device.next_n += 1
    publish(turn, entry)
    return Verdict(entry.id, fact["n"], outcome.verdict, outcome.code, outcome.message, outcome.now)


def verdict_of(row: Fact, n: int) -> Verdict:
    return Verdict(row.id, n, row.verdict, row.code, row.message, row.now)


def refusal(problem: Refused) -> Outcome:
    return Outcome(REFUSED, problem.code, problem.message, problem.now)


def fold(entry: Entry, strict: bool = False) -> Outcome:
    """Fold one fact; a refusal leaves no trace in the tables, and a fault of ours keeps the fact."""
    touched = dict(entry.touched)
    try:
        with write():
            return fold_known(entry)
    except Refused as problem:
        entry.touched = touched
        if strict:
            raise
        return refusal(problem)
    except Exception:
        log.exception("fact %s of kind %s could not be folded", entry.id, entry.kind)
        if strict:
            raise
        entry.touched = touched
        raise_look(entry, "fault", ("fact", entry.id), {"kind": entry.kind})
        return contested("fault", "The desk could not take this in. The entry is kept.")


def fold_known(entry: Entry) -> Outcome:
    if not kinds.known(entry.kind):
        raise_look(entry, "unknown_kind", ("fact", entry.id), {"kind": entry.kind})
        return contested("unknown_kind", "The desk does not know this kind of entry yet. It is kept.")
    if entry.fresh:
        kinds.check(entry.kind, entry.body)
    outcome = FOLDS[entry.kind](entry)
    around.touch(entry)
    return outcome


def publish(turn: Turn, entry: Entry) -> None:
    """Give every card that the fact changed its new version and number."""
    coins = {key for kind, key in entry.touched if kind == "coin"}
    if kinds.known(entry.kind):
        coins |= named(entry.body)
    for key in sorted(coins):
        quick.insert(About, coin=key, seq=entry.seq, fact=entry.id)
    for kind, key in entry.touched:
        if kind == "goal":
            turn.sets.changed(key, entry.received_ms)
        elif kind in cards.MAKERS:
            renew(turn, kind, key, entry.received_ms)


def named(body: dict) -> set[str]:
    """The coins that an entry is about, as far as it can be read: a refused one stands in their history, too."""
    about = {body.get("coin")}
    for name in LISTS:
        rows = body.get(name)
        if isinstance(rows, list):
            about |= {row.get("coin") if isinstance(row, dict) else row for row in rows[:500] if isinstance(row, (dict, str))}
    return {key for key in about if isinstance(key, str)}


LISTS = ("coins", "sold", "out", "in")


def renew(turn: Turn, kind: str, key: str, at: int) -> None:
    """Make one card again; it keeps its number where nothing changed.

    A set's card says when the last entry came that concerns it, so that it is the same however many entries came at once.
    """
    made = cards.MAKERS[kind](key)
    was = cards.lookup(kind, key)
    if kind == "coin":
        turn.sets.coin(was and was.open, made and made[0], at)
    if made is None:
        if was is None or was.open is None:
            return
        open_text = own_text = None
    else:
        open_part, own_part = made
        if was and was.open is not None and kind != "goal":
            held = json.loads(was.open)
            held_at = held.pop("at")
            if held == open_part and was.own == (dumps(own_part) if own_part else None):
                at = held_at
        open_text = dumps(open_part | {"at": at})
        own_text = dumps(own_part) if own_part else None
        if was and (was.open, was.own) == (open_text, own_text):
            return
    seq = turn.next()
    if was and was.open is not None:
        turn.sums.add(kind, key, was.seq, -1)
    if open_text is not None:
        turn.sums.add(kind, key, seq)
    cards.keep(kind, key, seq, open_text, own_text)
