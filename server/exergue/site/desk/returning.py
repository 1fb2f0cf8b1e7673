"""What a buyer gives back of a sale: which coins, how many pieces of a lot, what is refunded."""

from dataclasses import dataclass

from flask import abort, flash, g, redirect, url_for
from wtforms import ValidationError

from ...money import cents, lots
from ...records import reading
from ...records.tables import Move, Sale
from .. import here
from . import desk, showing, words
from .coin_form import Ticks
from .deal_rows import BadDeal, PaidForm, cost_lines, handle
from .forms import MoneyField, WholeField, options


@dataclass(frozen=True)
class Line:
    """What of one line of the sale is not back yet: pieces, and what they were sold for, in cents."""

    coin: str
    pieces: int
    price: int
    sale: Sale

    def of(self, pieces: int) -> int:
        """What so many of them were sold for."""
        return lots.some(self.sale.price, self.sale.pieces, self.sale.pieces - self.pieces, pieces)


def lines(fact: str) -> list[Line]:
    """The lines of a sale of which anything is not back yet."""
    back: dict[str, int] = {}
    for move in Move.select().where(Move.step == "return", Move.of == fact, Move.live == True):  # noqa: E712
        back[move.coin_id] = back.get(move.coin_id, 0) + move.pieces
    sold = Sale.select().where(Sale.fact == fact, Sale.live == True).order_by(Sale.coin)  # noqa: E712
    open_ = [(row, row.pieces - back.get(row.coin_id, 0)) for row in sold]
    return [Line(row.coin_id, left, lots.some(row.price, row.pieces, row.pieces - left, left), row) for row, left in open_ if left > 0]


class ReturnForm(PaidForm):
    show = None
    back = Ticks("Coins that come back")
    pieces = WholeField("Pieces that come back")
    refund = MoneyField("Refund of the price")
    tax = MoneyField("Sales tax given back")
    shipping = MoneyField("Shipping that it cost you")
    other = MoneyField("Other costs of yours")

    def __init__(self, *args, of: str, lines: list[Line], **more):
        super().__init__(*args, **more)
        self.of, self.lines = of, lines
        self.back.choices = options([(line.coin, _said(line)) for line in lines])
        self.lots = [line for line in lines if line.pieces > 1]
        if not self.lots:
            del self.pieces

    def _ticked(self) -> list[Line]:
        return [line for line in self.lines if line.coin in (self.back.data or [])]

    def validate_pieces(self, field):
        ticked = self._ticked()
        if field.data is None or not ticked:
            return
        if len(ticked) > 1:
            raise ValidationError("Tick the lot alone of which some pieces come back; the other coins are a return of their own.")
        if not 0 < field.data <= ticked[0].pieces:
            many = "piece is" if ticked[0].pieces == 1 else "pieces are"
            raise ValidationError(f"{ticked[0].pieces} {many} not back yet; give a number from 1 to {ticked[0].pieces}.")

    def validate_refund(self, field):
        count, ticked = self._count(), self._ticked()
        if count is None or len(ticked) != 1 or not 0 < count < ticked[0].pieces or field.data is None:
            return
        most = ticked[0].of(count)
        if field.data > most:
            what = "This piece was" if count == 1 else f"These {count} pieces were"
            raise ValidationError(f"{what} sold for {cents.show(most, g.currency)}; refund that much at most.")

    def _count(self) -> int | None:
        return self.pieces.data if "pieces" in self else None

    def body(self) -> dict:
        if not self.back.data:
            raise BadDeal("Tick the coins that come back.")
        if self.refund.data is None:
            raise BadDeal("Give the refund, 0 if nothing was given back.")
        costs = cost_lines({what: self[what].data for what in ("shipping", "other")})
        body = {"of": self.of, "coins": self.back.data, "refund": self.refund.data, "costs": costs, "date": self.date.data,
                "note": self.note.data}  # fmt: skip
        body |= {"pieces": self._count()} if self._count() is not None else {}
        body |= {"tax": self.tax.data} if self.tax.data else {}
        given = self.paid(self.refund.data + (self.tax.data or 0))
        return body | ({"payments": given} if given else {})


def _said(line: Line) -> str:
    many = f"{showing.count(line.pieces, 'piece')}, " if line.sale.pieces > 1 else ""
    return f"{words.coin_line(here.book().card('coin', line.coin) or {})}, {many}{showing.money(line.price)}"


@desk.route("/deals/<uuid:fact>/return", methods=["GET", "POST"])
def return_sale(fact):
    line = reading.fact(str(fact))
    if not line or line["kind"] not in ("ticket", "sale"):
        abort(404, "The book has no such sale.")
    left = lines(line["fact"])
    if not left:
        flash("Nothing of this sale is left to give back.", "warn")
        return redirect(url_for("desk.deals"))
    form = ReturnForm(of=line["fact"], lines=left)
    if not form.is_submitted():
        form.back.data = [one.coin for one in left]
        form.refund.data = sum(one.price for one in left)
        form.tax.data = (line["body"].get("tax") or {}).get("cents")
    return handle(form, "return", "desk/deal_return.html", "The return was recorded.", said=words.sentence(line)[0])
