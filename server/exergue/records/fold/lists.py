"""Wants, sets, shows, evidence, blank labels, settings, imports."""

from ...coins import grades
from ...collecting import slots
from ..kinds import fields_of
from ..knowledge import catalogue, check_coin
from ..tables import Blank, Coin, Evidence, Goal, Import, Setting, Show, Want
from ..verdicts import Refused
from . import merge
from .entry import Entry, Outcome, close_looks, contested, raise_look

TABLES = {"want": Want, "show": Show, "goal": Goal}
CALLED = {"goal": "set"}  # where the trade says it otherwise


def add(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    if table.get_or_none(table.id == key):
        raise Refused("id_used", f"The book already has a {CALLED.get(what, what)} under this number.")
    about = merge.fields(fields_of(what), entry.body["set"])
    if entry.fresh:
        check_said(about)
    table.create(id=key, fact_seq=entry.seq, **about)
    entry.touch(what, key)
    return Outcome()


def edit(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    row = table.get_or_none(table.id == key)
    if row is None:
        raise Refused(f"no_such_{what}", f"The book has no such {CALLED.get(what, what)}.")
    changes, clashes = merge.merge(row, fields_of(what), entry.body["base"], entry.body["set"])
    if entry.fresh:
        check_said(changes)
    if changes:
        table.update(fact_seq=entry.seq, **changes).where(table.id == key).execute()
        entry.touch(what, key)
    return merge.outcome(entry, (what, key), clashes, False)


def check_said(about: dict) -> None:
    """Refused for a denomination or type that nobody knows, and for a slot that makes no sense."""
    check_coin({name: about.get(name) for name in ("denom", "type")})
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


def drop(entry: Entry, what: str) -> Outcome:
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
    "set.drop": lambda entry: drop(entry, "goal"),
    "show.add": lambda entry: add(entry, "show"),
    "show.edit": lambda entry: edit(entry, "show"),
    "sale.seen": evidence,
    "labels.blank": blanks,
    "setting": setting,
    "import": import_head,
}
