"""Gains of a year in the order of Form 8949, for investors and for coins of personal use; stock stands apart.

IRC 1221, 165(c), 1(h)(4); Form 8949 and its instructions (from memory). All money is in minor units.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from . import rules
from .gains import Gain, GiftBasis, gain
from .holding import LONG, SHORT

RULES = ("rate_cap", "long_term_years", "code_collectible", "code_personal_loss")
INHERITED, VARIOUS = "inherited", "various"
STOCK_NOTE = (
    "Coins of a dealer's stock are no capital assets and do not stand on this form: their profit is ordinary business"
    " income, through gross receipts and cost of sales. They are listed apart."
)
UNKNOWN_NOTE = "Disposals whose basis is not known are listed apart and left out of every total; none is taken as zero."


class BadDisposal(ValueError):
    """A disposal cannot be placed; the message says why in one sentence."""


@dataclass(frozen=True)
class Disposal:
    """One coin that left: `proceeds` after the costs of selling; `basis` None where not known, or for a gift.

    `acquired` is a date, "inherited" or "various". `held`: investment, personal or stock. `term`: short or long
    (of a gift: as if the donor's basis is used; `term_at_gift` where it is not, if that differs).
    """

    title: str
    coin: str
    acquired: date | str
    disposed: date
    proceeds: int
    basis: int | None
    held: str
    term: str
    gift: GiftBasis | None = None
    term_at_gift: str | None = None


@dataclass(frozen=True)
class Row:
    """A line of the form: a description, b acquired, c sold, d proceeds, e basis, f code, g adjustment, h gain."""

    a: str
    b: date | str
    c: date
    d: int
    e: int | None
    f: str
    g: int
    h: int | None
    coin: str
    note: str = ""


@dataclass(frozen=True)
class Totals:
    """Sums of the columns d, e, g and h."""

    d: int = 0
    e: int = 0
    g: int = 0
    h: int = 0


@dataclass(frozen=True)
class RateGain:
    """The 28 % rate gain and the figures from which it follows; losses as 0 or more."""

    gain: int
    loss: int
    short_loss: int
    carried: int
    rate_gain: int


@dataclass(frozen=True)
class TaxYear:
    """A year's disposals, placed. `unknown` rows have no basis and stand in no total; `stock` is not on the form."""

    year: int
    short: list[Row]
    long: list[Row]
    unknown: list[Row]
    stock: list[Row]
    worksheet: RateGain
    notes: list[str] = field(default_factory=list)
    caution: str = rules.TAX_CAUTION

    @property
    def short_total(self) -> Totals:
        return totals(self.short)

    @property
    def long_total(self) -> Totals:
        return totals(self.long)

    @property
    def stock_total(self) -> Totals:
        return totals(self.stock)


def tax_year(disposals: Iterable[Disposal], year: int, carried: int = 0) -> TaxYear:
    """The disposals of `year`, by date and title. `carried`: long-term loss brought from earlier years. Raises BadDisposal."""
    parts: dict[str, list[Row]] = {SHORT: [], LONG: [], "unknown": [], "stock": []}
    ups = downs = 0
    for one in sorted((d for d in disposals if d.disposed.year == year), key=lambda d: (d.disposed, d.title, d.coin)):
        found = gain(one.proceeds, one.basis, one.gift)
        line = row(one, found)
        part = _part(one, found)
        parts[part].append(line)
        if part == LONG:
            ups, downs = ups + max(0, line.h), downs + max(0, -line.h)
    short_loss = max(0, -totals(parts[SHORT]).h)
    notes = [STOCK_NOTE] if parts["stock"] else []
    notes += [UNKNOWN_NOTE] if parts["unknown"] else []
    return TaxYear(
        year, parts[SHORT], parts[LONG], parts["unknown"], parts["stock"],
        rate_gain(ups, downs, short_loss, carried), notes + rules.cited(*RULES),
    )  # fmt: skip


def row(one: Disposal, found: Gain) -> Row:
    """The line of one disposal; a loss on a coin of personal use is given back in column g."""
    codes, adjustment = [], 0
    if one.held != "stock":
        codes.append(rules.value("code_collectible"))
    lost = found.gain is not None and found.gain < 0
    if one.held == "personal" and lost:
        codes.append(rules.value("code_personal_loss"))
        adjustment = -found.gain
    notes = [found.note] if found.note else []
    if adjustment:
        notes.append("A loss on a thing for personal use does not count.")
    left = None if found.gain is None else one.proceeds - found.basis_used + adjustment
    return Row(
        a=one.title, b=one.acquired, c=one.disposed, d=one.proceeds, e=found.basis_used, f="".join(sorted(codes)),
        g=adjustment, h=left, coin=one.coin, note=" ".join(notes),
    )  # fmt: skip


def _part(one: Disposal, found: Gain) -> str:
    if one.held not in ("investment", "personal", "stock"):
        raise BadDisposal(f"{one.title}: a coin is held as investment, personal or stock, not as “{one.held}”.")
    if one.term not in (SHORT, LONG):
        raise BadDisposal(f"{one.title}: held short or long, not “{one.term}”.")
    if found.gain is None:
        return "unknown"
    if one.held == "stock":
        return "stock"
    if one.acquired == INHERITED:
        return LONG  # whatever the time since: IRC 1223(9)
    if one.gift is not None and not found.donor_basis_used and one.term_at_gift:
        return one.term_at_gift
    return one.term


def totals(rows: Sequence[Row]) -> Totals:
    """Sums of rows whose basis is known."""
    return Totals(*(sum(getattr(line, column) for line in rows) for column in "degh"))


def rate_gain(gain: int, loss: int, short_loss: int, carried: int) -> RateGain:
    """Collectibles gain less collectibles loss, net short-term loss and long-term carry-over, not below 0: IRC 1(h)(4)."""
    return RateGain(gain, loss, short_loss, carried, max(0, gain - loss - short_loss - carried))


def most_tax(gain: int, marginal: int) -> int:
    """The most tax on a long-term collectible gain at a marginal rate in whole per cent, rounded half up to the unit."""
    return (max(0, gain) * min(marginal, rules.value("rate_cap")) * 2 + 100) // 200
