"""Photos of receipts: taken in with the form of a purchase, kept through the look, named by the entry; or added to a deal later."""

import os

from flask import url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField
from peewee import fn
from wtforms import BooleanField, HiddenField, ValidationError

from ...records import photos
from ...records.clock import now_ms
from ...records.fold.receipts import KINDS
from ...records.tables import Fact, Receipt
from ...records.uuid7 import is_uuid, uuid7
from ...records.verdicts import REFUSED, Refused
from .. import here, taking
from .intake import KEPT_MS, folder

MARK = ".receipt"  # tmp/PHOTO.receipt: nobody has recorded the purchase of this photo yet


class ReceiptForm(FlaskForm):
    receipt = HiddenField()
    receipt_file = FileField("Photo of the receipt")
    receipt_off = BooleanField("Leave this photo out")
    receipt_problem = ""

    def validate_receipt_file(self, field):
        if self.receipt_problem:
            raise ValidationError(self.receipt_problem)


def gather(form: ReceiptForm) -> None:
    """Take in the photo that came with the form, so that it need not be chosen again at the second press."""
    if not _is_here(form.receipt.data) or form.receipt_off.data:
        form.receipt.data = ""
    form.receipt_off.data, form.receipt_off.raw_data = False, []
    data = form.receipt_file.data.read() if form.receipt_file.data else b""
    if not data:
        return
    sweep()
    try:
        photo = uuid7(now_ms())
        taking.keep(photo, data)
    except Refused as problem:
        form.receipt_problem = str(problem)
        return
    os.close(os.open(folder() / (photo + MARK), os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    form.receipt.data = photo


def _is_here(photo: str | None) -> bool:
    return is_uuid(photo) and photos.path(here.book().photos, photo).is_file()


def sweep() -> None:
    """Photos of purchases that were not recorded within a day go; those of recorded ones lose their mark."""
    for mark in folder().glob("*" + MARK):
        if mark.stat().st_mtime_ns // 1_000_000 >= now_ms() - KEPT_MS:
            continue
        photo = mark.name.removesuffix(MARK)
        if not Fact.select().where(Fact.kind.in_(("purchase", "trade")), fn.INSTR(Fact.body, photo) > 0).exists():
            photos.drop(here.book().photos, photo)
        mark.unlink(missing_ok=True)


def photo_of(line: dict) -> str | None:
    """The photo of a receipt that an entry names: that of its own deal, or one that it adds to another."""
    return line["body"].get("photo" if line["kind"] == "receipt" else "receipt")


def of(photo: str | None) -> dict | None:
    """{full, thumb} addresses of a receipt's photo; None where there is none, or its bytes are not here."""
    if not _is_here(photo):
        return None
    return {size: url_for("desk.photo", photo=photo, size=size) for size in photos.EDGES}


def of_deal(line: dict) -> list[dict]:
    """[{added: the entry that added it, or None for that of the deal itself; full, thumb, or neither while its bytes are not here}]."""
    own = [(None, line["body"]["receipt"])] if line["body"].get("receipt") else []
    later = Receipt.select().where(Receipt.of == line["fact"], Receipt.fact != line["fact"]).order_by(Receipt.fact)
    return [{"added": added} | (of(photo) or {}) for added, photo in own + [(row.fact, row.photo) for row in later]]


def may_have(line: dict) -> bool:
    """Whether a receipt can be added to this entry."""
    return line["kind"] in KINDS and not line["voided"] and line["verdict"] != REFUSED
