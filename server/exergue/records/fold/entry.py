"""One fact on its way into the tables, and what came of it."""

from dataclasses import dataclass, field

from ..tables import Look
from ..verdicts import APPLIED, CONTESTED, MERGED


@dataclass
class Entry:
    """A fact, with the cards it touches. `fresh`: taken just now, so the door's checks apply."""

    seq: int
    id: str
    device: str
    kind: str
    when_ms: int
    received_ms: int
    body: dict
    fresh: bool = True
    touched: dict = field(default_factory=dict)
    day: str = ""  # from which it counts: dating.py

    def touch(self, kind: str, key: str) -> None:
        self.touched[(kind, key)] = True

    def text(self, name: str) -> str:
        return self.body.get(name) or ""


@dataclass(frozen=True)
class Outcome:
    verdict: str = APPLIED
    code: str | None = None
    message: str | None = None
    now: object = None


def merged(message: str, now=None) -> Outcome:
    return Outcome(MERGED, "merged", message, now)


def contested(code: str, message: str, now=None) -> Outcome:
    return Outcome(CONTESTED, code, message, now)


def raise_look(entry: Entry, kind: str, subject: tuple[str, str], offer: dict, part: str = "") -> None:
    """Put `subject` under *Needs a look*. One fact may raise several, told apart by `part`."""
    Look.create(id=f"{entry.id}:{part}" if part else entry.id, kind=kind, subject="/".join(subject),
                fact=entry.id, offer=offer, open=True)  # fmt: skip
    entry.touch(*subject)


def close_looks(subject: str, entry: Entry, *which) -> None:
    """What waits about `subject` waits no more, for it left the book."""
    Look.update(open=False, choice="gone", decided_by=entry.id).where(
        Look.subject == subject, Look.open == True, *which  # noqa: E712
    ).execute()
