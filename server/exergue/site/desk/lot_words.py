"""What is left of a lot, purchase by purchase, and how that is said."""

from fractions import Fraction

from ...money.rounding import half_up
from . import showing

ROADS = {"trade": "a trade", "inherited": "inherited", "gift": "a gift", "found": "found", "opening": "brought forward"}


def parts(card: dict | None) -> list[dict]:
    """The purchases from which pieces of a lot are left, first in first: [{fact, left, cents (None: not known), date, from, how}].

    Empty for a coin, and for a lot whose pieces all came at once.
    """
    found: dict[str, dict] = {}
    for unit in ((card or {}).get("own") or {}).get("units") or []:
        one = found.setdefault(unit["fact"], {"left": 0, "cents": 0, "how": "", **{k: unit[k] for k in ("fact", "date", "from", "how") if k in unit}})
        one["left"] += unit["left"]
        one["cents"] = None if one["cents"] is None or unit["costs"] is None else one["cents"] + sum(unit["costs"])
    return list(found.values())


def said(one: dict) -> str:
    """“15 March 2026, A. Seller: 5 left, $2.00 each”."""
    where = ", ".join(text for text in (showing.day(one["date"]) if one["date"] else "without a purchase", ROADS.get(one["how"], ""), one["from"]) if text)
    if one["cents"] is None:
        return f"{where}: {one['left']} left, cost not known"
    each = Fraction(one["cents"], one["left"])
    about = "" if each.denominator == 1 else "about "
    return f"{where}: {one['left']} left, {about}{showing.money(half_up(each))} each"
