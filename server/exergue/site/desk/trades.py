"""Coins for coins, and the boot that makes it even."""

from flask import g, request
from wtforms import FieldList, FormField

from ...labels import ids
from ...money import cents, rules
from .. import here
from . import deal_coins, desk
from .deal_rows import MOST, BadDeal, PaidForm, add_rows, cost_lines, handle, typed
from .forms import MoneyField, OneOf
from .lot_parts import LotRow
from .party import PartyField

BOOT = [("none", "No boot"), ("received", "They pay you"), ("paid", "You pay them")]


class OutRow(LotRow):
    value = MoneyField("Value")


class TradeForm(PaidForm):
    party = PartyField("With")
    out = FieldList(FormField(OutRow), min_entries=1, max_entries=MOST)
    coins = FieldList(FormField(deal_coins.BoughtRow), min_entries=1, max_entries=MOST)
    way = OneOf("Boot", choices=BOOT, default="none")
    boot = MoneyField("Amount of the boot")
    shipping = MoneyField("Shipping that it cost you")
    other = MoneyField("Other costs of yours")

    def body(self) -> dict:
        """The trade as a fact holds it. Raises BadDeal with the difference where the sides do not come even."""
        out, come = typed(self.out), typed(self.coins)
        if not out or not come:
            raise BadDeal("A trade needs a coin on each side.")
        if any(row.value.data is None for row in out) or any(row.worth.data is None for row in come):
            raise BadDeal("Give every coin of the trade its value.")
        given = [_out(row) for row in out]
        got = deal_coins.one_each([row.body() | {"value": row.worth.data} for row in come])
        boot = {"none": 0, "received": 1, "paid": -1}[self.way.data] * (self.boot.data or 0)
        off = sum(row["value"] for row in given) - sum(row["value"] for row in got)
        if boot != off:
            raise BadDeal(uneven(off, g.currency))
        costs = cost_lines({what: self[what].data for what in ("shipping", "other")})
        body = {"out": given, "in": got, "boot": boot, "costs": costs, "with": self.party.data} | self.deal()
        paid = self.paid(abs(boot))
        return body | ({"payments": paid} if paid else {})


def uneven(off: int, currency: str) -> str:
    """What would make the sides even, in a sentence; `off` is the value out less the value in."""
    if not off:
        return "The sides are even without boot; leave it out, or change a value."
    amount = cents.show(abs(off), currency)
    who = "they pay you" if off > 0 else "you pay them"
    return f"The sides differ by {amount}: it is even when {who} {amount} boot, or change a value."


def _out(row: OutRow) -> dict:
    if not row.coin.data or not here.book().card("coin", row.coin.data):
        shown = f"the ID {ids.show(row.coin.data)}" if row.coin.data else "no ID"
        raise BadDeal(f"The book has no coin with {shown}; give the ID of every coin that goes out.")
    return {"coin": row.coin.data, "value": row.value.data} | row.part()


@desk.route("/deals/trade", methods=["GET", "POST"])
def new_trade():
    form = TradeForm()
    if not form.is_submitted():
        asked = [card for card in map(_card, request.args.getlist("coin")[:MOST]) if card]
        add_rows(form.out, len(asked) - len(form.out))
        for row, card in zip(form.out, asked, strict=False):
            row.form.coin.data, row.form.value.data = card["id"], card["ask"]
            row.form.ask()
    return handle(form, "trade", "desk/deal_trade.html", "The trade was recorded.",
                  draw=lambda body: body | {"in": deal_coins.drawn(body["in"])}, caution=rules.TAX_CAUTION, types_known=deal_coins.type_names())  # fmt: skip


def _card(key: str) -> dict | None:
    return here.book().card("coin", key)
