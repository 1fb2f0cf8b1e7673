"""What a label's address shows: the app on a paired phone; to anyone else what the owner published, or an
"if found" line. Unpublished, unknown and invalid IDs get the same bytes."""

from flask import Blueprint, Response, abort, render_template, request
from werkzeug.exceptions import NotFound

from ..labels import ids
from ..records import coin_money, photos
from ..records.states import HELD
from . import files, here, keep

public = Blueprint("public", __name__)

FOUND_LINE = "This label belongs to a coin in a private collection. If you have found it, please keep it safe."


@public.get("/c/<text>")
@public.get("/C/<text>")
def label(text: str):
    if here.device():
        response = files.send("web", "index.html")
    else:
        settings = here.book().settings()
        page = render_template("public.html", coin=published(text), currency=settings["currency"],
                               found_line=settings["found_line"] or FOUND_LINE)  # fmt: skip
        response = Response(page)
    response.vary.add("Cookie")
    return response


@public.before_app_request
def app_page():
    """A page of the app that a paired phone opens by its address while its service worker is not there yet to answer."""
    if request.method == "GET" and isinstance(request.routing_exception, NotFound) and keep.of_app(request.path) and here.device():
        response = files.send("web", "index.html")
        response.vary.add("Cookie")
        return response
    return None


@public.get("/c/<text>/<uuid:photo>")
def photo(text: str, photo):
    card = published(text)
    if not card or str(photo) not in {one["photo"] for one in card["photos"]}:
        abort(404)
    return send_photo(str(photo), "full")


def send_photo(photo_id: str, size: str):
    """A photo's JPEG ("full" or "thumb"), or 404 while its bytes have not arrived."""
    if not photo_here(photo_id, size):
        abort(404)
    response = Response(photos.path(here.book().photos, photo_id, size).read_bytes(), mimetype="image/jpeg")
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"  # a photo never changes under its ID
    return response


def photo_here(photo_id: str, size: str = "full") -> bool:
    """Whether the bytes have arrived; the entry that names a photo may come first."""
    return photos.path(here.book().photos, photo_id, size).is_file()


def published(text: str) -> dict | None:
    """What may be shown of the coin: only the parts that its owner switched on, and only while it is held."""
    try:
        card = here.book().card("coin", ids.parse(text))
    except ids.BadLabel:
        return None
    if not card or not card["publish"] or card["state"] not in HELD:
        return None
    parts = set(card["publish"])
    return {
        "id": card["id"],
        "identity": {key: card[key] for key in ("title", "typeName", "denomName", "dateText", "variety")}
        if "identity" in parts else None,
        "grade": {key: card[key] for key in ("grade", "gradeName", "certified_by", "certificate")}
        if "grade" in parts and card["grade"] else None,
        "ask": coin_money.asking(card) if "price" in parts else None,
        "photos": [one for one in card["photos"] if photo_here(one["photo"])] if "photos" in parts else [],
    }  # fmt: skip
