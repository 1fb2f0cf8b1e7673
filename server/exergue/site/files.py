"""Plain files: the phone app's shell, its modules, the manifest, icons and the service worker."""

from flask import Blueprint, Response, abort, send_from_directory
from werkzeug.utils import safe_join

from .. import asset_dir
from . import keep

files = Blueprint("files", __name__)

# Named here because the system's own table may say that .js is text/plain.
TYPES = {
    ".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".json": "application/json",
    ".svg": "image/svg+xml", ".png": "image/png", ".webp": "image/webp", ".ico": "image/x-icon",
    ".woff2": "font/woff2", ".woff": "font/woff", ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json", ".txt": "text/plain", "": "text/plain",
}  # fmt: skip
REFUSED = {"package.json", "package-lock.json"}


def send(folder: str, name: str) -> Response:
    """File `name` under web/ or manifest/, with an ETag; the browser asks each time whether it changed."""
    root = asset_dir(folder)
    path = safe_join(str(root), name)
    parts = name.split("/")
    suffix = "." + parts[-1].rpartition(".")[2].lower() if "." in parts[-1] else ""
    hidden = any(part.startswith(".") for part in parts) or "node_modules" in parts
    if path is None or hidden or parts[-1] in REFUSED or suffix not in TYPES:
        abort(404)
    response = send_from_directory(root, name, mimetype=TYPES[suffix], conditional=True, max_age=None)
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
    return response


@files.get("/healthz")
def healthz():
    return Response("ok\n", mimetype="text/plain")
