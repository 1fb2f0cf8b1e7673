"""Paired phones: pairing, contact, revoking, what the desk should know of them; and entries from a file."""

from flask import flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField
from wtforms import RadioField
from wtforms.validators import InputRequired

from ...records import devices as paired
from ...records.clock import now_ms
from ...records.verdicts import JournalError
from ...sync import entries_file
from .. import here, hosts, limits, qr
from . import desk
from .contact import out_of_touch
from .forms import LineField, options

SKEW_TOLD_MS = 120_000  # a clock off by less is nobody's business
ROLES = [("owner", "Owner: sees everything"), ("helper", "Helper: no cost, no evidence, no accounts")]


class PairForm(FlaskForm):
    label = LineField("Whose phone is it?", most=60)
    role = RadioField("What may it see?", [InputRequired("Choose what it may see.")], choices=options(ROLES), default="owner")


class NameForm(FlaskForm):
    name = LineField("Name", most=60)


class EntriesForm(FlaskForm):
    file = FileField("File of entries")


def page(pair_form=None, entries_form=None, status: int = 200, **more):
    moment = now_ms()
    quiet = {device.id for device in out_of_touch(moment)}
    return render_template(
        "desk/devices.html", devices=paired.listing(), notices=paired.notices(), quiet=quiet, now=moment,
        pair_form=pair_form or PairForm(formdata=None), entries_form=entries_form or EntriesForm(formdata=None),
        skew_told=SKEW_TOLD_MS, **more,
    ), status  # fmt: skip


@desk.get("/devices")
def devices():
    return page()


@desk.post("/devices/code")
def pairing_code():
    form = PairForm()
    if not form.validate():
        return page(pair_form=form, status=400)
    code = paired.new_code(form.role.data, form.label.data)
    base = here.base_address()
    host = base.partition("://")[2]
    return render_template(
        "desk/pairing.html", code=code, role=form.role.data, label=form.label.data, base=base,
        symbol=qr.drawing(f"{base}/#pair={code}", "Pairing code"), only_here=hosts.is_loopback(host),
        minutes=paired.CODE_MS // 60_000,
    )  # fmt: skip


@desk.post("/devices/<uuid:device>/name")
def rename_device(device):
    form = NameForm()
    if form.validate():
        paired.rename(str(device), form.name.data)
        flash("Renamed.")
    return redirect(url_for("desk.devices"))


@desk.post("/devices/<uuid:device>/revoke")
def revoke_device(device):
    found = paired.get(str(device))
    if found and found.token:
        paired.revoke(found.id)
        flash(f"“{found.name}” is unpaired. It gets nothing more, and wipes itself when it is next in touch.")
    return redirect(url_for("desk.devices"))


@desk.post("/devices/revoke")
def revoke_all_devices():
    count = paired.revoke_all()
    flash(f"{count} {'device is' if count == 1 else 'devices are'} unpaired. Pair those that you have in hand anew.")
    return redirect(url_for("desk.devices"))


@desk.post("/devices/notices/<int:notice>")
def notice_seen(notice: int):
    paired.mark_seen(notice)
    return redirect(url_for("desk.devices"))


@desk.post("/devices/entries")
@limits.at_most(limits.CSV)
def load_entries():
    form = EntriesForm()
    data = form.file.data.read() if form.validate() and form.file.data else b""
    if not data:
        form.file.errors = ["Choose the file that was saved on the phone."]
        return page(entries_form=form, status=400)
    try:
        verdicts, fresh = entries_file.load(here.book(), data)
    except JournalError as problem:
        form.file.errors = [str(problem)]
        return page(entries_form=form, status=400)
    return render_template("desk/entries_loaded.html", verdicts=verdicts, fresh=fresh)
