"""What a desk makes ready by itself once it serves, so that nobody waits for it: the market of recorded sales."""

import logging
import threading
from datetime import date

SOON = 2.0  # seconds after which it begins at the latest; before that with the first answer, which it is not to hold up

log = logging.getLogger(__name__)


def start(app) -> threading.Thread:
    """Begin in a thread of its own; without recorded sales nothing is made and no library is loaded."""
    answered = threading.Event()

    @app.teardown_request
    def told(error) -> None:
        answered.set()

    def work() -> None:
        answered.wait(SOON)
        try:
            make(app.extensions["exergue_book"])
        except Exception:  # whoever asks first makes it then
            log.exception("the market could not be made ahead")

    thread = threading.Thread(target=work, name="ahead", daemon=True)
    thread.start()
    return thread


def make(book) -> None:
    """The market of today; who asks for it meanwhile waits for what is left of it."""
    from exergue.records import worth

    with book.connected():
        if worth.has_sales():
            worth.market(book.settings(), date.today())
