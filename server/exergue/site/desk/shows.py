"""Shows: where and when, the table, the cash float."""

from flask import abort, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import ValidationError
from wtforms.validators import InputRequired

from ...money import salestax
from ...records import counting, reading
from ...records.tables import Show
from .. import here
from . import desk, floor, lists
from .forms import DayField, LineField, MoneyField, SeenField

NAMES = ("name", "place", "table", "starts", "ends", "float", "tax_rate", "tax_place", "budget", "note")


class ShowForm(FlaskForm):
    name = LineField("Name", [InputRequired("Give the show a name.")], most=120)
    place = LineField("Where", most=120)
    table = LineField("Table", most=40)
    starts = DayField("First day")
    ends = DayField("Last day")
    float = MoneyField("Cash float")
    tax_rate = LineField("Sales tax there, in per cent", most=12)
    tax_place = LineField("Place of the tax", most=120)
    budget = MoneyField("Budget for coins")
    note = LineField("Note", most=2000)
    seen = SeenField()

    def validate_ends(self, field):
        if field.data and self.starts.data and field.data < self.starts.data:
            raise ValidationError("The last day is before the first.")

    def validate_tax_rate(self, field):
        if field.data:
            try:
                field.data = salestax.written(salestax.rate(field.data))
            except salestax.BadTax as problem:
                raise ValidationError(str(problem)) from None

    def wanted(self) -> dict:
        return {name: getattr(self, name).data for name in NAMES} | {"tax_rate": self.tax_rate.data or None}


@desk.get("/shows")
def shows():
    return render_template("desk/shows.html", shows=reading.shows())


@desk.route("/shows/new", methods=["GET", "POST"])
def new_show():
    form = ShowForm()
    if form.validate_on_submit() and lists.save("show", None, form, "The show is in the book."):
        return redirect(url_for("desk.shows"))
    return render_template("desk/edit_show.html", form=form, show=None, sales=[], purchases=[])


@desk.route("/shows/<uuid:show>", methods=["GET", "POST"])
def edit_show(show):
    row = Show.get_or_none(Show.id == str(show)) or abort(404)
    now = {name: getattr(row, name) for name in NAMES} | {"tax_rate": row.tax_rate or None}
    form = ShowForm(data=now | {"seen": now})
    if form.validate_on_submit() and lists.save("show", row.id, form, "The show was changed."):
        return redirect(url_for("desk.shows"))
    sales, bought = reading.sales(row.id), reading.purchases(row.id)
    cards = {card["id"]: card for card in reading.coins([s["coin"] for s in sales] + [c["coin"] for p in bought for c in p["coins"]])}
    return render_template("desk/edit_show.html", form=form, show=row, sales=sales, purchases=bought, cards=cards,
                           figures=here.book().card("show", row.id), rounds=counting.rounds(row.id), over=(row.ends or row.starts) <= floor.today(),
                           waits=next((one for one in floor.waiting() if one["id"] == row.id), None))
