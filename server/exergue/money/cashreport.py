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
        sure = [flag for group in _related(paid, True) for flag in _over(group, True)]
        covered = {id(one) for flag in sure for one in flag.receipts}
        maybe = [flag for group in _related(paid, False) for flag in _over(group, False)]
        found += sure + [flag for flag in maybe if not covered & {id(one) for one in flag.receipts}]
    return sorted(found, key=lambda flag: (flag.received, flag.payer.casefold(), flag.due))


def _related(paid: Sequence[Receipt], certain: bool) -> list[list[Receipt]]:
    """Groups of receipts (given in the order of time) that hang together, each in that order.

    Two belong together by one deal, one link, one day, or times within the hours of the law. Not `certain`: on days that
    follow each other, too, where one of the two has no time. Who belongs to one of a group belongs to all, so that each
    need be held only against the last before it of the same deal, link or day, and the last with a time.
    """
    within = timedelta(hours=rules.value("cash_related_hours"))
    head = list(range(len(paid)))  # receipt → another of its group, at last the first

    def first(at: int) -> int:
        while head[at] != at:
            head[at] = at = head[head[at]]
        return at

    def join(one: int, other: int) -> None:
        one, other = first(one), first(other)
        head[max(one, other)] = min(one, other)

    last: dict[tuple, int] = {}
    timed: int | None = None
    untimed = {receipt.day for receipt in paid if not isinstance(receipt.at, datetime)}
    for at, receipt in enumerate(paid):
        keys = [("deal", receipt.deal), ("day", receipt.day)] + ([("link", receipt.link)] if receipt.link else [])
        for key in keys:
            join(at, last.get(key, at))
            last[key] = at
        before = receipt.day - timedelta(days=1)
        if not certain and ("day", before) in last and (before in untimed or receipt.day in untimed):
            join(at, last["day", before])
        if isinstance(receipt.at, datetime):
            if timed is not None and receipt.at - paid[timed].at <= within:
                join(at, timed)
            timed = at
    groups: dict[int, list[Receipt]] = {}
    for at, receipt in enumerate(paid):
        groups.setdefault(first(at), []).append(receipt)
    return list(groups.values())


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
