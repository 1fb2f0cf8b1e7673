"""Plain files: the phone app's shell, its modules, the manifest, icons and the service worker."""

import gzip
from functools import lru_cache
from pathlib import Path

from flask import Blueprint, Response, abort, request, send_file
from werkzeug.utils import safe_join

from .. import asset_dir
from . import keep, packing, styles
from .served import type_of

files = Blueprint("files", __name__)


PACKED = {"text/html", "text/css", "text/javascript", "application/wasm", "image/svg+xml", "application/manifest+json"}


def send(folder: str, name: str) -> Response:
    """File `name` under web/ or manifest/, with an ETag; the browser asks each time whether it changed."""
    kind = type_of(name)
    path = safe_join(str(asset_dir(folder)), name)
    if kind is None or path is None or not Path(path).is_file():
        abort(404)
    stat = Path(path).stat()
    packed = kind in PACKED and stat.st_size > packing.SMALL and packing.taken()
    if packed:
        response = Response(_packed(path, stat.st_mtime_ns, stat.st_size), mimetype=kind)
        response.add_etag()
        response.make_conditional(request)
    else:
        response = send_file(path, mimetype=kind, conditional=True, max_age=None)
    response.headers["Cache-Control"] = "no-cache"
    return packing.mark(response, packed)


@lru_cache(maxsize=512)
def _packed(path: str, changed_ns: int, size: int) -> bytes:
    """A file's bytes, packed once for as long as it stays the same."""
    return gzip.compress(Path(path).read_bytes(), mtime=0)


@files.get("/")
def shell():
    return send("web", "index.html")


@files.get("/web/<path:name>")
def web(name: str):
    return send("web", name)


@files.get(styles.ADDRESS)
def styles_together():
    """The phone's styles as one file, with an ETag."""
    content = styles.together()
    if content is None:
        abort(404)
    packed = packing.taken()
    response = Response(gzip.compress(content, mtime=0) if packed else content, mimetype="text/css")
    response.add_etag()
    response.headers["Cache-Control"] = "no-cache"
    return packing.mark(response.make_conditional(request), packed)


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
