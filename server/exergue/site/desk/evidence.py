"""Evidence: recorded past sales, from which ceilings are drawn."""

from flask import flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import BooleanField, ValidationError

from ...coins import denominations
from ...records import reading
from ...records.verdicts import Refused
from .. import here
from . import desk
from .coin import say
from .coin_form import denomination_choices, type_choices
from .forms import DayField, GradeField, LineField, MoneyField, OneOf, WholeField

PER = 50  # sales on one page
NAMES = ("date", "price", "fee_included", "denom", "type", "title", "year", "mint", "grade", "problem", "source")


class SeenSaleForm(FlaskForm):
    date = DayField("Day")
    price = MoneyField("Price")
    fee_included = BooleanField("The buyer’s fee is in the price")
    denom = OneOf("Denomination")
    type = OneOf("Type", validate_choice=False)
    title = LineField("Description", most=120)
    year = WholeField("Year")
    mint = LineField("Mint mark", most=4)
    grade = GradeField("Grade")
    problem = BooleanField("A problem coin: cleaned, holed, damaged")
    source = LineField("Where it was seen", most=120)

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.denom.offer(denomination_choices())
        self.type.offer(type_choices())

    def validate_price(self, field):
        if field.data is None and not field.process_errors:
            raise ValidationError("Give the price.")

    def validate_date(self, field):
        if not field.data and not field.process_errors:
            raise ValidationError("Give the day.")

    def wanted(self) -> dict:
        fields = {name: getattr(self, name).data for name in NAMES}
        if fields["type"] and not fields["denom"]:
            fields["denom"] = fields["type"].partition("/")[0]
        return fields


@desk.get("/evidence")
def evidence():
    denom, type_ = request.args.get("denom", ""), request.args.get("type", "")
    page = min(max(1, request.args.get("page", 1, int)), 100_000)
    found = reading.evidence(denom, type_, page * PER + 1)
    return render_template(
        "desk/evidence.html", rows=found[(page - 1) * PER : page * PER], total=reading.counts()["evidence"], page=page,
        more=len(found) > page * PER, denoms=list(denominations.ALL.values()), types=type_choices(), denom=denom, type=type_,
    )  # fmt: skip


@desk.post("/evidence/<uuid:fact>/undo")
def undo_evidence(fact):
    """A sale that was recorded wrongly is no evidence any more; the entry stays in the journal."""
    try:
        say(here.book().act("void", {"of": str(fact)}), "The recorded sale is undone.")
    except Refused as problem:
        flash(str(problem), "bad")
    return redirect(url_for("desk.evidence", denom=request.form.get("denom", ""), type=request.form.get("type", "")))


@desk.route("/evidence/new", methods=["GET", "POST"])
def new_evidence():
    form = SeenSaleForm()
    if form.validate_on_submit():
        try:
            say(here.book().act("sale.seen", {"set": form.wanted()}), "The sale was recorded.")
        except Refused as problem:
            form.form_errors = [str(problem)]
        else:
            return redirect(url_for("desk.evidence"))
    return render_template("desk/new_evidence.html", form=form)
