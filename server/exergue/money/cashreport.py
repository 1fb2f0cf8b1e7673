"""Cash over the limit from one payer: what is to be reported, and by when. IRC 6050I; Treas. Reg. 1.6050I-1.

It informs from what the book holds. Payments are added up over one transaction and over related ones: within 24
hours, or linked by the owner who knows that they belong together. All money is in minor units of U.S. dollars.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from . import rules
from .holding import years_on

CAUTION = (
    "A reminder from what this book holds, no legal advice: who must report, what counts as cash and what is related"
    " are for the law to say. Ask a licensed preparer, and never split a payment to stay under the limit."
)
CASH = "cash"
LIKE_CASH = ("cashier's check", "bank draft", "traveler's check", "money order")


@dataclass(frozen=True)
class Receipt:
    """Money that came in from `payer` for the transaction `deal` (its key in the book).

    `at` is a day, or a day with its time. `how`: cash, one of LIKE_CASH, or anything else (which never counts; a
    personal check, for one). `cents` is the face of a check or an order. `link` is the owner's word that deals belong
    together: equal links are one. `retail`: the firm sells mainly to those who keep what they buy. `avoiding`: the
    owner knows that the payer wants to escape the report.
    """

    payer: str
    deal: str
    at: date | datetime
    how: str
    cents: int
    link: str = ""
    collectible: bool = True
    retail: bool = True
    avoiding: bool = False

    @property
    def day(self) -> date:
        return self.at.date() if isinstance(self.at, datetime) else self.at


@dataclass(frozen=True)
class Flag:
    """One report that seems due. `certain` is False where it hangs on payments of neighbouring days without times."""

    payer: str
    cents: int
    received: date  # the day that went over the limit
    due: date
    told: date  # the payer is to have the statement by then
    receipts: tuple[Receipt, ...]
    certain: bool
    why: str


def counts(receipt: Receipt) -> bool:
    """Whether it counts as cash."""
    if receipt.how == CASH:
        return True
    small = receipt.how in LIKE_CASH and receipt.cents <= rules.value("cash_face_limit")
    return small and (receipt.avoiding or (receipt.retail and receipt.collectible))


def flags(receipts: Iterable[Receipt]) -> list[Flag]:
    """Reports that seem due, by day and payer. Payers are one by their name, whatever its case and spaces.

    Of payers without a name nothing is known to belong together but what has one link, or is of one deal.
    """
    payers: dict[tuple[str, str], list[Receipt]] = {}
    for receipt in receipts:
        if counts(receipt):
            name = " ".join(receipt.payer.split()).casefold()
            payers.setdefault((name, "" if name else receipt.link or receipt.deal), []).append(receipt)
    found = []
    for paid in payers.values():
        paid.sort(key=lambda one: (one.day, one.at.time() if isinstance(one.at, datetime) else datetime.min.time()))
        sure = [flag for group in _related(paid, _surely) for flag in _over(group, True)]
        covered = {id(one) for flag in sure for one in flag.receipts}
        maybe = [flag for group in _related(paid, _perhaps) for flag in _over(group, False)]
        found += sure + [flag for flag in maybe if not covered & {id(one) for one in flag.receipts}]
    return sorted(found, key=lambda flag: (flag.received, flag.payer.casefold(), flag.due))


def _belong(one: Receipt, other: Receipt) -> bool:
    return one.deal == other.deal or bool(one.link and one.link == other.link)


def _surely(one: Receipt, other: Receipt) -> bool:
    if _belong(one, other) or one.day == other.day:
        return True
    within = timedelta(hours=rules.value("cash_related_hours"))
    timed = isinstance(one.at, datetime) and isinstance(other.at, datetime)
    return timed and abs(one.at - other.at) <= within


def _perhaps(one: Receipt, other: Receipt) -> bool:
    timed = isinstance(one.at, datetime) and isinstance(other.at, datetime)
    return _surely(one, other) or (not timed and abs(one.day - other.day) <= timedelta(days=1))


def _related(paid: Sequence[Receipt], related) -> list[list[Receipt]]:
    """Groups of receipts that hang together, each in the order of time."""
    groups: list[list[Receipt]] = []
    for receipt in paid:
        met = [group for group in groups if any(related(receipt, other) for other in group)]
        groups = [group for group in groups if group not in met]
        groups.append([one for group in met for one in group] + [receipt])
    place = {id(one): at for at, one in enumerate(paid)}
    return [sorted(group, key=lambda one: place[id(one)]) for group in groups]


def _over(group: list[Receipt], certain: bool) -> list[Flag]:
    """A report each time that what was not yet reported goes over the limit within a year."""
    limit, years = rules.value("cash_limit"), rules.value("cash_instalment_years")
    found, open_ = [], []
    for at, receipt in enumerate(group):
        open_ = [one for one in open_ if years_on(one.day, years) >= receipt.day] + [receipt]
        same_day_follows = at + 1 < len(group) and group[at + 1].day == receipt.day
        total = sum(one.cents for one in open_)
        if total > limit and not same_day_follows:
            found.append(
                Flag(
                    payer=receipt.payer,
                    cents=total,
                    received=receipt.day,
                    due=receipt.day + timedelta(days=rules.value("cash_report_days")),
                    told=_told(receipt.day),
                    receipts=tuple(open_),
                    certain=certain,
                    why=_why(open_, certain),
                )
            )
            open_ = []
    return found


def _told(received: date) -> date:
    """The day of the next year by which the payer is told in writing."""
    return date.fromisoformat(f"{received.year + 1}-{rules.value('cash_statement_by')}")


def _why(receipts: list[Receipt], certain: bool) -> str:
    reasons = ["one payment"] if len(receipts) == 1 else []
    if len(receipts) > 1 and len({one.deal for one in receipts}) == 1:
        reasons.append("several payments for one transaction")
    elif len(receipts) > 1:
        linked = len({one.link or id(one) for one in receipts}) == 1
        reasons.append("transactions linked by you" if linked else "related transactions of one payer")
    if any(one.how != CASH for one in receipts):
        reasons.append("checks or orders that count as cash")
    if not certain:
        reasons.append("on days that follow each other, without times: look whether they lie within 24 hours")
    return ", ".join(reasons)[:1].upper() + ", ".join(reasons)[1:] + "."
