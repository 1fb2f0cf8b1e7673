"""From which purchase the pieces of a lot are: asked where the book does not take the first in."""

from flask import g
from wtforms import ValidationError

from .. import here
from .deal_rows import Row
from .forms import CoinIdField, OneOf, WholeField
from .lot_words import parts, said


def asked(card: dict | None) -> list[dict]:
    """The purchases that one is to be named of: none in a book that takes the first in, nor for a lot of one purchase."""
    if g.settings["lots"] != "specific":
        return []
    return [one for one in parts(card) if one["how"] != "entered"]


class FromField(OneOf):
    """The entry by which the pieces meant came, "" for none. One that the coin has no more is asked anew."""

    def ask(self, card: dict | None) -> None:
        self.card, self.parts = card, asked(card)
        self.offer([("", "Say which"), *((one["fact"], said(one)) for one in self.parts)] if self.parts else [("", "")])

    def pre_validate(self, form):
        if self.data not in {one["fact"] for one in self.parts}:
            self.data = ""

    def check(self, pieces: int | None) -> None:
        """Raises ValidationError where a purchase must be named, or has fewer pieces left than go; no number: all go."""
        if not self.parts:
            return
        left = self.card["left"]
        many = left if pieces is None else pieces
        if not self.data and many < left:
            raise ValidationError("This lot came by several purchases; say from which these pieces are.")
        there = next((one["left"] for one in self.parts if one["fact"] == self.data), None)
        if there is not None and many > there:
            raise ValidationError(f"Of that purchase {there} {'piece is' if there == 1 else 'pieces are'} left; give that many at most, or take another.")

    def named(self) -> dict:
        """{of}, as a fact holds it."""
        return {"of": self.data} if self.data else {}


class LotRow(Row):
    """A coin of the book that goes, or pieces of a lot."""

    coin = CoinIdField("Coin’s ID")
    pieces = WholeField("Pieces")
    of = FromField("From which purchase")

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.ask()

    def ask(self) -> None:
        """Ask anew, once the coin stands in its field."""
        self.of.ask(self.coin.data and here.book().card("coin", self.coin.data))

    def validate_of(self, field):
        field.check(self.pieces.data)

    def part(self) -> dict:
        """{pieces?, of?}, as a fact holds it."""
        return ({"pieces": self.pieces.data} if self.pieces.data is not None else {}) | self.of.named()
