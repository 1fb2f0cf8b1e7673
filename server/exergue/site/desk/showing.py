"""How things are shown: money, days, moments, IDs; and what every page of the desk needs."""

import re
from datetime import date, datetime
from functools import lru_cache

from flask import Flask, g, request, url_for
from markupsafe import Markup, escape

from ...coins import grades
from ...labels import ids
from ...money import cents
from ...records import devices, reading
from ... import asset_dir
from .. import here
from . import holders

MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
NAV = (
    ("Coins", (("today", "Today", "today"), ("stock", "Stock", "holder"), ("new_coin", "Enter a coin", "plus"),
                ("intake", "Import a file", "inbox"), ("labels", "Print labels", "label"))),
    ("Deals", (("new_purchase", "Record a purchase", "buy"), ("new_ticket", "Record a sale", "sell"), ("deals", "All deals", "deal"),
               ("shows", "Shows", "table"), ("contacts", "Contacts", "person"), ("reports", "Reports", "report"))),
    ("Collecting", (("types", "Types", "find"), ("sets", "Sets", "board"), ("wants", "Wants", "want"), ("plan", "Plan", "plan"),
                    ("sightings", "Sightings", "eye"), ("evidence", "Past sales", "curve"))),
    ("Book", (("looks", "Needs a look", "look"), ("devices", "Devices", "phone"), ("journal", "Journal", "lines"),
              ("settings", "Settings", "dial"))),
)  # fmt: skip


def money(amount: int | None, currency: str | None = None) -> str:
    return cents.show(amount, currency or g.currency)


@lru_cache(maxsize=1)
def symbols() -> frozenset[str]:
    """The drawings that there are, as `feature-value`."""
    sprite = asset_dir("web") / "type/drawings.svg"
    return frozenset(re.findall(r'<symbol id="([^"]+)"', sprite.read_text())) if sprite.is_file() else frozenset()


def drawn(value: str, feature: str) -> bool:
    """Whether a value of a feature has a drawing."""
    return f"{feature}-{value}" in symbols()


def day(text: str | None) -> str:
    """2026-03-14 as “14 Mar 2026”."""
    try:
        moment = date.fromisoformat(text or "")
    except ValueError:
        return text or ""
    return f"{moment.day} {MONTHS[moment.month - 1]} {moment.year}"


def days(starts: str, ends: str) -> str:
    """Both ends of a show: “14–16 Mar 2026”."""
    if not starts or not ends or starts == ends:
        return day(starts or ends)
    first, last = date.fromisoformat(starts), date.fromisoformat(ends)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day}–{day(ends)}"
    if first.year == last.year:
        return f"{first.day} {MONTHS[first.month - 1]} – {day(ends)}"
    return f"{day(starts)} – {day(ends)}"


def moment(ms: int | None) -> Markup:
    """A moment in this machine's time, as a <time>."""
    if ms is None:
        return Markup("never")
    try:
        when = datetime.fromtimestamp(ms / 1000).astimezone()
    except (OverflowError, OSError, ValueError):
        return Markup("at an impossible time")
    said = f"{when.day} {MONTHS[when.month - 1]} {when.year}, {when:%H:%M}"
    return Markup('<time datetime="{}">{}</time>').format(when.isoformat(timespec="seconds"), said)


def span(ms: int) -> str:
    """A length of time in its largest fitting unit: “3 minutes”."""
    seconds = abs(ms) // 1000
    for size, name in ((86_400, "day"), (3600, "hour"), (60, "minute"), (1, "second")):
        if seconds >= size:
            return f"{seconds // size} {name}{'s' if seconds // size != 1 else ''}"
    return "less than a second"


def count(number: int, one: str, many: str | None = None) -> str:
    """“1 coin”, “1,204 coins”."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def window(low: str, high: str) -> str:
    """A window of grades: “VF-20 to EF-45”, “VF-20 or better”, “up to EF-45”; "" where any grade will do."""
    if low and high:
        return f"{low} to {high}"
    return f"{low} or better" if low else f"up to {high}" if high else ""


def grade_name(text: str) -> str:
    try:
        return grades.parse(text).name if text else ""
    except grades.BadGrade:
        return ""


def lines(text: str) -> Markup:
    """Text with its line breaks kept."""
    return Markup("<br>").join(escape(line) for line in (text or "").split("\n"))


def short(text: str, most: int = 60) -> str:
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def with_args(**changes) -> str:
    """This page's address with some of its arguments changed; None takes one out."""
    kept = request.args.to_dict(flat=True) | changes
    return url_for(request.endpoint, **(request.view_args or {}), **{k: v for k, v in kept.items() if v not in (None, "")})


def nav_now() -> str:
    """The page of the table of contents that is asked for; "" where it is none of these, but below one."""
    name = (request.endpoint or "").removeprefix("desk.")
    return name if any(name == page[0] for _, pages in NAV for page in pages) else ""


def init_app(app: Flask) -> None:
    for name, how in {
        "money": money, "day": day, "moment": moment, "span": span, "coin_id": ids.show, "grade_name": grade_name,
        "lines": lines, "short": short, "metal": holders.metal, "face": holders.face, "slug": lambda text: re.sub(r"\W+", "-", text.lower()).strip("-"),
    }.items():  # fmt: skip
        app.jinja_env.filters[name] = how
    app.jinja_env.tests["drawn"] = drawn
    app.jinja_env.globals.update(days=days, count=count, window=window, with_args=with_args)
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True

    @app.before_request
    def currency():
        if request.blueprint == "desk":
            g.settings = here.book().settings()
            g.currency = g.settings["currency"]

    @app.context_processor
    def around():
        from . import floor  # it says moments as this module does

        if request.blueprint != "desk" or not g.get("owner"):
            return {}
        return {"nav": NAV, "nav_now": nav_now(), "book_name": g.settings["name"], "owner_name": g.owner.name,
                "looks_open": len(reading.looks()) + len(floor.waiting()),
                "notices_open": len(devices.notices())}  # fmt: skip
