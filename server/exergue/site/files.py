"""Plain files: the phone app's shell, its modules, the manifest, icons and the service worker."""

from flask import Blueprint, Response, abort, request, send_from_directory

from .. import asset_dir
from . import keep
from .served import type_of

files = Blueprint("files", __name__)


def send(folder: str, name: str) -> Response:
    """File `name` under web/ or manifest/, with an ETag; the browser asks each time whether it changed."""
    kind = type_of(name)
    if kind is None:
        abort(404)
    response = send_from_directory(asset_dir(folder), name, mimetype=kind, conditional=True, max_age=None)
    response.headers["Cache-Control"] = "no-cache"
    return response


@files.get("/")
def shell():
    return send("web", "index.html")


@files.get("/web/<path:name>")
def web(name: str):
    return send("web", name)


@files.get("/app.webmanifest")
def app_manifest():
    return send("manifest", "app.webmanifest")


@files.get("/icons/<path:name>")
def icon(name: str):
    return send("manifest", f"icons/{name}")


@files.get("/sw.js")
def worker():
    response = Response(keep.worker(), mimetype="text/javascript")
    response.headers["Cache-Control"] = "no-cache"
    response.add_etag()
    return response.make_conditional(request)


@files.get("/healthz")
def healthz():
    return Response("ok\n", mimetype="text/plain")
