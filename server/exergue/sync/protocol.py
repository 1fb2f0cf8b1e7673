"""Sync, version 1: facts up, verdicts and changed cards down. See DEVELOPERS.md for the whole of it."""

import json
import uuid

from ..records import cards, devices, journal
from ..records.book import Book
from ..records.clock import now_ms
from ..records.store import read, write
from ..records.tables import Card, Device, Fact
from ..records.uuid7 import is_uuid
from ..records.verdicts import JournalError, Verdict
from . import reference
from .roles import KINDS

MAX_FACTS = 500  # in one request
PAGE = 2000  # cards in one answer
MOST_AHEAD = 10_000_000  # numbers that a book may have lost by an older file put in its place; more is no cursor


def hello(book: Book, device: Device | None) -> dict:
    """Who the desk is, and who it takes the caller for. The book is named to paired devices only."""
    answer = {"now_ms": now_ms(), "device": None, "book": None}
    if device:
        answer |= {
            "book": book.id, "bookName": book.setting("name"), "currency": book.setting("currency"),
            "epoch": book.epoch, "reference": reference.tag(), "device": describe(device),
        }  # fmt: skip
    return answer


def describe(device: Device) -> dict:
    return {"id": device.id, "name": device.name, "role": device.role, "next_n": device.next_n}


def sync(book: Book, device: Device, asked: dict) -> str:
    """Answer one request as JSON text. Raises JournalError with what the device needs to go on."""
    check_request(asked)
    check_place(book, device, asked)
    if asked.get("wiped"):
        note_wipe(device, asked["facts"])
    before = book.seq
    verdicts = take(book, device, asked)
    if verdicts:
        note_healing(device, asked, before)
    with read():
        seq = book.seq
        page, more = changed(device.role, asked["cursor"])
        cursor = page[-1].seq if more else seq
        digest = None if more else cards.digest(KINDS[device.role])
        epoch = book.epoch
    devices.contact(device, cursor, asked.get("sent_ms"))
    head = {
        "book": book.id, "epoch": epoch, "cursor": cursor, "more": more, "now_ms": now_ms(),
        "reference": reference.tag(), "verdicts": [v.as_json() for v in verdicts], "digest": digest,
    }  # fmt: skip
    return f'{json.dumps(head, ensure_ascii=False)[:-1]},"cards":[{",".join(line(c, device.role) for c in page)}]}}'


def take(book: Book, device: Device, asked: dict) -> list[Verdict]:
    """The verdicts on the facts; a gap that the phone cannot fill is passed only together with them."""
    facts, lost_before = asked["facts"], asked.get("lost_before") or 0
    if not devices.may_skip_to(device, lost_before):
        return book.accept(device.id, facts) if facts else []
    with write():
        devices.skip_to(device, lost_before)
        return book.accept(device.id, facts)


def line(card: Card, role: str) -> str:
    body = "null" if card.open is None else cards.text(card, role)
    return f'[{card.seq},"{card.kind}","{card.id}",{body}]'


def changed(role: str, cursor: int) -> tuple[list[Card], bool]:
    """A page of cards after `cursor`, and whether there are more."""
    kind = Card.kind.concat("")  # a bare `kind` would draw SQLite to the primary key: every card read, not those after
    query = Card.select().where(Card.seq > cursor, kind.in_(KINDS[role])).order_by(Card.seq).limit(PAGE + 1)
    page = list(query)
    return page[:PAGE], len(page) > PAGE


def check_request(asked) -> None:
    if not isinstance(asked, dict) or not isinstance(asked.get("facts"), list):
        raise JournalError("bad_request", "The request lacks its facts.")
    if len(asked["facts"]) > MAX_FACTS:
        raise JournalError("bad_request", f"At most {MAX_FACTS} entries in one request.")
    for name in ("cursor", "sent_ms", "lost_before"):
        value = asked.get(name, 0 if name == "cursor" else None)
        if value is not None and (type(value) is not int or not 0 <= value < 2**53):
            raise JournalError("bad_request", f"{name} is not a number.")
    asked.setdefault("cursor", 0)


def check_place(book: Book, device: Device, asked: dict) -> None:
    """The same book, and the same course of it: not one put back from a backup."""
    if asked.get("book") != book.id:
        raise JournalError("other_book", "This phone holds another book.")
    if asked.get("epoch") == book.epoch and asked["cursor"] > book.seq:
        if device.role == "owner" and asked["cursor"] <= book.seq + MOST_AHEAD:
            put_back_by_hand()
        # Any other is asked to begin anew for itself, in the epoch as it is: the book is not its to turn over.
        raise restored(book, device)
    if asked.get("epoch") != book.epoch:
        raise restored(book, device)


def restored(book: Book, device: Device) -> JournalError:
    return JournalError("restored", "The desk was put back from a backup.", epoch=book.epoch, next_n=device.next_n)


def put_back_by_hand() -> None:
    """The numbers went backwards: somebody put an older file in the place of the book."""
    with write():
        journal.set_meta("epoch", str(uuid.uuid4()))
        journal.set_meta("restored_ms", str(now_ms()))
        devices.notice(None, "put_back", devices.PUT_BACK)


def note_wipe(device: Device, facts: list[dict]) -> None:
    """Tell the desk of a cleared phone: once, however often the phone must say so until an answer reaches it."""
    if device.next_n > 1 and not came_before(facts):
        with write():
            devices.notice(device.id, "wiped", (
                f"The storage of “{device.name}” was cleared. The desk has its entries up to number "
                f"{device.next_n - 1}; any made later and not yet sent are lost."))  # fmt: skip


def came_before(facts: list[dict]) -> bool:
    ids = [fact["id"] for fact in facts if isinstance(fact, dict) and is_uuid(fact.get("id"))]
    return Fact.select().where(Fact.id.in_(ids)).exists()


def note_healing(device: Device, asked: dict, seq: int) -> None:
    """After a restore, say what a phone brought that was made before it: in all, not by request."""
    put_back, sent = int(journal.meta("restored_ms", "0")), asked.get("sent_ms")
    moment = put_back + (0 if sent is None else sent - now_ms())  # of the restore, on the phone's own clock
    old = [fact["id"] for fact in asked["facts"] if fact["when"] < moment]
    if not put_back or not old or not Fact.select().where(Fact.id.in_(old), Fact.seq > seq).exists():
        return
    brought = Fact.select().where(
        Fact.device == device.id, Fact.received_ms >= put_back, Fact.when_ms < moment).count()  # fmt: skip
    with write():
        devices.notice(device.id, "restored", (
            f"“{device.name}” brought {brought} {'entry' if brought == 1 else 'entries'} made before the desk was "
            "put back from a backup."), instead=True)  # fmt: skip
