"""What pages of the desk show of worth: the section of a coin, of a type, of a want."""

from datetime import date

from flask import g

from ...records import worth
from . import showing, worth_picture


def of_coin(card: dict) -> dict:
    """For worth.html; everything is of one piece where the coin is a lot (`each`)."""
    said = worth.of_coin(card, g.settings, date.today())
    number = said.row.grade if said.row else None
    return {
        "type": card["type"], "grade": card["grade"], "ungraded": not card["grade"], "row": said.row, "melt": said.melt,
        "age": _age(), "floor": said.floor, "sales": said.estimate.sales, "note": said.estimate.note, "each": (card.get("pieces") or 1) > 1,
        "picture": worth_picture.drawn(said.picture, g.currency, number, said.cost),
    }  # fmt: skip


def _age() -> str:
    """The moment from which on recorded sales are not in the figures yet; "" where all are."""
    age = worth.age(g.settings, date.today())
    return "" if age is None else showing.moment(age)


def of_type(key: str) -> dict:
    """For worth.html: the type's usual issue, and no coin."""
    estimate, picture = worth.of_type(key, g.settings, date.today())
    return {
        "age": _age(), "type": key, "row": None, "grade": "", "melt": worth.melt_of(key, None, g.settings), "floor": None,
        "sales": estimate.sales, "note": estimate.note, "picture": worth_picture.drawn(picture, g.currency),
    }  # fmt: skip


def of_want(want: dict):
    """The ceiling of a want by the owner's rule: rule.Answer, or None where it names no type or grade."""
    return worth.ceiling(want, g.settings, date.today())
