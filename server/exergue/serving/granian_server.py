"""Runs the site under granian: one worker process, several threads, HTTP/1.1 and HTTP/2.

Each setting that is not a default mends something that was seen to go wrong; its comment says what.
"""

import functools
import multiprocessing
import os
import signal
import threading
import time
from dataclasses import dataclass
from pathlib import Path

THREADS = 16


@dataclass(frozen=True)
class Listening:
    """Where to listen; `certificate` and `key` are PEM files (PKCS#8 key), both None for plain HTTP."""

    host: str
    port: int
    certificate: Path | None = None
    key: Path | None = None


def load(settings: dict):
    """The Flask app, in the worker process. At module level, so that a spawned process finds it by name."""
    if hasattr(os, "setpgrp"):
        os.setpgrp()  # Ctrl-C in a terminal then reaches the parent alone; told twice, the worker can hang
        parent = os.getppid()

        def follow() -> None:
            while os.getppid() == parent:
                time.sleep(1)
            os.kill(os.getpid(), signal.SIGTERM)

        threading.Thread(target=follow, daemon=True).start()  # a killed parent takes the worker along
    from exergue.serving import ahead, trust
    from exergue.site import create_app

    app = create_app(**settings)
    if settings["lan"]:
        app.get(trust.ASKED)(trust.told)
    ahead.start(app)
    return app


def make(listening: Listening):
    """A granian server, to be handed to `run`. Its `signal_handler_reload()` makes the worker anew."""
    from granian import Granian
    from granian.constants import Interfaces, SSLProtocols
    from granian.http import HTTP1Settings, HTTP2Settings

    multiprocessing.set_start_method("spawn", force=True)  # as on every system; fork would copy our threads
    server = Granian(
        "exergue",
        address=listening.host,
        port=listening.port,
        interface=Interfaces.WSGI,
        workers=1,  # one process owns the SQLite file, and Windows allows no more
        blocking_threads=THREADS,
        backpressure=4 * THREADS,
        websockets=False,
        ssl_cert=listening.certificate,
        ssl_key=listening.key,
        ssl_protocol_min=SSLProtocols.tls12,
        http1_settings=HTTP1Settings(header_read_timeout=15_000),
        # A phone that left in the middle of an upload frees its thread after 20 s.
        http2_settings=HTTP2Settings(keep_alive_interval=10_000, keep_alive_timeout=10),
        workers_kill_timeout=15,
        respawn_failed_workers=True,
        log_level="error",
    )
    if hasattr(signal, "SIGHUP"):  # else a closed terminal means "reload"
        server.on_startup(lambda: signal.signal(signal.SIGHUP, server.signal_handler_interrupt))
    return server


def run(server, settings: dict) -> None:
    """Serve until a signal asks to stop; requests under way are answered first.

    `settings` are create_app's arguments, read again each time a worker starts.
    """
    server.serve(target_loader=functools.partial(load, settings), wrap_loader=False)
