"""What the forms of deals have in common: rows that may stay empty, several payments, a look before it is recorded."""

import hashlib
import json

from flask import g, redirect, render_template, request, url_for
from wtforms import FieldList, Form, FormField

from ...money import cents, payments, salestax
from ...money.allocate import BadSplit
from ...money.melt import BadSpot
from ...money.rounding import half_up
from ...records.verdicts import CONTESTED, Refused
from .. import here
from . import stands
from .coin import say
from .entries import PAYMENTS, DealForm
from .forms import LineField, MoneyField, OneOf

MOST = 200  # rows of one form


class BadDeal(ValueError):
    """The figures of a form do not make a deal; the message says why in one sentence."""


PROBLEMS = (Refused, BadDeal, BadSplit, BadSpot, salestax.BadTax, payments.BadPayments, cents.BadAmount)


class Row(Form):
    """One row of a list in a form."""

    def typed(self) -> bool:
        return any(text.strip() for field in self for text in field.raw_data or [])


class PaidRow(Row):
    how = OneOf("Paid by", choices=PAYMENTS)
    cents = MoneyField("Amount")


class PartOf(LineField):
    """An amount, or a part of another in per cent: “200” or “20 %”."""

    def of(self, base: int) -> int | None:
        """Cents, of `base` where it is in per cent; None where nothing was typed. Raises BadAmount or BadTax."""
        if not self.data:
            return None
        if self.data.endswith("%"):
            return half_up(base * salestax.rate(self.data))
        amount = cents.parse(self.data, g.currency)
        if amount < 0:
            raise cents.BadAmount(f"{self.label.text}: an amount may not be below zero.")
        return amount


def typed(rows: FieldList) -> list[Row]:
    """The rows in which something was typed."""
    return [row.form for row in rows if row.form.typed()]


class PaidForm(DealForm):
    """A deal with a day, a show, a note and several payments."""

    payment = None
    payments = FieldList(FormField(PaidRow), min_entries=1, max_entries=MOST)

    def deal(self) -> dict:
        return {"date": self.date.data, "show": self.show.data or None, "note": self.note.data}

    def paid(self, due: int) -> list[dict]:
        """The payments as a fact holds them; one without an amount settles the rest. Raises BadPayments, BadDeal."""
        rows = typed(self.payments)
        if any(not row.how.data for row in rows):
            raise BadDeal("Say of each payment how it was made: cash, check, card, transfer or other.")
        open_rows = [row for row in rows if row.cents.data is None]
        if len(open_rows) > 1:
            raise BadDeal("Give the amount of each payment; one alone may stay empty, and settles the rest.")
        given = [{"how": row.how.data, "cents": row.cents.data} for row in rows]
        for row in given:
            if row["cents"] is None:
                row["cents"] = max(0, due - sum(one["cents"] or 0 for one in given))
        if given:
            payments.check(due, [payments.Payment(**row) for row in given], g.currency)
        return given



def more(form, name: str) -> None:
    """Empty rows at the end of the list `name` of a form: three coins, one payment."""
    if isinstance(form[name] if name in form else None, FieldList):
        add_rows(form[name], 1 if name == "payments" else 3)


def add_rows(rows: FieldList, count: int) -> None:
    for _ in range(min(count, (rows.max_entries or MOST) - len(rows))):
        rows.append_entry()


def cost_lines(given: dict[str, int | None]) -> list[dict]:
    return [{"what": what, "cents": amount} for what, amount in given.items() if amount]


def mark(body: dict, seen: dict) -> str:
    """Says whether a form is recorded as it was looked over; IDs that are drawn anew each time do not count."""
    figures = [[row["cells"] for row in table["rows"]] for table in seen["tables"]]
    return hashlib.sha256(json.dumps([body, figures, seen["sums"], seen["warning"]], sort_keys=True).encode()).hexdigest()


def handle(form, kind: str, template: str, done: str, draw=None, go=None, quick=None, **context):
    """One form of a deal: more rows, a look at what would stand, the record.

    `draw` gives new coins their IDs, `quick` says of a body that it needs no look, `go` says where to go on from a verdict.
    What is refused is said on the form.
    """
    seen, do = None, request.form.get("do", "")
    if form.is_submitted() and do.startswith("more:"):
        more(form, do.removeprefix("more:"))
    elif form.validate_on_submit():
        try:
            body = form.body()
            made = draw(body) if draw else body
            look = kind in stands.LOOKED and not (quick and quick(body))
            if look:
                seen = stands.once_made(kind, made)
                seen["mark"] = mark(body, seen)
                if do == "record" and request.form.get("seen") != seen["mark"]:
                    raise BadDeal("This is not what you looked over; look at the figures below, then record it.")
            if do == "record" or not look:
                verdict = here.book().act(kind, made)
                say(verdict, done)
                if verdict.verdict == CONTESTED:
                    return redirect(url_for("desk.looks"))
                return redirect(go(verdict) if go else url_for("desk.deal", fact=verdict.fact))
        except PROBLEMS as problem:
            form.form_errors = [str(problem)]
    return render_template(template, form=form, seen=seen, **context)
