"""Entries that a phone saved to a file, loaded at the desk when the phone cannot reach it any more."""

import json

from ..records import devices, journal
from ..records.book import Book
from ..records.store import write
from ..records.tables import Device, Fact
from ..records.uuid7 import is_uuid
from ..records.verdicts import JournalError, Verdict

MAX_BYTES = 20_000_000
CHUNK = 500  # values in one query


def load(book: Book, data: bytes) -> tuple[list[Verdict], int]:
    """Take the facts of a file {book, device, facts}; the same file again changes nothing.

    Returns the verdicts, and how many of the entries were new. Raises JournalError, with nothing taken, for a
    file that is not one, is of another book, or of a device that this book never knew.
    """
    held = read(data)
    if held["book"] != book.id:
        raise JournalError("other_book", "These entries belong to another book.")
    device = devices.get(held["device"]) if is_uuid(held["device"]) else None
    if device is None:
        raise JournalError("unknown_device", "This book never knew the phone that saved these entries.")
    facts = sorted(held["facts"], key=lambda fact: fact["n"])
    with write():
        known = known_of([fact["id"] for fact in facts])
        pass_gap(device, facts, known)
        verdicts = book.accept(device.id, facts)
    return verdicts, sum(v.fact not in known for v in verdicts)


def read(data: bytes) -> dict:
    """What a file holds, its shape checked. Raises JournalError (bad_file)."""
    if len(data) > MAX_BYTES:
        raise _bad(f"This file is larger than {MAX_BYTES // 1_000_000} MB; no phone saves so many entries.")
    try:
        held = json.loads(data)
    except (ValueError, RecursionError):
        raise _bad("This is not a file of entries saved on a phone.") from None
    if not isinstance(held, dict) or not isinstance(held.get("facts"), list):
        raise _bad("This is not a file of entries saved on a phone.")
    if not all(isinstance(held.get(name), str) for name in ("book", "device")):
        raise _bad("The file does not say of which book and phone its entries are.")
    for place, fact in enumerate(held["facts"], 1):
        try:
            journal.check_shape(fact)
        except JournalError:
            raise _bad(f"Entry {place} of the file lacks its id, number, kind, time or body; nothing was taken.") from None
    return held


def known_of(ids: list[str]) -> set[str]:
    """Those of these entries that the book has."""
    chunks = (ids[start : start + CHUNK] for start in range(0, len(ids), CHUNK))
    return {key for chunk in chunks for (key,) in Fact.select(Fact.id).where(Fact.id.in_(chunk)).tuples()}


def pass_gap(device: Device, facts: list[dict], known: set[str]) -> None:
    """Where earlier entries are in no file and on no phone, go on after them."""
    first_new = next((fact["n"] for fact in facts if fact["id"] not in known), device.next_n)
    if first_new > device.next_n:
        if not devices.may_skip_to(device, first_new):
            raise _bad(f"The entries are numbered from {first_new}, which no phone can have reached.")
        devices.skip_to(device, first_new)


def _bad(message: str) -> JournalError:
    return JournalError("bad_file", message)
