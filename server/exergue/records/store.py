"""The database of a book: opening it, and the only way to write to it."""

from contextlib import contextmanager
from pathlib import Path

from peewee import SqliteDatabase

from .tables import Fact

PRAGMAS = {
    "journal_mode": "wal",
    "foreign_keys": 1,
    "synchronous": "full",  # a taken fact survives a power cut
    "cache_size": -64_000,
    "temp_store": "memory",
}


def open_database(path: Path) -> SqliteDatabase:
    """SQLite in WAL mode; waits up to 15 s for another writer."""
    return SqliteDatabase(path, pragmas=PRAGMAS, timeout=15)


def memory_database() -> SqliteDatabase:
    """An empty database that is gone when it is closed, with the same rules."""
    return SqliteDatabase(":memory:", pragmas={"foreign_keys": 1})


@contextmanager
def write():
    """One write transaction that takes the write lock first, and nests as a savepoint.

    A deferred transaction that reads before it writes fails at once when another writer came
    between, whatever the timeout; so nothing else in this project may open a transaction.
    """
    db = Fact._meta.database
    with db.atomic() if db.in_transaction() else db.atomic("IMMEDIATE"):
        yield


@contextmanager
def trial():
    """A write transaction of which nothing is left at its end."""
    db = Fact._meta.database
    with write(), db.savepoint() as point:
        try:
            yield
        finally:
            point.rollback()


@contextmanager
def read():
    """One view of the book for several queries; nothing may be written inside."""
    with Fact._meta.database.atomic():
        yield
