"""A purchase of one or many coins from one party."""

from flask import g, request
from wtforms import FieldList, FormField
from wtforms.validators import ValidationError

from ...money import cents, shares
from .. import here, limits
from . import deal_coins, desk, receipts
from .deal_rows import MOST, BadDeal, PaidForm, PartOf, cost_lines, handle, typed
from .forms import LineField, MoneyField, OneOf
from .party import PartyField

CURRENCIES = [("", "The book’s currency"), *((code, code) for code in cents.CURRENCIES)]


class PurchaseForm(PaidForm, receipts.ReceiptForm):
    seller = PartyField("From")
    coins = FieldList(FormField(deal_coins.BoughtRow), min_entries=1, max_entries=MOST)
    price = MoneyField("Price")
    fee = PartOf("Buyer’s fee", most=24)
    tax = PartOf("Tax", most=24)
    shipping = MoneyField("Shipping")
    insurance = MoneyField("Insurance")
    grading = MoneyField("Grading, authentication")
    other = MoneyField("Other")
    split = OneOf("Share the sum", choices=deal_coins.SPLITS, default="even")
    currency = OneOf("Paid in", choices=CURRENCIES)
    foreign = LineField("Price in that currency", most=24)
    rate = LineField("Rate", most=16)

    def validate_rate(self, field):
        if self.currency.data and not field.data:
            raise ValidationError("Give what one unit of that currency is worth here, such as 1.0832.")

    def body(self) -> dict:
        """The purchase as a fact holds it; coins without a label have coin None."""
        rows = typed(self.coins)
        if not rows:
            raise BadDeal("Enter at least one coin.")
        bought = deal_coins.one_each([row.body() for row in rows])
        found = deal_coins.weights(self.split.data, bought, [row.worth.data for row in rows]) if len(rows) > 1 else None
        if found:
            bought = [row | {"weight": weight} for row, weight in zip(bought, found, strict=True)]
        foreign = self._foreign()
        price = shares.in_book(foreign["cents"], foreign["currency"], foreign["rate"], g.currency) if foreign else self.price.data
        if price is None:
            raise BadDeal("Give the price, 0 if it was nothing.")
        fee = self.fee.of(price)
        tax = self.tax.of(price + (fee or 0))
        costs = [{"what": "price", "cents": price}] + cost_lines(
            {"fee": fee, "tax": tax} | {what: self[what].data for what in ("shipping", "insurance", "grading", "other")}
        )
        body = {"bought": bought, "costs": costs, "from": self.seller.data} | self.deal()
        body |= {"split": self.split.data} if len(rows) > 1 else {}
        body |= {"foreign": foreign} if foreign else {}
        body |= {"receipt": self.receipt.data} if self.receipt.data else {}
        given = self.paid(shares.total(costs))
        return body | ({"payments": given} if given else {})

    def _foreign(self) -> dict | None:
        if not self.currency.data:
            return None
        if self.price.data is not None:
            raise BadDeal("Give the price in one currency; it is worked out in the other.")
        amount = cents.parse(self.foreign.data, self.currency.data)
        if amount is None or amount < 0:
            raise BadDeal("Give the price in the currency in which it was paid.")
        return {"currency": self.currency.data, "cents": amount, "rate": self.rate.data.replace(",", ".")}


@desk.route("/deals/purchase", methods=["GET", "POST"])
@limits.at_most(limits.PHOTO, parts=limits.ROWS)
def new_purchase():
    form = PurchaseForm()
    if form.is_submitted():
        receipts.gather(form)
    else:
        for row, key in zip(form.coins, request.args.getlist("coin"), strict=False):
            row.form.label.data = key
        if want := here.book().card("want", request.args.get("want", "")):
            first = form.coins[0].form
            first.want.data, first.type.data, first.denom.data = want["id"], want["type"], want["denom"]
    return handle(form, "purchase", "desk/deal_purchase.html", "The purchase was recorded.",
                  draw=lambda body: body | {"bought": deal_coins.drawn(body["bought"])}, types_known=deal_coins.type_names())  # fmt: skip
