"""A coin lost, stolen or destroyed: the loss as the rules go by how it was held. IRS Pub. 547; Treas. Reg. 1.165-7.

All money is in minor units. Limits on the person (a floor for each event, a part of the year's income) are left to
the return.
"""

from dataclasses import dataclass

from . import rules

HELD = ("personal", "investment", "stock")
HOW = ("missing", "lost", "stolen", "destroyed", "damaged")


class BadLoss(ValueError):
    """The figures do not go together; the message says why in one sentence."""


@dataclass(frozen=True)
class Loss:
    """`loss` and `gain` in minor units, one of them 0; `loss` None where it cannot be said. `note` says what to do.

    `lines` is the arithmetic: (what, cents). `counts` is False where the loss usually may not be taken.
    """

    loss: int | None
    gain: int
    counts: bool
    lines: tuple[tuple[str, int], ...]
    note: str


def loss(
    held: str, how: str, basis: int | None, before: int | None = None, after: int = 0, reimbursed: int = 0, year: int = 0
) -> Loss:
    """The loss of one coin in `year`: held personal, investment or stock; how: missing, lost, stolen, destroyed, damaged.

    `before` and `after` are its fair values before and after (None: not known). Personal use, and anything only
    damaged: the smaller of basis and drop in value. Investment wholly lost: the basis less what is left, for the drop
    is not asked. Stock: no loss of its own. A reimbursement beyond the basis is a gain. Raises BadLoss.
    """
    if held not in HELD:
        raise BadLoss(f"A coin is held as {', '.join(HELD)}, not as “{held}”.")
    if how not in HOW:
        raise BadLoss(f"A coin is {', '.join(HOW)}, not “{how}”.")
    if min(basis or 0, before or 0, after, reimbursed) < 0:
        raise BadLoss("A basis, a value or a reimbursement cannot be below zero.")
    if before is not None and after > before:
        raise BadLoss("Its value after cannot be more than its value before; give both as they were.")
    if held == "stock":
        return _of_stock(basis, reimbursed)
    if basis is None:
        return Loss(None, 0, False, (), "Its cost is not known, so its loss cannot be said; it is not taken as zero.")
    wholly = how != "damaged"
    if held == "investment" and wholly:
        lines = [("Basis", basis), ("Value of what is left", -after)]
        sum_ = basis - after
    elif before is None:
        return Loss(None, 0, False, (("Basis", basis),), "Its value before is needed: the smaller of basis and drop counts.")
    else:
        drop = before - after
        lines = [("Basis", basis), ("Drop in value", drop), ("The smaller of the two", min(basis, drop))]
        sum_ = min(basis, drop)
    lines.append(("Reimbursed", -reimbursed))
    left = sum_ - reimbursed
    gain = max(0, reimbursed - basis)
    lines.append(("Loss", max(0, left)) if not gain else ("Gain", gain))
    counts, note = _standing(held, how, year)
    if gain:
        counts, note = True, "More was paid than it cost: the difference is a gain."
    return Loss(max(0, left), gain, counts, tuple(lines), note)


def _standing(held: str, how: str, year: int) -> tuple[bool, str]:
    """Whether such a loss usually counts, and a sentence on it."""
    if how in ("missing", "lost"):
        return False, "A thing that just cannot be found is no theft and no casualty: write down what you know, and ask."
    if held == "personal" and (not year or year >= rules.value("personal_casualty_from")):
        return False, "For personal use: counts mostly in a federally declared disaster alone. Ask a licensed preparer."
    return True, "Before any floor or limit of the year's return."


def _of_stock(basis: int | None, reimbursed: int) -> Loss:
    """It is missing from the closing stock, so its cost is in the cost of sales: once, never twice."""
    lines = (("Cost, within the cost of sales", basis),) if basis is not None else ()
    note = "Stock: its cost goes through the cost of sales, as it is not in the closing stock; do not take it twice."
    if reimbursed:
        lines += (("Reimbursed: income", reimbursed),)
        note += " What was reimbursed is income."
    return Loss(0, 0, True, lines, note)
