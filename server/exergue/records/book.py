"""A book: one owner's coins, one folder on disk."""

import hashlib
import os
import uuid
from contextlib import contextmanager
from pathlib import Path

from peewee import DatabaseError

from . import cards, journal, kinds, knowledge, migrations, refold, settings
from .clock import now_ms
from .store import open_database, trial, write
from .tables import Device, Setting, database, dumps
from .uuid7 import uuid7
from .verdicts import REFUSED, Refused, Verdict

FOLD_VERSION = 7  # raise it when a fold or a card changes: tables are then made again at the next start
FILE = "book.sqlite3"
FOLDERS = ("photos", "catalogue", "backups")


class BookError(Exception):
    """A book that cannot be made or opened; the message is for people."""


def _fits(key: str, value) -> bool:
    try:
        kinds.check_setting(key, value)
    except (Refused, KeyError):
        return False
    return True


class Book:
    """One open book. A process has one book open at a time; threads share it, each with its connection."""

    def __init__(self, folder: Path):
        self.folder = Path(folder)
        self.photos = self.folder / "photos"

    # --- making and opening ------------------------------------------------------------------

    @classmethod
    def create(cls, folder, name: str = settings.DEFAULTS["name"], currency: str = "USD") -> "Book":
        """A new, empty book in `folder` (made if need be). Raises BookError where there is one."""
        self = cls(folder)
        if (self.folder / FILE).exists():
            raise BookError(f"There is already a book in {self.folder}.")
        given = {"name": name, "currency": currency}
        try:
            for key, value in given.items():
                kinds.check_setting(key, value)
        except Refused as problem:
            raise BookError(str(problem)) from None
        self.folder.mkdir(parents=True, exist_ok=True)
        self._bind()
        with self.connected():
            migrations.migrate()
            with write():
                journal.set_meta("book", str(uuid.uuid4()))
                journal.set_meta("epoch", str(uuid.uuid4()))
                journal.set_meta("fold", self._fold_mark())
                Device.create(id=journal.DESK, name="Desk", role="owner", paired_ms=now_ms())
            self.act_all([("setting", {"key": key, "value": value}) for key, value in given.items()])
        return self

    @classmethod
    def open(cls, folder) -> "Book":
        """The book in `folder`, brought up to date. Raises BookError."""
        self = cls(folder)
        if not (self.folder / FILE).exists():
            raise BookError(f"There is no book in {self.folder}. `exergue new` makes one.")
        self._bind()
        try:
            with self.connected():
                self._bring_up_to_date()
        except DatabaseError as problem:
            if "not a database" in str(problem) or "malformed" in str(problem):
                raise BookError(f"{self.folder / FILE} is damaged, or not a book. Restore a backup.") from None
            raise
        return self

    def _bring_up_to_date(self) -> None:
        if migrations.version() > migrations.VERSION:
            raise BookError("This book was kept by a newer Exergue; update before opening it.")
        migrations.migrate()
        if journal.meta("fold") != self._fold_mark():
            refold.rebuild()
            with write():
                journal.set_meta("fold", self._fold_mark())

    def _bind(self) -> None:
        for name in FOLDERS:
            (self.folder / name).mkdir(exist_ok=True)
        if database.obj is not None:
            database.close()
        database.initialize(open_database(self.folder / FILE))
        knowledge.use(self.folder / "catalogue")

    @staticmethod
    def _fold_mark() -> str:
        """What cards follow from besides the journal: the fold and the catalogue."""
        return hashlib.sha256(dumps([FOLD_VERSION, knowledge.mark()]).encode()).hexdigest()

    @contextmanager
    def connected(self):
        """A connection for this thread, closed at the end."""
        if not database.is_closed():
            yield self
            return
        database.connect()
        opened = database.obj
        try:
            yield self
        finally:
            opened.close()

    # --- who it is ---------------------------------------------------------------------------

    @property
    def id(self) -> str:
        return journal.meta("book")

    @property
    def epoch(self) -> str:
        """Changes when the book was put back from a backup."""
        return journal.meta("epoch")

    @property
    def seq(self) -> int:
        """The newest number given to a fact or a card."""
        return int(journal.meta("seq", "0"))

    # --- writing -----------------------------------------------------------------------------

    def accept(self, device_id: str, facts: list[dict]) -> list[Verdict]:
        """Facts of a phone: see journal.accept."""
        return journal.accept(device_id, facts)

    def act(self, kind: str, body: dict) -> Verdict:
        """The desk makes one entry. Raises Refused, and nothing is kept, where it does not fit."""
        return self.act_all([(kind, body)])[0]

    def act_all(self, acts: list[tuple[str, dict]]) -> list[Verdict]:
        """Entries of the desk in one transaction: all, or Refused and none."""
        moment = now_ms()
        with write():
            n = Device.get_by_id(journal.DESK).next_n
            facts = [
                {"id": uuid7(moment), "n": n + i, "kind": kind, "when": moment, "body": body}
                for i, (kind, body) in enumerate(acts)
            ]
            verdicts = journal.accept(journal.DESK, facts, moment, strict=True)
        assert all(v.verdict != REFUSED for v in verdicts)
        return verdicts

    @contextmanager
    def tried(self, kind: str, body: dict):
        """The book as it would be with one entry more, for the length of the block; afterwards nothing of it is left.

        Gives the verdict; raises Refused as `act` does. Keep what is read inside: no cache may outlive the block.
        """
        with trial():
            yield self.act(kind, body)

    # --- reading -----------------------------------------------------------------------------

    def card(self, kind: str, key: str, role: str = "owner") -> dict | None:
        """What a device of this role may hold of one thing; None if there is none."""
        row = cards.lookup(kind, key)
        return None if row is None or row.open is None else cards.whole(row, role)

    def settings(self) -> dict:
        """The settings as they stand. One that was taken before its key had a rule, and breaks it, counts as unset."""
        return settings.DEFAULTS | {row.key: row.value for row in Setting.select() if _fits(row.key, row.value)}

    def setting(self, key: str):
        return self.settings()[key]

    def secret(self, name: str) -> bytes:
        """A random secret of this book, kept in a file that only its owner can read; made on first use."""
        path = self.folder / f"{name}.key"
        if not path.exists():
            handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(handle, "wb") as file:
                file.write(os.urandom(32))
        return path.read_bytes()


__all__ = ["Book", "BookError", "Refused"]
