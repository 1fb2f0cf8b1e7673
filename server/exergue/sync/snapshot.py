"""First sync: every card, streamed in packs in the order of kind and ID, so that a break resumes."""

import json
import zlib
from collections.abc import Iterator
from itertools import groupby

from peewee import fn

from ..records import cards
from ..records.book import Book
from ..records.store import read
from ..records.tables import Card
from .roles import KINDS

CHUNK = 128 * 1024  # bytes of JSON between two flushes
SMALL = 20_000  # cards; up to here one character of an ID names its pack, above two: 30 to 600 cards in each


def lines(
    book: Book, role: str, after: str = "", upto: int | None = None, prefix: int | None = None
) -> Iterator[str]:
    """JSON lines: a head {book, epoch, seq, total, done, prefix}, packs {pack, cards: [[seq, id, card]]}, and {end}.

    A pack is named by kind and the first `prefix` characters of its IDs. To resume, `after` is the `kind/id` of
    the last card that the device kept, `upto` and `prefix` the `seq` and `prefix` of its first try:
    what changed since then comes with the sync that follows.
    """
    kinds = KINDS[role]
    with read():
        total = cards.digest(kinds)["count"]
        live = Card.select(Card.kind, Card.id, Card.seq, Card.open, Card.own).where(
            Card.kind.in_(kinds), Card.open.is_null(False)
        )
        prefix = prefix or (1 if total <= SMALL else 2)
        kind, _, key = after.partition("/")
        # After the whole pack: a card that joined it meanwhile comes with the sync from `upto`, and must not
        # bring a pack of its own that would stand in the place of the one that is kept.
        past = (Card.kind > kind) | ((Card.kind == kind) & (fn.SUBSTR(Card.id, 1, prefix) > key[:prefix]))
        done = live.where(~past).count() if after else 0
        seq = book.seq if upto is None else min(upto, book.seq)
        head = {"book": book.id, "epoch": book.epoch, "seq": seq, "total": total, "done": done, "prefix": prefix}
        yield json.dumps(head) + "\n"
        rows = (live.where(past) if after else live).order_by(Card.kind, Card.id)
        for pack, members in groupby(rows.tuples().iterator(), key=lambda row: f"{row[0]}/{row[1][:prefix]}"):
            body = ",".join(f'[{seq},"{key}",{cards.joined(open, own, role)}]' for _, key, seq, open, own in members)
            yield f'{{"pack":"{pack}","cards":[{body}]}}\n'
        yield '{"end":true}\n'


def compressed(parts: Iterator[str]) -> Iterator[bytes]:
    """The lines as gzip, flushed every CHUNK so that the phone sees them come."""
    packer = zlib.compressobj(1, zlib.DEFLATED, 31)
    waiting = 0
    for part in parts:
        data = part.encode()
        waiting += len(data)
        out = packer.compress(data)
        if waiting >= CHUNK:
            out += packer.flush(zlib.Z_SYNC_FLUSH)
            waiting = 0
        if out:
            yield out
    yield packer.flush()
