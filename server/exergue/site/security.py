"""Headers of every answer, cookies, and who may ask for a change."""

from datetime import timedelta
from urllib.parse import urlsplit

from flask import Flask, current_app, request
from werkzeug.exceptions import Forbidden

from .hosts import is_loopback

CSP = "; ".join([
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",  # the label reader is WebAssembly
    "style-src 'self'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
])  # fmt: skip
HEADERS = {
    "Content-Security-Policy": CSP,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",  # with no-referrer, forms would be sent with “Origin: null”
    "Permissions-Policy": "camera=(self), microphone=(), geolocation=(), payment=(), usb=()",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
HSTS = "max-age=31536000"
SAFE = {"GET", "HEAD", "OPTIONS"}


class NotSameOrigin(Forbidden):
    """A change asked for by a page that is not ours."""

    code_name = "not_same_origin"
    description = "This request did not come from a page of this desk."


def session_config(secure: bool) -> dict:
    """Flask's settings for the desk's session cookie."""
    return {
        "SESSION_COOKIE_NAME": "__Host-exergue-desk" if secure else "exergue-desk",
        "SESSION_COOKIE_SECURE": secure,
        "SESSION_COOKIE_HTTPONLY": True,
        "SESSION_COOKIE_SAMESITE": "Lax",
        "SESSION_COOKIE_PATH": "/",
        "PERMANENT_SESSION_LIFETIME": timedelta(days=14),
        "WTF_CSRF_TIME_LIMIT": None,  # a form left open over lunch still works; the token ends with the session
        "WTF_CSRF_SSL_STRICT": False,  # require_same_origin below is stricter
    }


def require_same_origin(header: str | None = "X-Exergue") -> None:
    """Raise NotSameOrigin unless a page of this desk asks.

    `header` must be there and be "1" (a plain form of another site cannot set it); None asks for no header.
    """
    if header and request.headers.get(header) != "1":
        raise NotSameOrigin()
    site = request.headers.get("Sec-Fetch-Site")
    if site is not None and site not in ("same-origin", "none"):
        raise NotSameOrigin()
    origin = request.headers.get("Origin")
    if origin is not None and origin not in _own_origins():
        raise NotSameOrigin()


def _own_origins() -> set[str]:
    own = {request.host_url.rstrip("/")}
    if current_app.config["BASE_ADDRESS"]:
        parts = urlsplit(current_app.config["BASE_ADDRESS"])
        own.add(f"{parts.scheme}://{parts.netloc}")
    return own


def init_app(app: Flask) -> None:
    @app.before_request
    def same_origin():
        if request.method not in SAFE:
            require_same_origin(header="X-Exergue" if request.path.startswith("/api/") else None)

    @app.after_request
    def headers(response):
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        # Only for a name of its own: the browser applies it to every other port of localhost or NAME.local, too.
        own_name = app.config["SESSION_COOKIE_SECURE"] and not app.config["LAN"]
        if own_name and not is_loopback(request.environ.get("HTTP_HOST", "")):
            response.headers.setdefault("Strict-Transport-Security", HSTS)
        response.headers.setdefault("Cache-Control", "no-store")
        return response
