"""Facts about one coin: new, noted, checked, photographed."""

from ...coins import grades
from .. import quick
from ..kinds import fields_of
from ..knowledge import check_coin, denomination_name, type_name
from ..tables import Check, Coin, Look, Note, Photo
from ..verdicts import Refused
from . import merge
from .entry import Entry, Outcome, close_looks, contested, merged, raise_look

RULES = fields_of("coin")


def find(coin_id: str) -> Coin:
    coin = Coin.get_or_none(Coin.id == coin_id)
    if coin is None:
        raise Refused("no_such_coin", "The book has no coin with this ID.")
    return coin


def words(coin: Coin, notes=()) -> str:
    """What the desk's search looks through, in lower case."""
    said = [coin.id, coin.id[:5] + "-" + coin.id[5:], denomination_name(coin.denom), type_name(coin.type),
            coin.title, str(coin.year or ""), coin.mint, f"{coin.year}-{coin.mint}" if coin.mint else "",
            coin.variety, coin.grade, coin.grade.replace("-", ""), coin.certified_by, coin.certificate,
            coin.place, f"{coin.pieces} pieces" if coin.pieces > 1 else "", *notes]  # fmt: skip
    return " ".join(filter(None, said)).lower()


def notes_of(coin: Coin) -> list[str]:
    return [text for (text,) in quick.rows("select text from note where coin = ? order by fact", coin.id)]


def stamp(coin: Coin, entry: Entry, *, new=False) -> None:
    """Save a coin with what follows from its fields, and touch its card."""
    coin.grade_number = grades.parse(coin.grade).number if coin.grade else None
    coin.words = words(coin, () if new else notes_of(coin))
    coin.fact_seq, coin.fact_device = entry.seq, entry.device
    if new:
        quick.insert(Coin, **coin.__data__)
    else:
        coin.save()
    entry.touch("coin", coin.id)


def is_there(coin_id: str) -> bool:
    return quick.there("select 1 from coin where id = ?", coin_id)


def create(entry: Entry, coin_id: str, given: dict, cost: int | None = None) -> Coin:
    """A new coin in stock under an ID that no coin has."""
    about = merge.fields(RULES, given)
    if entry.fresh:
        check_coin(about)
    pieces = about.get("pieces", 1)
    coin = Coin(id=coin_id, state="in stock", left=pieces, made_by=entry.id, cost=cost, cost_left=cost, **about)
    stamp(coin, entry, new=True)
    entry.touch("blank", coin_id)
    return coin


def add(entry: Entry) -> Outcome:
    coin_id = entry.body["coin"]
    if is_there(coin_id):
        check_about(entry, entry.body["set"])
        raise_look(entry, "label_used_twice", ("coin", coin_id), {"set": entry.body["set"]})
        return contested("label_used_twice", "This ID is already on another coin. Both entries are kept.")
    create(entry, coin_id, entry.body["set"])
    return Outcome()


def check_about(entry: Entry, given: dict) -> None:
    if entry.fresh:
        check_coin(merge.fields(RULES, given))


def note(entry: Entry) -> Outcome:
    coin = find(entry.body["coin"])
    Note.create(fact=entry.id, coin=coin, when_ms=entry.when_ms, device=entry.device, text=entry.body["text"].strip())
    stamp(coin, entry)
    return Outcome()


def check(entry: Entry) -> Outcome:
    coin, key, answer = find(entry.body["coin"]), entry.body["key"], entry.body["answer"]
    present = Check.get_or_none((Check.coin == coin) & (Check.key == key))
    base = entry.body.get("base")
    if base is not None and present and present.answer not in (base, answer):
        raise_look(entry, "check", ("coin", coin.id), {
            "field": key, "present": present.answer, "proposed": answer, "note": entry.text("note")})  # fmt: skip
        return contested("checked_twice", "Someone else answered this differently. Both answers are kept.",
                         {"answer": present.answer, "note": present.note})  # fmt: skip
    set_check(coin.id, key, answer, entry.text("note"), entry)
    if base is not None and present and present.answer != base:
        return merged("Someone else gave the same answer.")
    return Outcome()


def set_check(coin_id: str, key: str, answer: str, text: str, entry: Entry) -> None:
    """Keep one answer of the checklist; an empty answer clears it."""
    where = (Check.coin == coin_id) & (Check.key == key)
    Check.delete().where(where).execute()
    if answer or text:
        Check.create(coin=coin_id, key=key, answer=answer, note=text, when_ms=entry.when_ms, fact=entry.id)
    entry.touch("coin", coin_id)


def photo(entry: Entry) -> Outcome:
    coin = find(entry.body["coin"])
    if Photo.get_or_none(Photo.photo == entry.body["photo"]):
        raise Refused("photo_used", "This photo is already in the book.")
    Photo.create(photo=entry.body["photo"], coin=coin, side=entry.body["side"],
                 digest=entry.body["digest"], fact=entry.id)  # fmt: skip
    entry.touch("coin", coin.id)
    return Outcome()


def forget(coin: Coin, entry: Entry) -> None:
    """Take a coin out of the tables, with all that hung on it. The journal keeps its facts.

    Another coin that waits for a label of its own still waits: it may now have this one.
    """
    close_looks(f"coin/{coin.id}", entry, Look.kind != "label_used_twice")
    for (show,) in quick.rows("select show from packed where coin = ? order by show", coin.id):
        entry.touch("show", show)
    coin.delete_instance()
    entry.touch("coin", coin.id)
    entry.touch("blank", coin.id)


FOLDS = {"coin.add": add, "note": note, "check": check, "photo": photo}
