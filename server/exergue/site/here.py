"""What a request asks of its surroundings: the book, the paired device."""

from flask import current_app, g, request

from ..records import devices
from ..records.book import Book


def book() -> Book:
    return current_app.extensions["exergue_book"]


def device_cookie() -> str:
    """Name of the cookie that holds a phone's token; `__Host-` binds it to this host, and needs HTTPS."""
    return "__Host-exergue-device" if current_app.config["SESSION_COOKIE_SECURE"] else "exergue-device"


def device():
    """The paired device that asks, or None (no cookie, unknown, revoked)."""
    if "device" not in g:
        found = devices.by_token(request.cookies.get(device_cookie()))
        g.device = found if found and found.revoked_ms is None else None
    return g.device


def base_address() -> str:
    """What phones call this desk: the setting, or the address that this request came to."""
    return current_app.config["BASE_ADDRESS"] or request.host_url.rstrip("/")
