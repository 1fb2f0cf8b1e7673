"""The desk: server-rendered pages under /desk/, one module a task."""

from importlib import import_module

from flask import Blueprint, Flask

desk = Blueprint("desk", __name__, url_prefix="/desk")

PAGES = (
    "account", "today", "stock", "coin", "new_coin", "entries", "intake", "labels", "devices", "looks",
    "types", "wants", "shows", "evidence", "reports", "settings", "worth_settings", "export", "journal", "deals",
    "deal", "purchases", "later_costs", "tickets", "returning", "trades", "moves", "acquired", "money_moves",
    "packing", "counts", "drawer", "show_closing", "contacts", "sightings",
    "sets", "set_slots", "plan",
)  # fmt: skip
_ready = False


def register(app: Flask) -> None:
    """Put the desk's pages on the app. They are added to the blueprint once, however many apps are made."""
    global _ready
    from . import gate, showing, words

    if not _ready:
        gate.guard(desk)
        for name in PAGES:
            import_module(f".{name}", __name__)
        _ready = True
    showing.init_app(app)
    app.jinja_env.filters["coin_line"] = words.coin_line
    app.jinja_env.filters["coin_named"] = words.coin_named
    app.register_blueprint(desk)
