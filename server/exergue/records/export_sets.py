"""Sets for the export: a row for each slot. What a slot asks for stands in the columns of a list of wants; a set itself is no
file that the import makes again, but its open slots can come in as wants."""

from collections.abc import Iterator
from types import SimpleNamespace

from ..labels import ids
from . import reading
from .knowledge import catalogue

WANTS = ("denom", "type", "title", "years", "grade_from", "grade_to", "note")  # in the words of the wants' columns
OWN = ("Set", "Slot", "Mints", "Issues", "Division", "Strike", "Problem free", "Filled by")
BARE = "none"  # a coin without a mint mark


def slots() -> Iterator[tuple[SimpleNamespace, dict, dict]]:
    """(denomination and type as `knowledge` has them, fields as wants have them, the columns OWN) of each slot of each set.

    A slot that several types serve names their keys, one after the other.
    """
    types = catalogue().types
    for card in reading.goals():
        for slot in card["slots"]:
            denoms = {types[key].denomination for key in slot["types"] if key in types}
            one = SimpleNamespace(denom=denoms.pop() if len(denoms) == 1 else "", type="; ".join(slot["types"]), year=None)
            fields = {name: slot.get(name, "") for name in WANTS if name not in ("denom", "type")}
            coin = slot.get("coin")
            own = {
                "Set": card["name"], "Slot": slot["key"], "Mints": " ".join(mint or BARE for mint in slot.get("mints", ())),
                "Issues": " ".join(slot.get("issues", ())), "Division": slot.get("subtype", ""), "Strike": slot.get("strike", "any"),
                "Problem free": "yes" if slot.get("problem_free") else "", "Filled by": ids.show(coin["id"]) if coin else "",
            }  # fmt: skip
            yield one, fields, own
