"""A report as a table: what every print of it is made from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

MONEY, DATE, TEXT, INT, PERCENT, WEIGHT, PHOTO = "money", "date", "text", "int", "percent", "weight", "photo"
KINDS = (MONEY, DATE, TEXT, INT, PERCENT, WEIGHT, PHOTO)


class BadReport(ValueError):
    """The report does not hold together; the message says why in one sentence."""


@dataclass(frozen=True)
class Column:
    """One column. What its cells hold, by kind (None: an empty cell; a text is printed as it is in any kind):

    money: minor units; date: a date; int: a whole number; percent: a ratio (Fraction), or per cent as text; weight:
    grams (Decimal); photo: bytes of a picture or a path to one, which only the PDF shows.
    """

    key: str
    heading: str
    kind: str = TEXT

    def __post_init__(self):
        if self.kind not in KINDS:
            raise BadReport(f"The column “{self.heading}” is of kind {', '.join(KINDS)}, not “{self.kind}”.")


@dataclass(frozen=True)
class Section:
    """Rows under a heading ("" for none), {key: value}; `totals` are rows set off below; `note` stands under the heading.

    `columns` replaces those of the report; None: the report's own.
    """

    heading: str
    rows: Sequence[Mapping[str, Any]]
    totals: Sequence[Mapping[str, Any]] = ()
    note: str = ""
    columns: Sequence[Column] | None = None


@dataclass(frozen=True)
class Report:
    """A whole report. `caution` is printed once, before the first table; `notes` after the last."""

    title: str
    subtitle: str
    columns: Sequence[Column]
    sections: Sequence[Section]
    caution: str = ""
    notes: Sequence[str] = field(default_factory=tuple)

    def __post_init__(self):
        if not self.columns:
            raise BadReport(f"The report “{self.title}” has no columns.")

    def columns_of(self, section: Section) -> Sequence[Column]:
        return self.columns if section.columns is None else section.columns
