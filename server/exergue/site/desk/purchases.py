"""A purchase of one or many coins from one party."""

from flask import g, url_for
from wtforms import FieldList, FormField
from wtforms.validators import ValidationError

from ...money import cents, shares
from . import deal_coins, desk, words
from .deal_rows import MOST, BadDeal, PaidForm, PartOf, cost_lines, handle, typed
from .forms import LineField, MoneyField, OneOf

CURRENCIES = [("", "The book’s currency"), *((code, code) for code in cents.CURRENCIES)]


class PurchaseForm(PaidForm):
    seller = LineField("From", most=120)
    coins = FieldList(FormField(deal_coins.ComingRow), min_entries=3, max_entries=MOST)
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
        bought = [row.body() for row in rows]
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


def look(body: dict) -> dict:
    """What each coin costs, all in: {lines: [{name, costs, total}], costs, total}."""
    bought = body["bought"]
    parts = shares.split_costs(body["costs"], [row.get("weight") for row in bought], [row.get("pieces", 1) for row in bought])
    lines = [{"name": deal_coins.name(row), "label": row["coin"], "costs": part, "total": shares.total(part)}
             for row, part in zip(bought, parts, strict=True)]  # fmt: skip
    return {"lines": lines, "costs": body["costs"], "total": shares.total(body["costs"])}


@desk.route("/deals/purchase", methods=["GET", "POST"])
def new_purchase():
    return handle(PurchaseForm(), "purchase", "desk/deal_purchase.html", "The purchase was recorded.", look,
                  draw=lambda body: body | {"bought": deal_coins.drawn(body["bought"])},
                  go=lambda verdict: url_for("desk.deals"), names=words.COSTS, types_known=deal_coins.type_names())  # fmt: skip
