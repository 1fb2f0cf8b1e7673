"""Deals of one coin that the book has: its purchase, its sale."""

from datetime import date

from flask import redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import ValidationError

from ...records import reading
from ...records.verdicts import Refused
from .. import here
from . import desk, words
from .coin import card_or_404, say
from .forms import DayField, LineField, MoneyField, OneOf
from .party import PartyField

PAYMENTS = [("", "Not said"), ("cash", "Cash"), ("check", "Check"), ("card", "Card"), ("transfer", "Transfer"),
            ("other", "Other")]  # fmt: skip


class DealForm(FlaskForm):
    """What purchases and sales have in common."""

    date = DayField("Day")
    show = OneOf("Show")
    payment = OneOf("Paid by", choices=PAYMENTS)
    note = LineField("Note", most=2000)

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        if self.show is not None:
            self.show.offer([("", "Not at a show"), *((s["id"], s["name"] or "A show") for s in reading.shows())])
        if not self.is_submitted():
            self.date.data = self.date.data or date.today().isoformat()

    def validate_date(self, field):
        if not field.data and not field.process_errors:
            raise ValidationError("Give the day.")

    def deal(self) -> dict:
        """The fields of a deal as a fact holds them."""
        return {"date": self.date.data, "show": self.show.data or None, "payment": self.payment.data or None,
                "note": self.note.data}  # fmt: skip


class CostFields(DealForm):
    """A purchase: from whom, and what it cost line by line."""

    seller = PartyField("From")

    def cost_fields(self) -> list:
        return [self[f"cost_{what}"] for what in words.COSTS]

    def costs(self) -> list[dict]:
        found = [{"what": what, "cents": self[f"cost_{what}"].data} for what in words.COSTS]
        return [line for line in found if line["cents"] is not None]

    def purchase(self, coin_id: str, fields: dict) -> dict:
        return {"bought": [{"coin": coin_id, "set": fields}], "costs": self.costs(), "from": self.seller.data} | self.deal()


for _what, _name in words.COSTS.items():
    setattr(CostFields, f"cost_{_what}", MoneyField(_name))


class SaleForm(DealForm):
    price = MoneyField("Price")
    fee = MoneyField("Fees that the sale cost you")
    shipping = MoneyField("Shipping that you paid")
    buyer = PartyField("To")

    def sale(self, coin_id: str) -> dict:
        costs = [{"what": what, "cents": self[what].data} for what in ("fee", "shipping") if self[what].data]
        return {"coin": coin_id, "price": self.price.data, "costs": costs, "to": self.buyer.data} | self.deal()


@desk.route("/coins/<coin_id>/sale", methods=["GET", "POST"])
def sell(coin_id: str):
    card = card_or_404(coin_id)
    form = SaleForm()
    if form.validate_on_submit() and complete(form.price, "Give the price."):
        try:
            say(here.book().act("sale", form.sale(card["id"])), "The sale was recorded.")
        except Refused as problem:
            form.form_errors = [str(problem)]
        else:
            return redirect(url_for("desk.coin", coin_id=card["id"]))
    elif not form.is_submitted():
        form.price.data = card["ask"]
    return render_template("desk/sell.html", coin=card, form=form)


@desk.route("/coins/<coin_id>/purchase", methods=["GET", "POST"])
def buy_known(coin_id: str):
    """The purchase of a coin that the book has without one."""
    card = card_or_404(coin_id)
    form = CostFields()
    if form.validate_on_submit() and complete(form.cost_price, "Give the price."):
        try:
            say(here.book().act("purchase", form.purchase(card["id"], {})), "The purchase was recorded.")
        except Refused as problem:
            form.form_errors = [str(problem)]
        else:
            return redirect(url_for("desk.coin", coin_id=card["id"]))
    return render_template("desk/buy_known.html", coin=card, form=form)


def complete(price: MoneyField, missing: str) -> bool:
    """Whether the price is there; says so if it is missing."""
    if price.data is None:
        price.errors = [missing]
    return not price.errors
