"""Field by field: what an editor saw, what stands now, what is to stand."""

from ...coins import grades
from .entry import Entry, Outcome, contested, merged, raise_look

SAID = {
    "certified_by": "certified by", "grade_from": "lowest grade", "grade_to": "highest grade",
    "ask": "asking price", "denom": "denomination", "year": "date", "pieces": "number of pieces", "held": "way it is held",
    "tax_rate": "tax rate", "tax_place": "place of the tax",
}  # fmt: skip


def normal(rule: str, value):
    """A field's value as it is kept: no null text, grades in their canonical form."""
    kind = rule.partition(":")[0].removesuffix("!")
    if kind in ("text", "date", "decimal"):
        return (value or "").strip()
    if kind == "grade":
        return str(grades.parse(value)) if value else ""
    if kind in ("texts", "rows"):
        return list(value or [])
    if kind == "some":
        return sorted(value or [])
    if kind == "pieces":
        return value or 1
    if kind == "uuid":
        return value or None
    if kind == "one" and value is None:
        return "usual" if "usual" in rule else ""
    return value


def fields(rules: dict[str, str], given: dict) -> dict:
    return {name: normal(rules[name], value) for name, value in given.items()}


def merge(row, rules: dict[str, str], base: dict, new: dict) -> tuple[dict, dict]:
    """(changes, clashes): what may be set, and {field: {present, proposed, base}} for what may not."""
    changes, clashes = {}, {}
    base, new = fields(rules, base), fields(rules, new)
    for name, value in new.items():
        present = getattr(row, name)
        if present == value:
            continue
        if name not in base or base[name] == present:
            changes[name] = value
        else:
            clashes[name] = {"field": name, "present": present, "proposed": value, "base": base[name]}
    return changes, clashes


def outcome(entry: Entry, subject: tuple[str, str], clashes: dict, moved_on: bool) -> Outcome:
    """The verdict on an edit whose changes have been made."""
    for name, offer in clashes.items():
        raise_look(entry, "edit", subject, offer, name)
    if clashes:
        names = " and ".join(SAID.get(name, name) for name in clashes)
        return contested("edited_twice", f"Someone else changed the {names} meanwhile. Both versions are kept.",
                         {name: offer["present"] for name, offer in clashes.items()})  # fmt: skip
    if moved_on:
        return merged("Other details were changed meanwhile; both changes stand.")
    return Outcome()
