"""A later cost of coins that the book has, such as grading or conservation, and how it is divided over them."""

from datetime import date

from flask import g, request
from wtforms import FieldList, FormField

from ...labels import ids
from ...money import shares
from ...records import worth
from .. import here
from . import desk, words
from .deal_rows import MOST, BadDeal, PaidForm, Row, cost_lines, handle, typed
from .forms import CoinIdField, MoneyField, OneOf
from .party import PartyField
from .tickets import cards_asked, prefill

SPLITS = [("even", "Evenly over the pieces"), ("cost", "By what each cost so far"), ("estimate", "By the book’s estimates"),
          ("weights", "By the shares typed")]  # fmt: skip
WHAT = ("grading", "shipping", "insurance", "other")


class LadenRow(Row):
    coin = CoinIdField("Coin’s ID")
    worth = MoneyField("Share")


class CostForm(PaidForm):
    show = None
    coins = FieldList(FormField(LadenRow), min_entries=1, max_entries=MOST)
    split = OneOf("Divide it", choices=SPLITS, default="even")
    party = PartyField("Paid to")
    grading = MoneyField("Grading, authentication")
    shipping = MoneyField("Shipping")
    insurance = MoneyField("Insurance")
    other = MoneyField("Other, such as conservation")

    def body(self) -> dict:
        """The cost as a fact holds it. Raises BadDeal, BadPayments."""
        rows = typed(self.coins)
        cards = [_card(row) for row in rows]
        if not cards:
            raise BadDeal("Give the ID of at least one coin.")
        costs = cost_lines({what: self[what].data for what in WHAT})
        if not costs:
            raise BadDeal("Give at least one cost.")
        laden = [{"coin": card["id"]} for card in cards]
        found = weights(self.split.data, cards, [row.worth.data for row in rows]) if len(rows) > 1 else None
        if found:
            laden = [row | {"weight": weight} for row, weight in zip(laden, found, strict=True)]
        body = {"coins": laden, "costs": costs, "from": self.party.data, "date": self.date.data, "note": self.note.data}
        given = self.paid(shares.total(costs))
        return body | ({"payments": given} if given else {})


def _card(row: LadenRow) -> dict:
    card = row.coin.data and here.book().card("coin", row.coin.data)
    if not card:
        raise BadDeal(f"The book has no coin with the ID {ids.show(row.coin.data)}." if row.coin.data else
                      "Give the ID of every coin that has a share.")  # fmt: skip
    return card


def weights(how: str, cards: list[dict], typed: list[int | None]) -> list[int] | None:
    """What a later cost is divided by; None: evenly over the pieces. Raises BadDeal where a coin lacks what is asked for."""
    if how == "even":
        return None
    if how == "weights":
        if None in typed:
            raise BadDeal("Give every coin a share, or divide the cost in another way.")
        return typed
    found = [card["own"]["cost"] if how == "cost" else _estimate(card) for card in cards]
    for card, one in zip(cards, found, strict=True):
        if one is None:
            why = "What {} cost is not known" if how == "cost" else "The book has no estimate of {}"
            raise BadDeal(f"{why.format(words.coin_line(card))}; type the shares, or divide the cost in another way.")
    return found


def _estimate(card: dict) -> int | None:
    """The middle of the book's estimate for all pieces that are left, in cents."""
    row = worth.of_coin(card, g.settings, date.today()).row
    left = card.get("left") or card.get("pieces") or 1
    return None if row is None or row.mid is None else row.mid * left


@desk.route("/deals/move/cost", methods=["GET", "POST"])
def new_cost():
    form = CostForm()
    if not form.is_submitted():
        for row, card in zip(prefill(form.coins, request.args.getlist("coin")), cards_asked(), strict=False):
            row.form.coin.data = card["id"]
    return handle(form, "cost", "desk/deal_cost.html", "The cost was recorded.", quick=lambda body: len(body["coins"]) == 1)
