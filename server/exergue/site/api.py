"""The phone's side: JSON over HTTP. Rules live in sync/ and records/."""

import hashlib
import re

from flask import Blueprint, Response, current_app, g, jsonify, request, send_file, stream_with_context
from werkzeug.exceptions import HTTPException

from .. import __version__
from ..records import devices, photos
from ..records.clock import now_ms
from ..records.throttle import TooMany
from ..records.verdicts import JournalError, Refused
from ..sync import protocol, reference, snapshot
from . import here, jsonbody, limits, packing, taking

api = Blueprint("api", __name__, url_prefix="/api")
COOKIE_SECONDS = 400 * 86400  # the longest that browsers keep one
RENEWED_MS = 30 * 86_400_000
STATUS = {
    "bad_request": 400, "bad_fact": 400, "other_book": 409, "restored": 409, "number_gap": 409, "cloned": 409,
    "id_reused": 409, "code_wrong": 400, "code_used": 410, "code_expired": 410, "too_large": 413,
    "owners_only": 403,
}  # fmt: skip


class NotPaired(HTTPException):
    code = 401


def paired():
    """The device that asks; 401 not_paired, or revoked where it must wipe itself."""
    device = here.device()
    if device is None:
        problem = NotPaired("This phone is not paired with this desk.")
        problem.code_name = "not_paired"
        if devices.was_revoked(request.cookies.get(here.device_cookie())):
            problem = NotPaired("The desk has unpaired this phone.")
            problem.code_name = "revoked"
        raise problem
    return device


def refuse(code: str, message: str, **more) -> Response:
    response = jsonify(error={"code": code, "message": message, **more})
    response.status_code = STATUS.get(code, 400)
    return response


@api.errorhandler(JournalError)
def journal_error(problem: JournalError):
    if problem.code == "cloned":
        fresh, token = devices.clone_of(paired())
        response = refuse(problem.code, problem.message, device=protocol.describe(fresh), next_n=1)
        return with_cookie(response, token)
    return refuse(problem.code, problem.message, **problem.more)


@api.errorhandler(Refused)
def refused(problem: Refused):
    return refuse(problem.code, problem.message)


@api.errorhandler(devices.PairError)
def pair_error(problem: devices.PairError):
    return refuse(problem.code, problem.message)


@api.errorhandler(TooMany)
def too_many(problem: TooMany):
    response = refuse("slow_down", str(problem), seconds=problem.seconds)
    response.status_code = 429
    response.headers["Retry-After"] = str(problem.seconds)
    return response


def with_cookie(response: Response, token: str) -> Response:
    response.set_cookie(
        here.device_cookie(), token, max_age=COOKIE_SECONDS, path="/", httponly=True, samesite="Strict",
        secure=current_app.config["SESSION_COOKIE_SECURE"],
    )  # fmt: skip
    return response


def renewed(response: Response, device, known_ms: int | None) -> Response:
    """A phone in use keeps its cookie: it is set anew with the first contact in each month since it was paired.

    `known_ms` is the contact before this one.
    """
    months = (((moment or device.paired_ms) - device.paired_ms) // RENEWED_MS for moment in (known_ms, now_ms()))
    if len(set(months)) > 1:
        with_cookie(response, request.cookies[here.device_cookie()])
    return response


@api.get("/hello")
def hello():
    device = here.device()
    response = jsonify(app=__version__, **protocol.hello(here.book(), device))
    return renewed(response, device, device.contact_ms) if device else response


@api.post("/pair")
def pair():
    body = jsonbody.asked()
    code, name = body.get("code"), body.get("name")
    if not isinstance(code, str) or not isinstance(name, str) or len(code) > 40:
        raise JournalError("bad_request", "Pairing needs a code and a name.")
    device, token = devices.pair(code, name, request.remote_addr or "")
    g.device = device
    return with_cookie(hello(), token)


@api.post("/leave")
def leave():
    devices.leave(paired())
    response = jsonify(left=True)
    response.delete_cookie(here.device_cookie(), secure=current_app.config["SESSION_COOKIE_SECURE"],
                           httponly=True, samesite="Strict")  # fmt: skip
    return response


@api.post("/sync")
@limits.at_most(16 * limits.MB)
def sync():
    device = paired()
    known_ms = device.contact_ms
    return renewed(packing.json(protocol.sync(here.book(), device, jsonbody.asked())), device, known_ms)


@api.get("/snapshot")
def first_sync():
    device = paired()
    after = request.args.get("after", "")
    upto, prefix = (request.args.get(name, type=int) for name in ("upto", "prefix"))
    if after and not re.fullmatch(r"[a-z]{1,20}/[\w-]{1,64}", after):
        raise JournalError("bad_request", "after is not kind/id.")
    if prefix not in (None, 1, 2):
        raise JournalError("bad_request", "prefix is 1 or 2.")
    lines = snapshot.lines(here.book(), device.role, after, upto, prefix)
    packed = packing.taken()
    stream = snapshot.compressed(lines) if packed else (part.encode() for part in lines)
    return packing.mark(Response(stream_with_context(stream), mimetype="application/x-ndjson"), packed)


@api.get("/reference")
def both_must_know():
    paired()
    packed = packing.taken()
    response = Response(reference.packed() if packed else reference.text(), mimetype="application/json")
    packing.mark(response, packed)
    response.set_etag(reference.tag() + ("-gzip" if packed else ""))  # another text, another tag
    response.headers["Cache-Control"] = "private, no-cache"
    return response.make_conditional(request)


@api.put("/photo/<uuid:photo>")
@limits.at_most(limits.PHOTO)
def take_photo(photo):
    paired()
    data = request.get_data()
    if request.headers.get("X-Digest") != hashlib.sha256(data).hexdigest():
        return refuse("digest", "The photo was damaged on its way; send it again.")
    kept = taking.keep(str(photo), data)
    response = jsonify(photo=kept.photo, width=kept.width, height=kept.height)
    response.status_code = 201
    return response


@api.get("/photo/<uuid:photo>")
def give_photo(photo):
    paired()
    try:
        path = photos.path(here.book().photos, str(photo), request.args.get("size", "full"))
    except ValueError as problem:
        raise JournalError("bad_request", str(problem)) from None
    if not path.exists():
        return Response(status=404)
    response = send_file(path, mimetype="image/jpeg", conditional=True)
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response
