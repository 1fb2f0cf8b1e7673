"""What reading a file gave: one fate a row, and the facts that would follow."""

from collections import Counter
from dataclasses import dataclass, field

NEW, CHANGE, SAME, REFUSED, SKIPPED = "new", "change", "same", "refused", "skipped"
FATES = (NEW, CHANGE, SAME, REFUSED, SKIPPED)


class FileRefused(ValueError):
    """The file as a whole cannot be read; the message says why in one sentence."""


@dataclass(frozen=True)
class Message:
    """One remark about one cell or row. `level`: "error" (the row is refused), "warning" or "info"."""

    level: str
    line: int
    column: str  # as the file calls it; "" for the whole row
    text: str

    def __str__(self) -> str:
        where = f"Row {self.line}, {self.column}" if self.column else f"Row {self.line}"
        return f"{where}: {self.text}"

    def as_json(self) -> dict:
        return {"level": self.level, "line": self.line, "column": self.column, "text": str(self)}


@dataclass
class Row:
    """One row of the file: `line` counts from 1 with the header, as a spreadsheet does."""

    line: int
    fate: str = NEW
    title: str = ""
    messages: list[Message] = field(default_factory=list)
    facts: list[tuple[str, dict]] = field(default_factory=list)

    @property
    def warned(self) -> bool:
        return any(m.level == "warning" for m in self.messages)

    def as_json(self) -> dict:
        return {
            "line": self.line, "fate": self.fate, "title": self.title, "warned": self.warned,
            "messages": [m.as_json() for m in self.messages],
        }  # fmt: skip


@dataclass(frozen=True)
class Column:
    """A column of the file; `field` is None where nothing is known by its name."""

    name: str
    field: str | None


@dataclass(frozen=True)
class Question:
    """What only the owner can say about the whole file; answered by calling `read` again."""

    key: str  # the argument of `read`: "day_first" or "undated"
    text: str
    choices: tuple[tuple[object, str], ...] = ()  # (value, label); empty: a date


@dataclass
class Draft:
    """What would happen if the file were taken now."""

    kind: str  # coins, wants, evidence or shows
    kind_name: str
    columns: list[Column]
    rows: list[Row]
    digest: str  # SHA-256 of the file's bytes
    encoding: str
    delimiter: str
    questions: list[Question] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)

    @property
    def counts(self) -> dict[str, int]:
        """How many rows of each fate, and how many of the taken ones carry a warning ("warned")."""
        tally = Counter(row.fate for row in self.rows)
        warned = sum(row.warned and row.fate in (NEW, CHANGE) for row in self.rows)
        return {fate: tally[fate] for fate in FATES} | {"warned": warned}

    def facts(self) -> list[tuple[str, dict]]:
        """(kind, body) of every fact that confirming would record, without the heading `import`."""
        return [fact for row in self.rows for fact in row.facts]

    def as_json(self) -> dict:
        return {
            "kind": self.kind, "columns": [vars(c) for c in self.columns], "counts": self.counts,
            "rows": [row.as_json() for row in self.rows], "digest": self.digest,
            "questions": [{"key": q.key, "text": q.text} for q in self.questions], "remarks": self.remarks,
        }  # fmt: skip
