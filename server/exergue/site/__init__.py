"""Flask: desk pages, phone API, public label page. Thin: no rule lives here."""

from contextlib import ExitStack
from importlib.util import find_spec
from pathlib import Path

from flask import Flask, g, request
from flask_wtf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix

from ..records.book import Book
from . import errors, hosts, limits, security


def create_app(folder, base_address=None, lan=False, set_up_key=None, proxy_hops=0) -> Flask:
    """The site over the book in `folder`.

    `base_address` is the address that phones use behind a reverse proxy; `lan` also answers to this machine's
    own addresses; `set_up_key` lets the first owner in, once; `proxy_hops` says how many proxies are believed.
    Raises BookError when there is no book.
    """
    book = Book.open(Path(folder))
    app = Flask(__name__, static_folder=None)
    secure = lan or (base_address or "").startswith("https:")
    app.config.update(
        SECRET_KEY=book.secret("session"),
        BASE_ADDRESS=(base_address or "").rstrip("/"),
        LAN=lan,
        SET_UP_KEY=set_up_key,
        TRUSTED_HOSTS=hosts.known(base_address, lan),
        **limits.CONFIG,
        **security.session_config(secure),
    )
    app.extensions["exergue_book"] = book
    if proxy_hops:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=proxy_hops, x_proto=proxy_hops, x_host=proxy_hops)

    errors.init_app(app)  # first: it turns away hosts that are not ours before anything else runs
    limits.init_app(app)
    security.init_app(app)
    _connect(app, book)
    csrf = CSRFProtect(app)
    _blueprints(app, csrf)
    return app


def _connect(app: Flask, book: Book) -> None:
    """One database connection for each request that may need the book; plain files need none."""

    @app.before_request
    def open_book():
        if request.blueprint != "files":
            g.connection = ExitStack()
            g.connection.enter_context(book.connected())

    @app.teardown_request
    def close_book(error):
        connection = g.pop("connection", None)
        if connection is not None:
            connection.close()


def _blueprints(app: Flask, csrf: CSRFProtect) -> None:
    from . import desk, files, public

    app.register_blueprint(files.files)
    app.register_blueprint(public.public)
    desk.register(app)
    if find_spec("exergue.site.api"):
        from .api import api
        from . import floor_api, worth_api  # noqa: F401 - add their addresses to the same blueprint

        csrf.exempt(api)  # JSON: guarded by require_same_origin instead of a token in a form
        app.register_blueprint(api)
