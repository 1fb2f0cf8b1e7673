"""What evidence is made of: a sale, the coin asked about, and the shapes of an answer. Cents of the book's currency."""

from dataclasses import dataclass
from datetime import date


class Piece:
    """What a sale and a coin asked about have in common: their issue, and the group that they are compared in."""

    @property
    def issue(self) -> tuple[int | None, str]:
        return self.year, self.mint

    @property
    def group(self) -> tuple[str, bool]:
        return self.designation, self.problem


@dataclass(frozen=True)
class Sale(Piece):
    """A price paid once. `cents` as recorded; `grade` a number of the ladder; `designation` a free key, "" plain."""

    date: date
    cents: int
    type: str
    grade: int
    year: int | None = None
    mint: str = ""
    fee_included: bool = True
    designation: str = ""
    problem: bool = False
    source: str = ""


@dataclass(frozen=True)
class Target(Piece):
    """The coin asked about. `grades` empty: every grade of the ladder."""

    type: str
    year: int | None = None
    mint: str = ""
    designation: str = ""
    problem: bool = False
    grades: tuple[int, ...] = ()


@dataclass(frozen=True)
class Row:
    """One grade. Without evidence `low`, `mid` and `high` are None.

    `sales` it rests on; `effective`: so many sales today of this very issue and grade would say as much; `first` and
    `last`: their dates; `at_melt`: the metal is worth more than the sales say of `low`.
    """

    grade: int
    low: int | None = None
    mid: int | None = None
    high: int | None = None
    sales: int = 0
    effective: float = 0.0
    first: date | None = None
    last: date | None = None
    at_melt: bool = False


@dataclass(frozen=True)
class Estimate:
    """The table for a target. `sales` of the type that were used, `own` of them of its very issue, `note`: what it rests
    on in a sentence or two; `melt`: cents of precious metal in the coin, None where it has none or no price is known."""

    target: Target
    rows: tuple[Row, ...]
    sales: int
    own: int
    note: str
    melt: int | None = None

    def at(self, grade: int) -> Row:
        """The row of a grade; one without evidence where the table has none."""
        return next((row for row in self.rows if row.grade == grade), Row(grade))


@dataclass(frozen=True)
class Dot:
    """A sale in a chart: `place` along the ladder, `paid` with the fee, `today` at today's level and as if its
    designation were the target's, `weight` 0 to 1 beside a sale today of the very coin."""

    grade: int
    place: float
    paid: int
    today: int
    weight: float
    date: date
    source: str
    same_issue: bool
    same_group: bool


@dataclass(frozen=True)
class Picture:
    """`dots`; `curve`: (place, low, mid, high) in cents, four to a rung; `ticks`: (place, grade) that the curve spans."""

    dots: tuple[Dot, ...] = ()
    curve: tuple[tuple[float, int, int, int], ...] = ()
    ticks: tuple[tuple[float, int], ...] = ()
