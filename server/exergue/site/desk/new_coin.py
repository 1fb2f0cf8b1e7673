"""A coin that is new to the book: with its purchase, or without."""

from flask import redirect, render_template, request, url_for
from wtforms import RadioField

from ...labels import ids
from ...records import reading
from ...records.verdicts import CONTESTED, Refused
from .. import here
from . import desk
from .coin import say
from .coin_form import CoinFields
from .entries import CostFields, complete
from .forms import CoinIdField, options


class NewCoinForm(CoinFields, CostFields):
    coin_id = CoinIdField("ID on a blank label")
    came = RadioField("How did it come to you?", default="bought",
                      choices=options([("bought", "I bought it"), ("had", "I have it; the purchase is not recorded")]))  # fmt: skip

    def validate_date(self, field):
        if self.came.data == "bought":
            super().validate_date(field)


@desk.route("/coins/new", methods=["GET", "POST"])
def new_coin():
    form = NewCoinForm()
    if not form.is_submitted():
        form.denom.data = request.args.get("denom", "")
        form.type.data = request.args.get("type", "")
        form.publish.data = []
    if _valid(form):
        coin_id = form.coin_id.data or ids.new_id()
        kind, body = "coin.add", {"coin": coin_id, "set": form.wanted()}
        if form.came.data == "bought":
            kind, body = "purchase", form.purchase(coin_id, form.wanted())
        try:
            verdict = here.book().act(kind, body)
        except Refused as problem:
            form.refuse(problem)
        else:
            say(verdict, "The coin is in the book. Print its label when you like.")
            if verdict.verdict == CONTESTED:
                return redirect(url_for("desk.looks"))
            return redirect(url_for("desk.coin", coin_id=coin_id))
    return render_template("desk/new_coin.html", form=form, places=reading.places(), blanks=len(reading.blanks()))


def _valid(form: NewCoinForm) -> bool:
    if not form.validate_on_submit():
        return False
    return form.came.data == "had" or complete(form.cost_price, "Give the price, 0 if it was a gift.")
