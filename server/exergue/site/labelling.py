"""From a coin's card to what its label says."""

from pathlib import Path

from ..labels import Label, formats, ids
from ..money import cents
from ..money.costcode import BadCode
from ..records import coin_money
from ..records.settings import cost_code

FORMATS = "label-formats.toml"  # the owner's own formats, in the book's folder
SHOWS = ("ask", "code")


def known_formats(folder: Path) -> dict[str, formats.Format]:
    """Built-in label formats and the owner's own. Raises BadFormat for a faulty file of the owner's."""
    own = Path(folder) / FORMATS
    return formats.all(own if own.is_file() else None)


def label(card: dict, base: str, settings: dict, shows) -> Label:
    """The label of a coin, from its whole card; `shows` holds "ask" and "code" as they are switched on."""
    what = card["title"] + (f", {card['variety']}" if card["variety"] else "")
    date = "" if card["year"] is None else card["dateText"]
    ask = cents.show(coin_money.asking(card), settings["currency"]) if "ask" in shows else ""
    return Label(card["id"], ids.address(base, card["id"]), (what, date, card["grade"]), ask,
                 _code(card, settings) if "code" in shows else "")  # fmt: skip


def _code(card: dict, settings: dict) -> str:
    try:
        code = cost_code(settings["cost_code"], settings["currency"])
    except BadCode:
        return ""
    cost = card["own"]["cost"]
    return code.write(cost) if code and cost is not None else ""
