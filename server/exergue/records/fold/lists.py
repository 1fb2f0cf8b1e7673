"""Wants, sets, shows, contacts, sightings, evidence, blank labels, settings, imports."""

from ...coins import grades
from ...collecting import slots
from .. import quick
from ..kinds import fields_of
from ..knowledge import catalogue, check_coin
from ..tables import Blank, Coin, Contact, Evidence, Goal, Import, Setting, Show, Sighting, Want
from ..verdicts import Refused
from . import merge
from .entry import Entry, Outcome, close_looks, contested, merged, raise_look

TABLES = {"want": Want, "show": Show, "contact": Contact, "sighting": Sighting, "goal": Goal}
CALLED = {"goal": "set"}  # where the trade says it otherwise


def add(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    if getattr(table.get_or_none(table.id == key), "gone", ""):  # off the list, and entered anew: from a file
        table.delete().where(table.id == key).execute()
    elif table.get_or_none(table.id == key):
        raise Refused("id_used", f"The book already has a {CALLED.get(what, what)} under this number.")
    about = merge.fields(fields_of(what), entry.body["set"])
    if entry.fresh:
        check_said(about)
    table.create(id=key, fact_seq=entry.seq, **about)
    entry.touch(what, key)
    _touch_around(entry, what, about | {"id": key})
    return Outcome()


def edit(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    row = table.get_or_none(table.id == key)
    if row is None or getattr(row, "gone", ""):
        raise Refused(f"no_such_{what}", f"The book has no such {CALLED.get(what, what)}.")
    changes, clashes = merge.merge(row, fields_of(what), entry.body["base"], entry.body["set"])
    if entry.fresh:
        check_said(changes)
    if changes:
        change(entry, what, row, changes)
    return merge.outcome(entry, (what, key), clashes, False)


def change(entry: Entry, what: str, row, changes: dict) -> None:
    """Give a record of a list these values."""
    _touch_around(entry, what, row.__data__)
    table = TABLES[what]
    table.update(fact_seq=entry.seq, **changes).where(table.id == row.id).execute()
    entry.touch(what, row.id)
    _touch_around(entry, what, changes)


def _touch_around(entry: Entry, what: str, about: dict) -> None:
    """A sighting stands on the cards of its want and of its dealer; a contact's name on those of what was seen there."""
    if what == "sighting":
        for name in ("want", "contact"):
            if about.get(name):
                entry.touch(name, about[name])
    elif what == "contact" and about.get("id"):
        for key, want in quick.rows("select id, want from sighting where contact = ? and gone = ? order by id", about["id"], ""):
            entry.touch("sighting", key)
            if want:
                entry.touch("want", want)


def drop(entry: Entry, what: str) -> Outcome:
    """A want, a contact or a sighting off the list; undoing that brings it back."""
    table, key = TABLES[what], entry.body[what]
    row = table.get_or_none(table.id == key)
    if row is None:
        raise Refused(f"no_such_{what}", f"The book has no such {what}.")
    if row.gone:
        return merged(f"This {what} was taken off the list already.")
    change(entry, what, row, {"gone": entry.id})
    close_looks(f"{what}/{key}", entry)
    return Outcome()


def undo_drop(entry: Entry, target) -> None:
    what = target.kind.partition(".")[0]
    table = TABLES[what]
    row = table.get_or_none(table.id == target.body[what], table.gone == target.id)
    if row:
        change(entry, what, row, {"gone": ""})


def undo_add(entry: Entry, target) -> None:
    what = target.kind.partition(".")[0]
    table, key = TABLES[what], target.body[what]
    row = table.get_or_none(table.id == key)
    if row:
        _touch_around(entry, what, row.__data__)
        close_looks(f"{what}/{key}", entry)
        table.delete().where(table.id == key).execute()
        entry.touch(what, key)


def undo_edit(entry: Entry, target) -> Outcome | None:
    what = target.kind.partition(".")[0]
    table, rules = TABLES[what], fields_of(what)
    row = table.get_or_none(table.id == target.body[what])
    if row is None:
        return None
    base, new = merge.fields(rules, target.body["base"]), merge.fields(rules, target.body["set"])
    back = {name: base[name] for name, value in new.items() if name in base and getattr(row, name) == value}
    if any(name not in back and getattr(row, name) != base.get(name) for name in new):
        kept = merged("Some of it was changed again since and stays as it is.")
    else:
        kept = None
    if back:
        change(entry, what, row, back)
    return kept


def check_said(about: dict) -> None:
    """Refused for a denomination or type that nobody knows, and for a slot that makes no sense."""
    check_coin({name: about.get(name) for name in ("denom", "type", "year", "mint")})
    for row in about.get("slots") or []:
        try:
            slots.read(row)
        except slots.BadSlot as problem:
            raise Refused("bad_slot", str(problem)) from None
    for key in (key for row in (about, *(about.get("slots") or [])) for key in row.get("types") or []):
        check_coin({"type": key})
    for row in about.get("slots") or []:
        named = (row.get("subtype") or "").removeprefix(slots.REST)
        if named and named not in {one.key for one in catalogue().types[row["types"][0]].subtypes}:
            raise Refused("bad_slot", f"The slot “{row['title']}” names a division “{named}” that its type does not have.")


def remove(entry: Entry, what: str) -> Outcome:
    """A set out of the book, for good."""
    table, key = TABLES[what], entry.body[what]
    if not table.delete().where(table.id == key).execute():
        raise Refused(f"no_such_{what}", f"The book has no such {CALLED.get(what, what)}.")
    close_looks(f"{what}/{key}", entry)
    entry.touch(what, key)
    return Outcome()


def evidence(entry: Entry) -> Outcome:
    about = merge.fields(fields_of("sale_seen"), entry.body["set"])
    if about.get("price") is None or not about.get("date"):
        raise Refused("bad_body", "A recorded sale needs a price and a date.")
    if entry.fresh:
        check_coin(about)
    number = grades.parse(about["grade"]).number if about.get("grade") else None
    Evidence.create(fact=entry.id, grade_number=number, **about)
    return Outcome()


def blanks(entry: Entry) -> Outcome:
    for key in entry.body["ids"]:
        if Coin.get_or_none(Coin.id == key) or Blank.get_or_none(Blank.id == key):
            raise Refused("id_used", "One of these IDs is already printed or on a coin.")
        Blank.create(id=key, fact=entry.id, printed_ms=entry.when_ms)
        entry.touch("blank", key)
    return Outcome()


def setting(entry: Entry) -> Outcome:
    key, value = entry.body["key"], entry.body["value"]
    present = Setting.get_or_none(Setting.key == key)
    if "base" in entry.body and present and present.value not in (entry.body["base"], value):
        raise_look(entry, "edit", ("setting", key), {
            "field": key, "present": present.value, "proposed": value, "base": entry.body["base"]})  # fmt: skip
        return contested("edited_twice", "Someone else changed this setting meanwhile.", present.value)
    set_setting(key, value, entry)
    return Outcome()


def set_setting(key: str, value, entry: Entry) -> None:
    Setting.delete().where(Setting.key == key).execute()
    Setting.create(key=key, value=value)
    entry.touch("book", "book")


def import_head(entry: Entry) -> Outcome:
    Import.create(fact=entry.id, file=entry.body["file"], rows=entry.body["rows"], when_ms=entry.when_ms)
    return Outcome()


FOLDS = {
    "want.add": lambda entry: add(entry, "want"),
    "want.edit": lambda entry: edit(entry, "want"),
    "want.drop": lambda entry: drop(entry, "want"),
    "set.add": lambda entry: add(entry, "goal"),
    "set.edit": lambda entry: edit(entry, "goal"),
    "set.drop": lambda entry: remove(entry, "goal"),
    "show.add": lambda entry: add(entry, "show"),
    "show.edit": lambda entry: edit(entry, "show"),
    "contact.add": lambda entry: add(entry, "contact"),
    "contact.edit": lambda entry: edit(entry, "contact"),
    "contact.drop": lambda entry: drop(entry, "contact"),
    "sighting.add": lambda entry: add(entry, "sighting"),
    "sighting.edit": lambda entry: edit(entry, "sighting"),
    "sighting.drop": lambda entry: drop(entry, "sighting"),
    "sale.seen": evidence,
    "labels.blank": blanks,
    "setting": setting,
    "import": import_head,
}
UNDO = {f"{what}.{how}": undo for what in ("want", "contact", "sighting") for how, undo in (
    ("add", undo_add), ("edit", undo_edit), ("drop", undo_drop))}  # fmt: skip
