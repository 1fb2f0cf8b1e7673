"""Entries that a phone saved to a file, loaded at the desk when the phone cannot reach it any more."""

import json

from ..records import devices
from ..records.book import Book
from ..records.tables import Fact
from ..records.verdicts import JournalError, Verdict

MAX_BYTES = 20_000_000


def load(book: Book, data: bytes) -> tuple[list[Verdict], int]:
    """Take the facts of a file {book, device, facts}; the same file again changes nothing.

    Returns the verdicts, and how many of the entries were new. Raises JournalError for a file that is
    not one, is of another book, or of a device that this book never knew.
    """
    try:
        held = json.loads(data[: MAX_BYTES + 1])
        facts, device_id, book_id = held["facts"], held["device"], held["book"]
        facts = sorted(facts, key=lambda fact: fact["n"])
    except (ValueError, KeyError, TypeError):
        raise JournalError("bad_file", "This is not a file of entries saved on a phone.") from None
    if book_id != book.id:
        raise JournalError("other_book", "These entries belong to another book.")
    device = devices.get(device_id) if isinstance(device_id, str) else None
    if device is None:
        raise JournalError("unknown_device", "This book never knew the phone that saved these entries.")
    ids = [fact.get("id") for fact in facts]
    known = {key for (key,) in Fact.select(Fact.id).where(Fact.id.in_(ids)).tuples()}
    first_new = next((fact["n"] for fact in facts if fact["id"] not in known), None)
    if first_new is not None and first_new > device.next_n:
        devices.skip_to(device, first_new)
    verdicts = book.accept(device.id, facts)
    return verdicts, sum(v.fact not in known for v in verdicts)
