"""Wants, shows, evidence, blank labels, settings, imports."""

from ...coins import grades
from ..kinds import fields_of
from ..knowledge import check_coin
from ..tables import Blank, Coin, Evidence, Import, Setting, Show, Want
from ..verdicts import Refused
from . import merge
from .entry import Entry, Outcome, close_looks, contested, raise_look

TABLES = {"want": Want, "show": Show}


def add(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    if table.get_or_none(table.id == key):
        raise Refused("id_used", f"The book already has a {what} under this number.")
    about = merge.fields(fields_of(what), entry.body["set"])
    if entry.fresh:
        check_coin({"denom": about.get("denom"), "type": about.get("type")})
    table.create(id=key, fact_seq=entry.seq, **about)
    entry.touch(what, key)
    return Outcome()


def edit(entry: Entry, what: str) -> Outcome:
    table, key = TABLES[what], entry.body[what]
    row = table.get_or_none(table.id == key)
    if row is None:
        raise Refused(f"no_such_{what}", f"The book has no such {what}.")
    changes, clashes = merge.merge(row, fields_of(what), entry.body["base"], entry.body["set"])
    if entry.fresh:
        check_coin({name: changes.get(name) for name in ("denom", "type")})
    if changes:
        table.update(fact_seq=entry.seq, **changes).where(table.id == key).execute()
        entry.touch(what, key)
    return merge.outcome(entry, (what, key), clashes, False)


def drop_want(entry: Entry) -> Outcome:
    if not Want.delete().where(Want.id == entry.body["want"]).execute():
        raise Refused("no_such_want", "The book has no such want.")
    close_looks(f"want/{entry.body['want']}", entry)
    entry.touch("want", entry.body["want"])
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
    "want.drop": drop_want,
    "show.add": lambda entry: add(entry, "show"),
    "show.edit": lambda entry: edit(entry, "show"),
    "sale.seen": evidence,
    "labels.blank": blanks,
    "setting": setting,
    "import": import_head,
}
