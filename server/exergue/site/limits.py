"""How much a request may send. Small by default; a view that takes files says how much with `@at_most`."""

from flask import Flask, current_app, request

from ..records import photos

KB, MB = 1024, 1024 * 1024
CONFIG = {
    "MAX_CONTENT_LENGTH": 1 * MB,
    "MAX_FORM_MEMORY_SIZE": 1 * MB,
    "MAX_FORM_PARTS": 2000,
}
PHOTO = photos.MAX_BYTES + 64 * KB  # and what the form around it takes
CSV = 12 * MB
ROWS = 5000  # fields of a form of many coins that also carries a file


def at_most(size: int, parts: int | None = None):
    """Let a view take bodies of up to `size` bytes, and with `parts` so many fields beside a file."""

    def mark(view):
        view.at_most, view.parts = size, parts
        return view

    return mark


def init_app(app: Flask) -> None:
    @app.before_request
    def set_limit():
        # Before anything reads the form: the CSRF check does.
        view = current_app.view_functions.get(request.endpoint or "")
        size = getattr(view, "at_most", None)
        if size is not None:
            request.max_content_length = size
            request.max_form_parts = view.parts or CONFIG["MAX_FORM_PARTS"]
