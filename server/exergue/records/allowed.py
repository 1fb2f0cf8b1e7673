"""What a helper's phone may send. The door asks; a refusal is a verdict like any other."""

from .fold import Outcome
from .tables import Device, Fact
from .verdicts import REFUSED

KINDS = {
    "purchase", "sale", "ticket", "return", "trade", "away", "back", "lost",
    "coin.add", "coin.edit", "note", "check", "photo", "void",
    "pack", "count", "contact.add", "sighting.add",
}  # fmt: skip
OWNERS_FIELDS = {"floor", "publish", "held"}


def forbidden(device: Device, kind: str, body: dict) -> Outcome | None:
    """The refusal of an entry that is not a helper's to make, or None."""
    if device.role == "owner":
        return None
    fields = {name for part in ("base", "set") if isinstance(body.get(part), dict) for name in body[part]}
    if kind in KINDS and not fields & OWNERS_FIELDS and (kind != "void" or _own(device, body.get("of"))):
        return None
    return Outcome(REFUSED, "not_allowed", "Only the owner may enter this.")


def _own(device: Device, fact_id) -> bool:
    return isinstance(fact_id, str) and Fact.select().where(Fact.id == fact_id, Fact.device == device.id).exists()
