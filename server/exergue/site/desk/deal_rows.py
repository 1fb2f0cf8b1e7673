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
    payments = FieldList(FormField(PaidRow), min_entries=2, max_entries=8)

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

    def more(self) -> None:
        """Empty rows at the end of each list of coins."""
        for field in self:
            if isinstance(field, FieldList):
                add_rows(field, 1 if field.name == "payments" else 3)


def add_rows(rows: FieldList, count: int) -> None:
    for _ in range(min(count, (rows.max_entries or MOST) - len(rows))):
        rows.append_entry()


def cost_lines(given: dict[str, int | None]) -> list[dict]:
    return [{"what": what, "cents": amount} for what, amount in given.items() if amount]


def mark(body: dict) -> str:
    """Says whether a form is recorded as it was looked over."""
    return hashlib.sha256(json.dumps(body, sort_keys=True).encode()).hexdigest()


def handle(form, kind: str, template: str, done: str, look=None, draw=None, go=None, **context):
    """One form of a deal: more rows, a look at what it comes to (`look` of the body), the record.

    `draw` gives new coins their IDs, `go` says where to go on from a verdict. What is refused is said on the form.
    """
    seen = None
    if form.is_submitted() and request.form.get("do") == "more":
        form.more()
    elif form.validate_on_submit():
        record = look is None or request.form.get("do") == "record"
        try:
            body = form.body()
            if look:
                seen = look(body) | {"mark": mark(body)}
                if record and request.form.get("seen") != seen["mark"]:
                    raise BadDeal("This is not what you looked over; look at the figures below, then record it.")
            if record:
                verdict = here.book().act(kind, draw(body) if draw else body)
                say(verdict, done)
                if verdict.verdict == CONTESTED:
                    return redirect(url_for("desk.looks"))
                return redirect(go(verdict) if go else url_for("desk.deals"))
        except PROBLEMS as problem:
            form.form_errors = [str(problem)]
    return render_template(template, form=form, seen=seen, **context)
