"""Sync, version 1: facts up, verdicts and changed cards down. See DEVELOPERS.md for the whole of it."""

import json
import uuid

from ..records import cards, devices, journal
from ..records.book import Book
from ..records.clock import now_ms
from ..records.store import read, write
from ..records.tables import Card, Device, Fact
from ..records.verdicts import JournalError
from . import reference
from .roles import KINDS

MAX_FACTS = 500  # in one request
PAGE = 2000  # cards in one answer


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
        note_wipe(device)
    if (asked.get("lost_before") or 0) > device.next_n:
        devices.skip_to(device, asked["lost_before"])
    before = book.seq
    verdicts = book.accept(device.id, asked["facts"]) if asked["facts"] else []
    if verdicts:
        note_healing(device, asked["facts"], before)
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
        with write():  # the file was put back by hand: the numbers went backwards
            journal.set_meta("epoch", str(uuid.uuid4()))
            journal.set_meta("restored_ms", str(now_ms()))
    if asked.get("epoch") != book.epoch:
        raise JournalError("restored", "The desk was put back from a backup.", epoch=book.epoch, next_n=device.next_n)


def note_wipe(device: Device) -> None:
    if device.next_n > 1:
        with write():
            devices.notice(device.id, "wiped", (
                f"The storage of “{device.name}” was cleared. The desk has its entries up to number "
                f"{device.next_n - 1}; any made later and not yet sent are lost."))  # fmt: skip


def note_healing(device: Device, facts: list[dict], before: int) -> None:
    """After a restore, say what a phone brought that was made before it."""
    restored = int(journal.meta("restored_ms") or 0)
    old = [fact["id"] for fact in facts if fact["when"] < restored]
    if old:
        brought = Fact.select().where(Fact.id.in_(old), Fact.seq > before).count()
        if brought:
            with write():
                devices.notice(device.id, "restored", (
                    f"“{device.name}” brought {brought} entries made before the desk was put back from a backup."
                ))  # fmt: skip
