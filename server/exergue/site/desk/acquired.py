"""Coins that came without a purchase: there from the start, inherited, given, found."""

from flask_wtf import FlaskForm
from wtforms import FieldList, FormField

from ...money import rules
from . import deal_coins, desk
from .deal_rows import MOST, BadDeal, handle, typed
from .forms import DayField, MoneyField, OneOf
from .moves import MoveForm
from .party import PartyField

HOW = [("opening", "There from the start"), ("inherited", "Inherited"), ("gift", "A gift"), ("found", "Found")]


class AcquiredRow(deal_coins.ComingRow):
    basis = MoneyField("Gift: donor’s basis")
    since = DayField("Gift: theirs since")
    gift_tax = MoneyField("Gift: added for gift tax paid")
    paid = MoneyField("Gift in part: what you paid")


class AcquiredForm(MoveForm):
    how = OneOf("How", choices=HOW, default="opening")
    party = PartyField("From")
    coins = FieldList(FormField(AcquiredRow), min_entries=1, max_entries=MOST)

    def __init__(self, *args, **more):
        FlaskForm.__init__(self, *args, **more)  # the day is not today's: it may be that of a death

    def body(self) -> dict:
        rows = typed(self.coins)
        if not rows:
            raise BadDeal("Enter at least one coin.")
        return {"how": self.how.data, "coins": [_row(row) for row in rows], "from": self.party.data, "date": self.date.data,
                "note": self.note.data}  # fmt: skip


def _row(row: AcquiredRow) -> dict:
    given = {"value": row.worth.data, "basis": row.basis.data, "since": row.since.data or None, "gift_tax": row.gift_tax.data,
             "paid": row.paid.data}  # fmt: skip
    return row.body() | {name: value for name, value in given.items() if value is not None}


@desk.route("/deals/acquired", methods=["GET", "POST"])
def new_acquired():
    return handle(AcquiredForm(), "acquired", "desk/deal_acquired.html", "The coins are in the book.",
                  draw=lambda body: body | {"coins": deal_coins.drawn(body["coins"])}, caution=rules.TAX_CAUTION,
                  types_known=deal_coins.type_names())  # fmt: skip
