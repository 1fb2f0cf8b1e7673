"""Serves a book until it is told to stop: what `exergue serve` and `exergue demo` come down to."""

import secrets
import threading
from contextlib import contextmanager

from exergue.serving import addresses, checkout, granian_server, greeting, lan, loopback, notice, plan, settings
from exergue.serving.authority import Authority
from exergue.serving.granian_server import Listening


def run(book, wish: plan.Wish, *, demo: bool = False) -> None:
    """Serve `book` as wished. Raises Wrong, before anything listens, where the wish cannot be met."""
    checkout.check()
    here = addresses.look() if wish.lan else addresses.Here("localhost", ())
    settled = plan.make(wish, settings.read(book.folder), here, move=demo)
    authority = Authority.of(book.folder / "authority", here) if settled.lan else None
    key = set_up_key(book)
    app = {
        "folder": str(book.folder.resolve()),
        "base_address": settled.base_address,
        "lan": settled.lan,
        "set_up_key": key,
        "proxy_hops": settled.proxy_hops,
    }
    certificate = authority.leaf(here) if authority else None
    server = granian_server.make(Listening(settled.host, settled.port, certificate, certificate))
    with notice.put(book.folder, settled.base_address), on_lan(settled, authority, here, server, app):
        greeting.show(book, settled, here, key, authority, demo=demo)
        granian_server.run(server, app)


@contextmanager
def on_lan(settled: plan.Plan, authority: Authority | None, here: addresses.Here, server, app: dict):
    """The trust page, this computer's own way in, and a certificate kept fresh; nothing without an authority."""
    if authority is None:
        yield
        return
    stop = threading.Event()
    beside = [lan.show_trust(settled, authority, here), loopback.start(settled.desk_port, app)]
    lan.keep_fresh(authority, here, server.signal_handler_reload, stop)
    try:
        yield
    finally:
        stop.set()
        for each in beside:
            each.shutdown()
            each.server_close()


def set_up_key(book) -> str | None:
    """A key for the one-time link that makes the book's owner; none where there is an owner."""
    from exergue.records import owner

    with book.connected():
        return None if owner.exists() else secrets.token_urlsafe(12)
