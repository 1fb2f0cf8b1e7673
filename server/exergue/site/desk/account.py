"""The owner: made on the first run, signs in and out."""

import secrets

from flask import current_app, flash, redirect, render_template, request, session, url_for
from flask_wtf import FlaskForm
from werkzeug.exceptions import Forbidden
from wtforms import PasswordField, StringField
from wtforms.validators import EqualTo, InputRequired, Length

from ...records import owner
from . import desk, gate
from .forms import plain_text


class SetUpForm(FlaskForm):
    name = StringField("Your name", [InputRequired("Give the name to sign in with."), Length(max=60), plain_text])
    password = PasswordField("Password", [
        InputRequired("Choose a password."),
        Length(min=owner.MIN_PASSWORD, message=f"A password needs at least {owner.MIN_PASSWORD} characters."),
        Length(max=200, message="A password may have at most 200 characters.")])  # fmt: skip
    again = PasswordField("Password, once more", [EqualTo("password", "The two passwords differ.")])


class SignInForm(FlaskForm):
    name = StringField("Name", [InputRequired("Give your name."), Length(max=60)])
    password = PasswordField("Password", [InputRequired("Give your password."), Length(max=200)])


class NoKey(Forbidden):
    code_name = "set_up_key"
    way_out = False  # the desk would lead back to this very page
    title = "The desk has no owner yet"
    description = "Open the link that was printed in the terminal when the desk started; it lets you in once."


@desk.route("/set-up", methods=["GET", "POST"])
@gate.open_to_all
def set_up():
    if owner.exists():
        return redirect(url_for("desk.sign_in"))
    key = current_app.config["SET_UP_KEY"]
    given = request.args.get("key")
    if given is not None:
        if key and secrets.compare_digest(given.encode(), key.encode()):
            session["set_up"] = True
            return redirect(url_for("desk.set_up"))  # the key leaves the address bar
        raise NoKey()
    if not (key and session.get("set_up")):
        raise NoKey()
    form = SetUpForm()
    if form.validate_on_submit():
        try:
            gate.begin(owner.create(form.name.data, form.password.data))
        except owner.BadPassword as problem:
            form.password.errors = [str(problem)]
        except ValueError:
            return redirect(url_for("desk.sign_in"))
        else:
            flash("Welcome. This is your desk.")
            return redirect(url_for("desk.today"))
    return render_template("desk/set_up.html", form=form)


@desk.route("/sign-in", methods=["GET", "POST"])
@gate.open_to_all
def sign_in():
    if not owner.exists():
        return redirect(url_for("desk.set_up"))
    form = SignInForm()
    status = 200
    if form.validate_on_submit():
        try:
            person = owner.check(form.name.data, form.password.data, request.remote_addr or "")
        except owner.TooMany as wait:
            minutes = -(-wait.seconds // 60)
            form.form_errors = [f"Too many tries. Wait {minutes} minute{'s' if minutes != 1 else ''} and try again."]
            status = 429
        else:
            if person:
                gate.begin(person)
                return redirect(gate.next_page())
            form.form_errors = ["That name and password do not belong together."]
            status = 403
    page = render_template("desk/sign_in.html", form=form)
    return page, status


@desk.post("/sign-out")
def sign_out():
    gate.end()
    return redirect(url_for("desk.sign_in"))
