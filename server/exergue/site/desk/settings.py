"""Settings of the book, and the owner's password."""

import re

from flask import flash, g, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import PasswordField, ValidationError
from wtforms.validators import EqualTo, InputRequired, Length

from ...money import rules as law
from ...records import knowledge, owner
from ...records import settings as rules
from ...records.verdicts import Refused
from .. import here, public
from . import desk, gate
from .coin_form import Ticks
from .forms import LineField, OneOf, SeenField, changed

SHOWS = [("ask", "Asking price"), ("code", "Cost code")]
HELD = [("stock", "Stock of a dealer"), ("investment", "An investment"), ("personal", "Personal property")]
NAMES = ("name", "label_address", "found_line", "label_shows", "cost_code", "held")


def settled(check, field) -> None:
    try:
        check(field.data)
    except rules.BadSetting as problem:
        raise ValidationError(str(problem)) from None


class SettingsForm(FlaskForm):
    name = LineField("Name of the book", [InputRequired("Give the book a name.")], most=120)
    label_address = LineField("Label address", most=120)
    found_line = LineField("“If found” line", most=300)
    label_shows = Ticks("Labels also show", choices=SHOWS)
    cost_code = LineField("Cost code", most=20)
    held = OneOf("Coins are usually held as", choices=HELD)
    seen = SeenField()

    def validate_cost_code(self, field):
        settled(rules.check_cost_code, field)

    def validate_label_address(self, field):
        settled(rules.check_address, field)

    def wanted(self) -> dict:
        fields = {name: getattr(self, name).data for name in NAMES}
        fields["label_shows"] = sorted(fields["label_shows"] or [])
        fields["cost_code"] = "".join(fields["cost_code"].split()).upper()
        fields["label_address"] = fields["label_address"].rstrip("/")
        return fields


class PasswordForm(FlaskForm):
    present = PasswordField("Present password", [InputRequired("Give your present password.")])
    password = PasswordField("New password", [InputRequired("Choose a password."), Length(max=200)])
    again = PasswordField("New password, once more", [EqualTo("password", "The two passwords differ.")])


def kept(form, wanted: dict) -> bool:
    """Record which settings of `wanted` were changed, and tell; else a refusal stands on the form."""
    saw = form.seen.data
    acts = [("setting", {"key": key, "base": saw.get(key), "value": value}) for key, value in changed(saw, wanted).items()]
    try:
        verdicts = here.book().act_all(acts) if acts else []
    except Refused as problem:
        form.form_errors = [str(problem)]
        return False
    contested = [v.message for v in verdicts if v.verdict == "contested"]
    flash(contested[0] if contested else "Kept." if acts else "Nothing was changed.", "warn" if contested else "message")
    return True


@desk.route("/settings", methods=["GET", "POST"])
def settings():
    now = {name: g.settings[name] for name in NAMES}
    form = SettingsForm(data=now | {"seen": now})
    if form.validate_on_submit() and kept(form, form.wanted()):
        return redirect(url_for("desk.settings"))
    return render_template("desk/settings.html", form=form, password=PasswordForm(formdata=None), base=here.base_address(),
                           found_line=public.FOUND_LINE, caution=law.TAX_CAUTION, currency=g.currency, own_types=own_types())  # fmt: skip


def own_types() -> list[dict]:
    """The files of the owner's own catalogue, {file, faults}; one with faults is left out whole."""
    names = sorted(path.name for path in (here.book().folder / "catalogue").glob("*.toml"))
    told = knowledge.catalogue().problems
    of = {fault: next((name for name in names if re.match(re.escape(name) + "[,:] ", fault)), "Elsewhere") for fault in told}
    return [{"file": name, "faults": [re.sub(f"^{re.escape(name)}[,:] ", "", fault) for fault in told if of[fault] == name]}
            for name in [*names, *(["Elsewhere"] if "Elsewhere" in of.values() else [])]]  # fmt: skip


@desk.route("/settings/password", methods=["GET", "POST"])
def password():
    form = PasswordForm()
    if form.validate_on_submit():
        try:
            if not owner.check(g.owner.name, form.present.data, request.remote_addr or ""):
                form.present.errors = ["This is not your present password."]
            else:
                owner.change_password(form.password.data)
                gate.begin(owner.get())
                flash("The password was changed. Other browsers are signed out.")
                return redirect(url_for("desk.settings"))
        except owner.BadPassword as problem:
            form.password.errors = [str(problem)]
        except owner.TooMany as wait:
            form.form_errors = [str(wait)]
    return render_template("desk/password.html", form=form)
