"""One row's cells by field, each read as what it should be. A bad cell leaves a message and reads as empty."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

from ...coins import grades
from ...money import cents
from . import dates
from .draft import REFUSED, Message, Row
from .present import BookView, Held
from .sheet import clean

_EMPTY = {"", "-", "--", "\u2013", "\u2014", "n/a", "na", "none", "nil", "?", "tbd", "null"}
_YES, _NO = {"yes", "y", "true", "1", "x", "wahr", "t"}, {"no", "n", "false", "0", "f", ""}
_PAYMENTS = {
    "cash": "cash", "check": "check", "cheque": "check", "ck": "check", "money order": "check", "card": "card",
    "credit card": "card", "credit": "card", "debit card": "card", "debit": "card", "cc": "card",
    "transfer": "transfer", "wire": "transfer", "bank transfer": "transfer", "wire transfer": "transfer",
    "ach": "transfer", "bank": "transfer", "other": "other", "trade": "other",
}  # fmt: skip


@dataclass
class Situation:
    """What holds for the whole file. `day_first` and `undated` answer the file's questions."""

    view: BookView
    columns: dict[str, tuple[int, str]]  # field → index and name of its column
    day_first: bool | None = None
    undated: str | None = None
    held: dict[str, Held] = field(default_factory=dict)  # coins of the book that the file speaks of
    seen_ids: set[str] = field(default_factory=set)
    asked: set[str] = field(default_factory=set)
    cache: dict = field(default_factory=dict)

    def once(self, key, make: Callable):
        """What has to be looked up once a file."""
        if key not in self.cache:
            self.cache[key] = make()
        return self.cache[key]

    @property
    def today(self) -> date:
        return self.view.today


class Cells:
    """The cells of one row."""

    def __init__(self, situation: Situation, row: Row, cells: list[str]):
        self.situation, self.row = situation, row
        self._cells = cells
        self._clean: dict[str, str] = {}

    def has(self, name: str) -> bool:
        """The file has a column for this field."""
        return name in self.situation.columns

    def raw(self, name: str) -> str:
        """The cleaned text of a field; "" where there is no such column or cell."""
        if not self.has(name):
            return ""
        if name not in self._clean:
            at = self.situation.columns[name][0]
            self._clean[name] = clean(self._cells[at]) if at < len(self._cells) else ""
        return self._clean[name]

    def filled(self, name: str) -> bool:
        return self.raw(name).lower() not in _EMPTY

    # --- messages ----------------------------------------------------------------------------

    def error(self, name: str, text: str) -> None:
        """This row cannot be taken."""
        self._say("error", name, text)
        self.row.fate = REFUSED

    def warn(self, name: str, text: str) -> None:
        self._say("warning", name, text)

    def tell(self, name: str, text: str) -> None:
        self._say("info", name, text)

    def _say(self, level: str, name: str, text: str) -> None:
        column = self.situation.columns[name][1] if self.has(name) else ""
        self.row.messages.append(Message(level, self.row.line, column, text))

    # --- readings ----------------------------------------------------------------------------

    def text(self, name: str, most: int, lines: bool = False) -> str:
        """Text of at most `most` characters, on one line unless `lines`; control characters are dropped."""
        said = self.raw(name) if lines else self.raw(name).replace("\n", " ")
        said = "".join(c for c in said if c >= " " or c == "\n")
        if len(said) > most:
            self.error(name, f"This has {len(said)} characters; {most} fit.")
            return ""
        return said

    def amount(self, name: str) -> int | None:
        """Minor units, 0 or more."""
        if not self.filled(name):
            return None
        try:
            amount = cents.parse(self.raw(name), self.situation.view.currency)
        except cents.BadAmount as problem:
            self.error(name, str(problem))
            return None
        if amount is not None and amount < 0:
            self.error(name, f"“{self.raw(name)}” is below zero; write what it was without a sign.")
            return None
        return amount

    def day(self, name: str) -> str:
        """YYYY-MM-DD or ""."""
        if not self.filled(name):
            return ""
        try:
            return dates.parse(self.raw(name), self.situation.today, self.situation.day_first)
        except dates.TwoWays as problem:
            self.situation.asked.add("day_first")
            self.error(name, str(problem))
        except dates.BadDate as problem:
            self.error(name, str(problem))
        return ""

    def grade(self, name: str) -> str:
        """A grade in its canonical form, or ""."""
        if not self.filled(name) or self.raw(name).lower() in ("raw", "ungraded", "not graded"):
            return ""
        try:
            return str(grades.parse(self.raw(name)))
        except grades.BadGrade as problem:
            self.error(name, str(problem))
            return ""

    def flag(self, name: str) -> bool | None:
        """Yes or no; None where there is no such column."""
        said = self.raw(name).lower()
        if not self.has(name):
            return None
        if said in _YES or said in _NO:
            return said in _YES
        self.error(name, f"“{self.raw(name)}” is neither yes nor no.")
        return None

    def payment(self, name: str) -> str | None:
        said = self.raw(name).lower()
        if not self.filled(name):
            return None
        if said not in _PAYMENTS:
            self.warn(name, f"“{self.raw(name)}” is taken as “other”; known are cash, check, card and transfer.")
        return _PAYMENTS.get(said, "other")

    def show(self, name: str, day: str) -> tuple[str | None, str]:
        """The show of that name (the one on that day, if several) as its UUID, or the text to keep in a note."""
        said = self.raw(name)
        if not self.filled(name):
            return None, ""
        shows = self.situation.once("shows", self.situation.view.shows)
        named = [(s["starts"], key) for key, s in shows.items() if s["name"].casefold() == said.casefold()]
        on_day = [pair for pair in named if pair[0] <= day <= (shows[pair[1]]["ends"] or pair[0])]
        if named:
            return max(on_day or named)[1], ""
        self.warn(name, f"The book has no show “{said}”; the name is kept in the note. Bring in the shows first.")
        return None, f"Show: {said}"
