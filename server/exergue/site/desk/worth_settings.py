"""Settings of worth: how past sales are weighed, what metal costs, the owner's rule for ceilings and floors."""

import re

from flask import g, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import ValidationError

from ...money import assumed, melt, rule
from ...records import worth
from . import desk
from .forms import DayField, LineField, MoneyField, SeenField, WholeField
from .settings import kept

_PERCENT = re.compile(r"\d{1,7}(\.\d{1,10})?", re.ASCII)
PARTS = ("ceiling", "floor")
KEYS = {"ceiling": ("percent", "fee", "tax", "shipping", "other"), "floor": ("margin", "percent", "melt", "fee", "shipping")}
LABELS = {
    "ceiling_percent": "Share of the estimate, percent", "ceiling_fee": "Buyer’s fee on the price, percent",
    "ceiling_tax": "Tax on price and fee, percent", "ceiling_shipping": "Shipping", "ceiling_other": "Other costs",
    "floor_margin": "Margin over cost, percent", "floor_percent": "Share of the low estimate, percent",
    "floor_melt": "Share of the metal’s worth, percent", "floor_fee": "Seller’s fee, percent", "floor_shipping": "Shipping you pay",
}  # fmt: skip


class PercentField(LineField):
    """A percent as decimal text, "" where nothing was typed; a percent sign and a decimal comma are understood."""

    def process_formdata(self, values):
        super().process_formdata(values)
        self.data = self.data.removesuffix("%").strip().replace(",", ".")

    def pre_validate(self, form):
        if self.data and not _PERCENT.fullmatch(self.data):
            raise ValidationError("Give a percent such as 10 or 7.5.")


class WorthForm(FlaskForm):
    half_life_days = WholeField("Half-life of a sale, days")
    buyers_fee = PercentField("Buyer’s fee, percent")
    seen = SeenField()

    def validate_half_life_days(self, field):
        _tried(lambda: assumed.read({"half_life_days": field.data}), field)

    def validate_buyers_fee(self, field):
        _tried(lambda: assumed.read({"buyers_fee": field.data}), field)

    def validate(self, extra_validators=None) -> bool:
        fits = super().validate(extra_validators)
        for metal in melt.PRECIOUS:
            price, day = self[metal], self[f"{metal}_date"]
            if price.data is not None and not day.data and not day.errors:
                day.errors = [f"Give the day on which you saw the price of {metal}."]
                fits = False
            elif price.data is None and day.data and not price.errors:
                price.errors = [f"Give the price of {metal}, or clear its day."]
                fits = False
        return fits

    def worth(self) -> dict:
        """The setting `worth`: what differs from the usual. What is blank goes back to it."""
        said = {name: _own(self[name].data, getattr(assumed.Settings(), name)) for name in ("half_life_days", "buyers_fee")}
        for part in PARTS:
            own = {key: _own(self[f"{part}_{key}"].data, rule.DEFAULT[part][key]) for key in KEYS[part]}
            said[part] = {key: value for key, value in own.items() if value is not None}
        kept = {name: value for name, value in said.items() if value not in (None, {})}
        unseen = {name: value for name, value in g.settings["worth"].items() if name not in said}
        return unseen | kept

    def spot(self) -> dict:
        """The setting `spot`."""
        return {metal: {"cents": self[metal].data, "date": self[f"{metal}_date"].data}
                for metal in melt.PRECIOUS if self[metal].data is not None}  # fmt: skip


def _own(value, usual):
    return None if value in (None, "", usual) else value


def _tried(read, field) -> None:
    if field.data in (None, ""):
        return
    try:
        read()
    except (assumed.BadAssumption, rule.BadRule, melt.BadSpot) as problem:
        raise ValidationError(str(problem)) from None


def _of_rule(part: str, key: str):
    return lambda form, field: _tried(lambda: rule.read({part: {key: field.data}}), field)


def _of_metal(metal: str):
    return lambda form, field: _tried(lambda: melt.read({metal: {"cents": field.data, "date": "2000-01-01"}}), field)


for _part in PARTS:
    for _key in KEYS[_part]:
        _kind = MoneyField if type(rule.DEFAULT[_part][_key]) is int else PercentField
        setattr(WorthForm, f"{_part}_{_key}", _kind(LABELS[f"{_part}_{_key}"], [_of_rule(_part, _key)]))
for _metal in melt.PRECIOUS:
    setattr(WorthForm, _metal, MoneyField(f"{_metal.capitalize()}, a troy ounce", [_of_metal(_metal)]))
    setattr(WorthForm, f"{_metal}_date", DayField(f"{_metal.capitalize()}, price seen on"))


@desk.route("/settings/worth", methods=["GET", "POST"])
def worth_settings():
    now = {name: g.settings[name] for name in ("worth", "spot")}
    usual, said = worth.assumptions(g.settings), worth.owners_rule(g.settings)
    shown = {"half_life_days": usual.half_life_days, "buyers_fee": usual.buyers_fee}
    shown |= {f"{part}_{key}": said[part][key] for part in PARTS for key in KEYS[part]}
    for metal, one in worth.spots(g.settings).items():
        shown |= {metal: one.cents, f"{metal}_date": one.date.isoformat()}
    form = WorthForm(data=shown | {"seen": now})
    if form.validate_on_submit() and kept(form, {"worth": form.worth(), "spot": form.spot()}):
        return redirect(url_for("desk.worth_settings"))
    return render_template("desk/worth_settings.html", form=form, metals=melt.PRECIOUS, parts=KEYS)
