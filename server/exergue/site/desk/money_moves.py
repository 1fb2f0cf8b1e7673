"""Money that moves without a coin: expenses, income, what the owner puts in or takes out, transfers."""

from wtforms import ValidationError

from . import desk
from .deal_rows import handle
from .entries import PAYMENTS, DealForm
from .forms import LineField, MoneyField, OneOf
from .party import PartyField

WHAT = [("expense", "An expense"), ("income", "Income"), ("owner_in", "The owner puts in"), ("owner_out", "The owner takes out"),
        ("tax_paid", "Tax paid over"), ("transfer", "A transfer"), ("consignor", "Paid to an owner whose coins we sold")]  # fmt: skip


class MoneyForm(DealForm):
    payment = None
    what = OneOf("What", choices=WHAT, default="expense")
    amount = MoneyField("Amount")
    how = OneOf("By, or out of", choices=PAYMENTS[1:], default="cash")
    to = PartyField("To which owner")
    to_how = OneOf("Transfer into", choices=[("", "No transfer"), *PAYMENTS[1:]])
    about = LineField("For what", most=120)
    place = LineField("Place", most=120)

    def validate_amount(self, field):
        if not field.data:
            raise ValidationError("Give the amount.")

    def body(self) -> dict:
        body = {"what": self.what.data, "cents": self.amount.data, "how": self.how.data, "about": self.about.data,
                "date": self.date.data, "show": self.show.data or None, "place": self.place.data,
                "note": self.note.data}  # fmt: skip
        body |= {"to": self.to.data} if self.to.data else {}
        return body | ({"to_how": self.to_how.data} if self.to_how.data else {})


@desk.route("/deals/money", methods=["GET", "POST"])
def new_money():
    return handle(MoneyForm(), "money", "desk/deal_money.html", "It was recorded.")
