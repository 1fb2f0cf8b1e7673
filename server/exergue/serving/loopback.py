"""With --lan, the desk for its own computer: plain HTTP on loopback, so that its browser has to trust nothing.

The phones' side runs under granian. This one has a single user, on the same machine, and Werkzeug's own server
in a thread is enough for that.
"""

import threading


def start(port: int, settings: dict):
    """Serve the site at http://localhost:PORT until `shutdown()`; `settings` as for create_app."""
    from werkzeug.serving import WSGIRequestHandler, make_server

    from exergue.serving import ahead
    from exergue.site import create_app
    from exergue.site.security import session_config

    class Quiet(WSGIRequestHandler):
        def log_request(self, *_) -> None:
            """The terminal belongs to the desk's own lines."""

    app = create_app(**settings | {"lan": False})
    app.config.update(session_config(secure=False))  # the phones' address is HTTPS, this one is not
    ahead.start(app)
    server = make_server("127.0.0.1", port, app, threaded=True, request_handler=Quiet)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server
