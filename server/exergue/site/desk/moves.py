"""What happens to coins of the book besides a sale: away, back, lost, held otherwise, lent."""

from flask import request, url_for
from wtforms import Field, FieldList, FormField, ValidationError
from wtforms.widgets import TextInput

from ...labels import ids
from ...money import rules
from ...records import reading
from .. import here
from . import deal_coins, desk
from .deal_rows import MOST, BadDeal, Row, handle, typed
from .entries import DealForm
from .forms import CoinIdField, DayField, MoneyField, OneOf, WholeField
from .lot_parts import FromField
from .party import PartyField


class CoinsField(Field):
    """IDs of several coins, with spaces, commas or line breaks between them; data is a list of IDs."""

    widget = TextInput()

    def process_formdata(self, values):
        self.data, wrong = ids.parse_all(values[0] if values else "")
        if wrong:
            raise ValueError(wrong[0])

    def pre_validate(self, form):
        if not self.data:
            raise ValidationError("Give the ID of at least one coin.")
        unknown = [key for key in self.data if not here.book().card("coin", key)]
        if unknown:
            raise ValidationError(f"The book has no coin with the ID {ids.show(unknown[0])}.")

    def _value(self):
        return self.raw_data[0] if self.raw_data else " ".join(ids.show(key) for key in self.data or [])


class MoveForm(DealForm):
    """Coins, a day, a note."""

    payment = show = None
    coins = CoinsField("Coins", default=lambda: [card["id"] for card in reading.coins(request.args.getlist("coin")[:MOST])])

    def body(self) -> dict:
        return {"coins": self.coins.data, "date": self.date.data, "note": self.note.data}


class AwayForm(MoveForm):
    why = OneOf("Why", choices=[("grading", "Grading"), ("conservation", "Conservation"), ("display", "Display"),
                                ("other", "Other")], default="grading")  # fmt: skip
    party = PartyField("With")

    def body(self) -> dict:
        return super().body() | {"why": self.why.data, "with": self.party.data}


class WithdrawnForm(MoveForm):
    to = OneOf("Held from now on as", choices=[("personal", "Personal property"), ("investment", "An investment"),
                                               ("stock", "Stock")], default="personal")  # fmt: skip

    def body(self) -> dict:
        return super().body() | {"to": self.to.data}


class LostForm(MoveForm):
    how = OneOf("How", choices=[("missing", "Missing"), ("lost", "Lost"), ("stolen", "Stolen"), ("destroyed", "Destroyed")],
                default="missing")  # fmt: skip
    pieces = WholeField("Pieces of a lot")
    of = FromField("From which purchase")
    reimbursed = MoneyField("Reimbursed")

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        one = self.coins.data if self.coins.data and len(self.coins.data) == 1 else [None]
        self.of.ask(one[0] and here.book().card("coin", one[0]))

    def validate_of(self, field):
        field.check(self.pieces.data)

    def body(self) -> dict:
        if len(self.coins.data) > 1:
            raise BadDeal("Enter each lost coin by itself, for each may have been insured by itself.")
        body = {"coin": self.coins.data[0], "how": self.how.data, "date": self.date.data, "note": self.note.data}
        body |= {"pieces": self.pieces.data} if self.pieces.data is not None else {}
        body |= self.of.named()
        return body | ({"reimbursed": self.reimbursed.data} if self.reimbursed.data is not None else {})


class LentRow(Row):
    coin = CoinIdField("Coin’s ID")
    net = MoneyField("You are to have")


class MemoForm(MoveForm):
    coins = None
    kind = OneOf("Agreement", choices=[("memo", "Memo"), ("consignment", "Consignment")], default="memo")
    party = PartyField("With")
    due = DayField("Back by")
    lent = FieldList(FormField(LentRow), min_entries=1, max_entries=MOST)

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        if not self.is_submitted():
            for row, key in zip(self.lent or (), request.args.getlist("coin"), strict=False):
                row.form.coin.data = key

    def body(self) -> dict:
        rows = typed(self.lent)
        if not rows or any(not row.coin.data or row.net.data is None for row in rows):
            raise BadDeal("Give of each coin its ID, and what its owner is to have when it is sold.")
        return self.about() | {"way": "out", "coins": [{"coin": row.coin.data, "net": row.net.data} for row in rows]}

    def about(self) -> dict:
        return {"kind": self.kind.data, "with": self.party.data, "date": self.date.data, "note": self.note.data} | (
            {"due": self.due.data} if self.due.data else {})  # fmt: skip


class MemoInForm(MemoForm):
    lent = None
    coins = FieldList(FormField(deal_coins.ComingRow), min_entries=1, max_entries=MOST)

    def body(self) -> dict:
        rows = typed(self.coins)
        if not rows or any(row.worth.data is None for row in rows):
            raise BadDeal("Enter each coin, and what its owner is to have when it is sold.")
        lent = []
        for row in rows:
            said = row.body()
            pieces = {"pieces": said.pop("pieces")} if "pieces" in said else {}
            lent.append(said | {"net": row.worth.data} | ({"set": said["set"] | pieces} if said["set"] else {}))
        return self.about() | {"way": "in", "coins": lent}


MOVES = {  # word in the address → (form, kind of entry, heading, button, what was done, hint)
    "away": (AwayForm, "away", "Send away", "Record it", "It is kept where the coins are.", "Still yours, and not in the case."),
    "back": (MoveForm, "back", "Coins that are back", "They are back", "The coins are back.",
             "From memo, consignment or grading, or found again; somebody’s coin goes back to its owner."),
    "lost": (LostForm, "lost", "Lost or stolen", "Record the loss", "The loss was recorded.", rules.TAX_CAUTION),
    "withdrawn": (WithdrawnForm, "withdrawn", "Change how coins are held", "Record it", "The coins are held so from now on.",
                  rules.TAX_CAUTION),
    "memo": (MemoForm, "memo", "Out on memo or consignment", "Record it", "The coins are out.", "Your coins with somebody else."),
    "memo-in": (MemoInForm, "memo", "In on memo or consignment", "Record it", "The coins are in your case, and not your stock.",
                "Somebody’s coins with you: in your case, never in the value of your stock."),
}  # fmt: skip


@desk.route("/deals/move/<any('away','back','lost','withdrawn','memo','memo-in'):way>", methods=["GET", "POST"])
def move(way: str):
    make, kind, heading, button, done, hint = MOVES[way]
    form = make()
    draw = (lambda body: body | {"coins": deal_coins.drawn(body["coins"])}) if way == "memo-in" else None
    return handle(form, kind, "desk/deal_move.html", done, draw=draw, heading=heading, button=button, hint=hint, way=way,
                  go=lambda verdict: _home(form), types_known=deal_coins.type_names() if way == "memo-in" else {})  # fmt: skip


def _home(form) -> str:
    """The coin's page after an entry about one coin, else the deals."""
    one = form.coins.data if isinstance(form.coins, CoinsField) else []
    return url_for("desk.coin", coin_id=one[0]) if len(one) == 1 else url_for("desk.deals")
