"""A sale of several coins on one ticket, and the receipt that the buyer gets."""

from fractions import Fraction

from flask import abort, g, render_template, request, url_for
from wtforms import FieldList, FormField

from ...labels import ids
from ...money import salestax
from ...money.allocate import split
from ...records import reading
from ...records.tables import Sale
from .. import here
from . import deal_coins, desk, words
from .deal_rows import MOST, BadDeal, PaidForm, add_rows, cost_lines, handle, typed
from .forms import LineField, MoneyField, OneOf
from .lot_parts import LotRow
from .party import PartyField

TAXED = [("none", "No sales tax"), ("rate", "Sales tax at the rate"), ("exempt", "Exempt, with a certificate")]


class SoldRow(LotRow):
    price = MoneyField("Price")


class TicketForm(PaidForm):
    buyer = PartyField("To")
    coins = FieldList(FormField(SoldRow), min_entries=1, max_entries=MOST)
    all_price = MoneyField("One price for all")
    discount = MoneyField("Discount")
    taxed = OneOf("Sales tax", choices=TAXED, default="none")
    rate = LineField("Rate in per cent", most=12)
    tax_place = LineField("Place of the tax", most=120)
    certificate = LineField("Certificate number", most=80)
    reason = LineField("Reason on it", most=200)
    fee = MoneyField("Fees that the sale cost you")
    shipping = MoneyField("Shipping that you paid")
    other = MoneyField("Other costs of yours")

    def body(self) -> dict:
        """The ticket as a fact holds it. Raises BadDeal, BadTax, BadPayments."""
        rows = typed(self.coins)
        sold = [_sold(row) for row in rows]
        if not sold:
            raise BadDeal("Give the ID of at least one coin.")
        prices, discount = [row.price.data for row in rows], self.discount.data or 0
        gross = self._gross(prices)
        if discount > gross:
            raise BadDeal("The discount is more than the price.")
        if self.all_price.data is not None:
            sold = [row | {"weight": weight} for row, weight in zip(sold, asking(sold), strict=True)]
        else:  # the agreed price of each line: its own, less its part of the discount
            less = split(discount, prices) if discount else [0] * len(prices)
            sold = [row | {"price": price - part} for row, price, part in zip(sold, prices, less, strict=True)]
        net = gross - discount
        costs = cost_lines({what: self[what].data for what in ("fee", "shipping", "other")})
        body = {"sold": sold, "price": net, "costs": costs, "to": self.buyer.data} | self.deal() | self._tax(net)
        body |= {"discount": discount} if discount else {}
        given = self.paid(net + body.get("tax", {}).get("cents", 0))
        return body | ({"payments": given} if given else {})

    def _gross(self, prices: list[int | None]) -> int:
        if self.all_price.data is not None:
            if any(price is not None for price in prices):
                raise BadDeal("Give each coin its price, or one price for all, not both.")
            return self.all_price.data
        if None in prices:
            raise BadDeal("Give every coin its price, or one price for all of them.")
        return sum(prices)

    def _tax(self, net: int) -> dict:
        if self.taxed.data == "exempt":
            found = salestax.exemption(self.certificate.data, self.reason.data)
            return {"exempt": {"certificate": found.certificate, "reason": found.reason}}
        if self.taxed.data != "rate":
            return {}
        show = next((one for one in reading.shows() if one["id"] == self.show.data), {})
        rate = self.rate.data or show.get("tax_rate", "")
        if not rate:
            raise BadDeal("Give the rate of the sales tax; this show has none.")
        exact = salestax.rate(rate)
        return {"tax": {"place": self.tax_place.data or show.get("tax_place", ""), "rate": salestax.written(exact),
                        "cents": salestax.tax(net, rate)}}  # fmt: skip


def _sold(row: SoldRow) -> dict:
    card = row.coin.data and here.book().card("coin", row.coin.data)
    if not card:
        given = row.coin.data
        raise BadDeal(f"The book has no coin with the ID {ids.show(given)}." if given else "Give the ID of every coin.")
    return {"coin": row.coin.data} | row.part()


def asking(sold: list[dict]) -> list[int]:
    """Asking prices as weights, for the pieces that go. Raises BadDeal where one has none."""
    found = []
    for row in sold:
        card = here.book().card("coin", row["coin"])
        if not card["ask"]:
            raise BadDeal(f"{words.coin_line(card)} has no asking price to share by; give each coin its price.")
        held = card.get("pieces") or 1
        found.append(Fraction(card["ask"] * (row.get("pieces") or card.get("left") or held), held))
    return deal_coins.whole(found)


@desk.route("/deals/sale", methods=["GET", "POST"])
def new_ticket():
    form = TicketForm()
    if not form.is_submitted():
        for row, card in zip(prefill(form.coins, request.args.getlist("coin")), cards_asked(), strict=False):
            row.form.coin.data, row.form.price.data = card["id"], card["ask"]
            row.form.ask()
    return handle(form, "ticket", "desk/deal_sale.html", "The sale was recorded.",
                  go=lambda verdict: url_for("desk.receipt", fact=verdict.fact), caution=salestax.CAUTION)  # fmt: skip


def cards_asked() -> list[dict]:
    """Cards of the coins that the address names."""
    return reading.coins(request.args.getlist("coin")[:MOST])


def prefill(rows: FieldList, wanted: list) -> FieldList:
    add_rows(rows, len(wanted) - len(rows))
    return rows


@desk.get("/deals/<uuid:fact>/receipt")
def receipt(fact):
    line = reading.fact(str(fact))
    if not line or line["kind"] not in ("ticket", "sale") or line["voided"] or line["verdict"] == "refused":
        abort(404, "The book has no such sale.")
    sold = list(Sale.select().where(Sale.fact == line["fact"]).order_by(Sale.coin))
    body = line["body"]
    cards = {row.coin_id: here.book().card("coin", row.coin_id) for row in sold}
    show = next((one for one in reading.shows() if one["id"] == body.get("show")), None)
    return render_template("desk/receipt.html", body=body, sold=sold, cards=cards, show=show, fact=line["fact"],
                           due=body["price"] + (body.get("tax") or {}).get("cents", 0), book=g.settings["name"])  # fmt: skip
