"""Settings of worth: how past sales are weighed, what metal costs, the owner's rule for ceilings and floors."""

import re

from flask import g, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import ValidationError

from ...money import assumed, melt, rule
from ...records import worth
from . import desk, worth_example
from .forms import DayField, LineField, MoneyField, OneOf, SeenField, WholeField
from .settings import kept

_PERCENT = re.compile(r"\d{1,7}(\.\d{1,10})?", re.ASCII)
PARTS = ("ceiling", "floor")
KEYS = {"ceiling": ("of", "percent", "fee", "tax", "shipping", "other"), "floor": ("margin", "of", "percent", "melt", "fee", "shipping")}
FIELDS = {  # label, and what it does in one short line
    "ceiling_of": ("Start from", "The point of the estimate from which the most to pay is worked out."),
    "ceiling_percent": ("Share of it, percent", "What you are ready to pay of that, all in."),
    "ceiling_fee": ("Buyer’s fee, percent", "Charged on top of the price, as at an auction."),
    "ceiling_tax": ("Tax, percent", "Charged on price and fee."),
    "ceiling_shipping": ("Shipping", "Comes off what is left for the price."),
    "ceiling_other": ("Other costs", "Such as grading; comes off as well."),
    "floor_margin": ("Margin over cost, percent", "The least gain that you want on what the coin cost, all in."),
    "floor_of": ("Start from", "The point of the estimate below which you will not go."),
    "floor_percent": ("Share of it, percent", "So much of that is asked at least."),
    "floor_melt": ("Share of the metal’s worth, percent", "Never less than so much of the metal in the coin."),
    "floor_fee": ("Seller’s fee, percent", "What the sale costs you of the price."),
    "floor_shipping": ("Shipping you pay", "Added, so that it does not come out of your margin."),
}  # fmt: skip
POINTS = [("low", "The low estimate"), ("mid", "The middle"), ("high", "The high estimate")]
FOLLOW = [("yes", "Yes, bring old prices to today’s level"), ("no", "No, take them as they were")]


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
    follow_market = OneOf("Follow the market", choices=FOLLOW, default="yes")
    factor_sales = WholeField("Sales before designations are compared")
    seen = SeenField()

    def validate_factor_sales(self, field):
        _tried(lambda: assumed.read({"factor_sales": field.data}), field)

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
        said = {name: _own(self[name].data, getattr(assumed.Settings(), name)) for name in PLAIN}
        said["follow_market"] = _own(self.follow_market.data != "no", assumed.Settings().follow_market)
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


PLAIN = ("half_life_days", "buyers_fee", "factor_sales")


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
        _name, _usual = f"{_part}_{_key}", rule.DEFAULT[_part][_key]
        _kind = MoneyField if type(_usual) is int else PercentField
        _more = {"choices": POINTS, "default": _usual} if _key == "of" else {}
        setattr(WorthForm, _name, (OneOf if _more else _kind)(FIELDS[_name][0], [_of_rule(_part, _key)], **_more))
for _metal in melt.PRECIOUS:
    setattr(WorthForm, _metal, MoneyField(f"{_metal.capitalize()}, a troy ounce", [_of_metal(_metal)]))
    setattr(WorthForm, f"{_metal}_date", DayField(f"{_metal.capitalize()}, price seen on"))


@desk.route("/settings/worth", methods=["GET", "POST"])
def worth_settings():
    now = {name: g.settings[name] for name in ("worth", "spot")}
    usual, said = worth.assumptions(g.settings), worth.owners_rule(g.settings)
    shown = {name: getattr(usual, name) for name in PLAIN} | {"follow_market": "yes" if usual.follow_market else "no"}
    shown |= {f"{part}_{key}": said[part][key] for part in PARTS for key in KEYS[part]}
    for metal, one in worth.spots(g.settings).items():
        shown |= {metal: one.cents, f"{metal}_date": one.date.isoformat()}
    form = WorthForm(data=shown | {"seen": now})
    fits, tried = form.validate_on_submit(), request.form.get("do") == "try"
    if fits and not tried and kept(form, {"worth": form.worth(), "spot": form.spot()}):
        return redirect(url_for("desk.worth_settings"))
    example = worth_example.of(form.worth() if fits else {name: getattr(usual, name) for name in (*PLAIN, "follow_market")} | said)
    return render_template("desk/worth_settings.html", form=form, metals=melt.PRECIOUS, parts=KEYS, hints=FIELDS, example=example,
                           tried=fits and tried, given=worth_example)  # fmt: skip
