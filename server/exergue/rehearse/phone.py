"""A phone without a screen: it speaks the API as web/engine does, and holds its cards and entries in memory."""

import json
import time
from zlib import crc32

from ..records.uuid7 import uuid7
from .wire import Wire


class PhoneProblem(Exception):
    """The desk did not answer the phone as it should."""


class Phone:
    """Paired with `pair`, filled with `first_sync`; `record` works offline, `sync` sends and fetches."""

    def __init__(self, base: str, name: str):
        self.wire, self.name = Wire(base), name
        self.book = self.epoch = None
        self.cursor, self.n, self.next_n = 0, 0, 1
        self.cards: dict[tuple[str, str], tuple[int, dict]] = {}
        self.waiting: list[dict] = []
        self.verdicts: dict[str, dict] = {}

    def call(self, method: str, path: str, body=None) -> dict:
        status, answer = self.wire.json(method, path, body)
        if status >= 400:
            raise PhoneProblem(f"{path} answered {status}: {answer['error']['message']}")
        return answer

    def pair(self, code: str) -> dict:
        me = self.call("POST", "/api/pair", {"code": code, "name": self.name})
        self.book, self.epoch = me["book"], me["epoch"]
        self.n = me["device"]["next_n"] - 1
        return me

    def first_sync(self) -> int:
        """Stream the snapshot; returns the number of cards."""
        _, body, _ = self.wire.ask("GET", "/api/snapshot")
        head, *packs, end = (json.loads(line) for line in body.splitlines())
        if not end.get("end"):
            raise PhoneProblem("the first sync broke off")
        for pack in packs:
            kind = pack["pack"].partition("/")[0]
            for seq, key, card in pack["cards"]:
                self.cards[(kind, key)] = (seq, card)
        self.cursor = head["seq"]
        return len(self.cards)

    def record(self, kind: str, body: dict) -> dict:
        """Make an entry: id, number and time are fixed before anything is sent."""
        self.n += 1
        moment = time.time_ns() // 1_000_000
        fact = {"id": uuid7(moment), "n": self.n, "kind": kind, "when": moment, "body": body}
        self.waiting.append(fact)
        return fact

    def sync(self, forget_answer: bool = False) -> list[dict]:
        """Send what waits and fetch what changed. With `forget_answer` the reply is lost on its way."""
        taken = []
        while True:
            answer = self.call("POST", "/api/sync", {
                "book": self.book, "epoch": self.epoch, "cursor": self.cursor,
                "sent_ms": time.time_ns() // 1_000_000, "facts": self.waiting})  # fmt: skip
            if forget_answer:
                return []
            for verdict in answer["verdicts"]:
                self.verdicts[verdict["id"]] = verdict
                taken.append(verdict)
            self.waiting = [fact for fact in self.waiting if fact["id"] not in self.verdicts]
            for seq, kind, key, card in answer["cards"]:
                if card is None:
                    self.cards.pop((kind, key), None)
                else:
                    self.cards[(kind, key)] = (seq, card)
            self.cursor = answer["cursor"]
            if not answer["more"]:
                return taken if answer["digest"] == self.digest() else self._disagree(answer["digest"])

    def _disagree(self, theirs: dict):
        raise PhoneProblem(f"phone and desk hold different cards: {self.digest()} and {theirs}")

    def digest(self) -> dict:
        marks = (crc32(f"{kind}/{key}/{seq}".encode()) for (kind, key), (seq, _) in self.cards.items())
        return {"count": len(self.cards), "sum": sum(marks) % (1 << 48)}

    def card(self, kind: str, key: str) -> dict | None:
        held = self.cards.get((kind, key))
        return held[1] if held else None

    def of(self, kind: str) -> list[dict]:
        return [card for (name, _), (_, card) in sorted(self.cards.items()) if name == kind]
