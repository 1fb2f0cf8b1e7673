"""Cash over the limit: which reports seem due, by when, and from which payments."""

from collections.abc import Sequence

from ..money import rules
from ..money.cashreport import CAUTION, Flag
from .model import Column, Report, Section
from .words import counted

COLUMNS = (
    Column("payer", "From"), Column("received", "Received", "date"), Column("how", "As"), Column("deal", "For"),
    Column("amount", "Cash", "money"),
)  # fmt: skip
RULES = ("cash_limit", "cash_face_limit", "cash_related_hours", "cash_instalment_years", "cash_report_days",
         "cash_statement_by", "cash_keep_years")  # fmt: skip


def report(flags: Sequence[Flag], period: str = "") -> Report:
    """A section a flag; `period` is said under the title. Without flags it says so."""
    sections = [_section(flag) for flag in flags]
    return Report(
        title="Cash to report",
        subtitle=" · ".join(filter(None, (period, counted(len(flags), "report to look at", "reports to look at")))),
        columns=COLUMNS,
        sections=sections or [Section("Nothing over the limit was found in this book", [])],
        caution=CAUTION,
        notes=rules.cited(*RULES),
    )


def _section(flag: Flag) -> Section:
    word = ("to be reported by" if flag.certain else "to look at: if related, due") + f" {flag.due.isoformat()}"
    rows = [
        {"payer": one.payer, "received": one.day, "how": one.how, "deal": one.deal, "amount": one.cents}
        for one in flag.receipts
    ]
    note = f"{flag.why} The payer is to be told in writing by {flag.told.isoformat()}."
    payer = flag.payer.strip() or "Payer not noted"
    return Section(f"{payer}: {word}", rows, [{"payer": "Together", "amount": flag.cents}], note)
