"""Printing labels: of chosen coins, blank ones, and the calibration page."""

import io

from flask import Response, abort, flash, g, redirect, render_template, request, session, url_for
from PIL import ImageChops

from ...labels import Label, calibration, formats, ids, readback, sheet
from ...records import reading
from ...records.verdicts import Refused
from .. import here, labelling
from . import desk

MOST_BLANK = 1000
FIRST_FORMAT = "letter-30"
PREVIEW_DPI, PREVIEW_HEIGHT, PREVIEW_MARGIN = 200, 1100, 24  # pixels


class Order:
    """What is to be printed and how, from the page's address; falls back to what was chosen last time."""

    def __init__(self, args):
        last = session.get("labels", {})
        self.formats, self.problem = _formats()
        key = args.get("format") or last.get("format", FIRST_FORMAT)
        self.format = self.formats.get(key) or next(iter(self.formats.values()))
        dpi = args.get("dpi", last.get("dpi", 600), int)
        self.dpi = dpi if dpi in formats.DPI else 600
        start = args.get("at", args.get("start", 1, int), int)
        self.start = min(max(1, start), self.format.per_page)
        told = "format" in args
        self.shows = [name for name in labelling.SHOWS if (name in args.getlist("show") if told else name in g.settings["label_shows"])]
        self.coins = [key for key in args.getlist("coin") if ids.LENGTH == len(key)]
        self.place, self.state = args.get("place", ""), args.get("state", "")
        self.blank = min(max(0, args.get("blank", 0, int)), MOST_BLANK)

    def remember(self) -> None:
        session["labels"] = {"format": self.format.key, "dpi": self.dpi}

    def chosen(self) -> list[str]:
        """IDs of the coins whose labels are asked for."""
        if self.coins:
            return self.coins
        if self.place or self.state:
            return reading.coin_ids(place=self.place, state=self.state)
        return []

    def args(self) -> dict:
        """The order as arguments of an address."""
        kept = {"format": self.format.key, "dpi": self.dpi, "start": self.start, "show": self.shows}
        return kept | {"coin": self.coins, "place": self.place or None, "state": self.state or None,
                       "blank": self.blank or None}  # fmt: skip

    def base(self) -> str:
        return g.settings["label_address"] or here.base_address()

    def labels(self, most: int | None = None) -> list[Label]:
        cards = reading.coins(self.chosen()[:most])
        return [labelling.label(card, self.base(), g.settings, self.shows) for card in cards]

    def pdf(self, labels: list[Label]) -> bytes:
        out = io.BytesIO()
        sheet.print_pdf(labels, self.format, self.dpi, start=self.start, out=out)
        return out.getvalue()


def _formats() -> tuple[dict, str]:
    """The formats to choose from, and what is wrong with the owner's own file if it cannot be used."""
    try:
        return labelling.known_formats(here.book().folder), ""
    except formats.BadFormat as problem:
        return formats.all(), str(problem)


def download(data: bytes, name: str) -> Response:
    return Response(data, mimetype="application/pdf", headers={"Content-Disposition": f'attachment; filename="{name}"'})


@desk.get("/labels")
def labels():
    order = Order(request.args)
    order.remember()
    count = order.blank or len(order.chosen())
    sheets, next_start = _sheets(order, count)
    return render_template(
        "desk/labels.html", order=order, many=count, sheets=sheets, next_start=next_start, dpis=formats.DPI,
        places=reading.places(), in_stock=reading.counts()["states"].get("in stock", 0), drawing=_drawing(order.format),
        has_code=bool(g.settings["cost_code"]), base=order.base(), unused=len(reading.blanks()), most=MOST_BLANK,
    )  # fmt: skip


def _sheets(order: Order, count: int) -> tuple[int, int]:
    """How many sheets it takes, and where the next print may start on the last of them."""
    if order.format.roll or not count:
        return count, 1
    used = order.start - 1 + count
    return -(-used // order.format.per_page), used % order.format.per_page + 1


def _drawing(form) -> dict | None:
    """The sheet in millimetres, to draw it and to click on a place; None for a roll."""
    if form.roll:
        return None
    places = []
    for index in range(form.per_page):
        row, column = divmod(index, form.across)
        places.append({"n": index + 1, "x": form.first[0] + column * form.pitch[0],
                       "y": form.first[1] + row * form.pitch[1]})  # fmt: skip
    return {"width": form.paper[0], "height": form.paper[1], "w": form.width, "h": form.height, "places": places}


@desk.get("/labels/coins.pdf")
def labels_pdf():
    order = Order(request.args)
    found = order.labels()
    if not found:
        flash("Choose the coins first.", "warn")
        return redirect(url_for("desk.labels", **order.args()))
    return download(order.pdf(found), "labels.pdf")


@desk.get("/labels/preview.png")
def labels_preview():
    """The labels of the first page as they will be printed, without the bare paper around them."""
    order = Order(request.args)
    room = 1 if order.format.roll else order.format.per_page - order.start + 1
    if order.blank:
        found = [Label.for_later(ids.new_id(), order.base()) for _ in range(min(order.blank, room))]
    else:
        found = order.labels(room)
    if not found:
        abort(404)
    order.dpi = min(order.dpi, 300)
    picture = next(readback.rasters(order.pdf(found), PREVIEW_DPI))
    left, top, right, bottom = ImageChops.invert(picture).getbbox() or (0, 0, *picture.size)
    box = (left - PREVIEW_MARGIN, top - PREVIEW_MARGIN, right + PREVIEW_MARGIN,
           min(bottom + PREVIEW_MARGIN, top + PREVIEW_HEIGHT))  # fmt: skip
    out = io.BytesIO()
    ImageChops.invert(ImageChops.invert(picture).crop(box)).save(out, "PNG")  # what lies outside comes out white
    return Response(out.getvalue(), mimetype="image/png")


@desk.post("/labels/blank")
def blank_labels():
    order = Order(request.form)
    if not order.blank:
        flash("Say how many blank labels to print.", "warn")
        return redirect(url_for("desk.labels"))
    fresh = [ids.new_id() for _ in range(order.blank)]
    data = order.pdf([Label.for_later(key, order.base()) for key in fresh])  # first: an ID counts once it is on paper
    try:
        here.book().act("labels.blank", {"ids": fresh})
    except Refused as problem:
        flash(str(problem), "bad")
        return redirect(url_for("desk.labels", **order.args()))
    return download(data, "blank-labels.pdf")


@desk.get("/labels/calibration.pdf")
def calibration_pdf():
    order = Order(request.args)
    out = io.BytesIO()
    calibration.page(order.format, order.dpi, out=out)
    return download(out.getvalue(), f"calibration-{order.format.key}-{order.dpi}.pdf")
