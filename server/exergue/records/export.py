"""Everything in a book as one zip: CSV files that any spreadsheet opens, the journal, and the photos.

CSV: RFC 4180, with the marks of reports/formulas.py. Bringing the files back in changes nothing; of the sets (export_sets.py)
it makes wants.
"""

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator
from decimal import Decimal
from itertools import islice
from typing import BinaryIO

from ..labels import ids
from ..money import cents
from ..reports.formulas import guard
from . import comings, export_sets, photos
from .intake.present import by_kind, standing_sales
from .intake.sheet import headers
from .kinds import spec
from .knowledge import catalogue, denomination_name
from .reading import open_wants, shows
from .tables import Coin, Evidence, Fact, Note, Photo, Receipt, Sale, Show, Voided, Want, dumps

COSTS = spec()["words"]["costs"]
BATCH = 500


def write_csv(columns: list[str], rows: Iterable[dict], out) -> int:
    """Rows as CSV to a text file opened with newline=""; how many. Numbers stay bare, texts are guarded and quoted."""
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(columns)
    count = 0
    for row in rows:
        writer.writerow([guard(v) if isinstance(v, str) else v for v in map(row.get, columns)])
        count += 1
    return count


def write_zip(book, out: BinaryIO) -> dict[str, int]:
    """Write the zip to a binary file object, piece by piece; {name in the zip: rows}. Use inside `connected()`."""
    money = _Money(book.settings()["currency"])
    tables = {
        "coins": _coins(money), "wants": _wants(money), "evidence": _evidence(money), "shows": _shows(money),
        "sets": _sets(),
    }  # fmt: skip
    counts = {}
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, allowZip64=True) as whole:
        for kind, rows in tables.items():
            with whole.open(f"{kind}.csv", "w") as raw:
                text = io.TextIOWrapper(raw, "utf-8-sig", newline="", write_through=True)
                counts[f"{kind}.csv"] = write_csv(columns_of(kind), rows, text)
                text.detach()
        with whole.open("journal.jsonl", "w") as raw:
            counts["journal.jsonl"] = _lines(_journal(), raw)
        counts["photos"] = _photos(book, whole)
        counts["receipts"] = _receipts(book, whole)
    return counts


def columns_of(kind: str) -> list[str]:
    """The names of a file's columns: the first word that the import knows for each field."""
    if kind == "sets":
        set_, slot, *rest = export_sets.OWN
        return [set_, slot, *(_name("wants", field) for field in export_sets.WANTS), *rest]
    return [_name(kind, field) for field in headers()[kind]["columns"] if field not in _LEFT_OUT.get(kind, ())]


_LEFT_OUT = {"coins": ("cost_total",), "wants": ("grade",)}  # readings of what other columns hold


def _name(kind: str, field: str) -> str:
    name = headers()[kind]["columns"][field][0]
    return "ID" if name == "id" else name.capitalize()


def _named(kind: str, fields: dict) -> dict:
    return {_name(kind, field): value for field, value in fields.items()}


class _Money:
    """Amounts as bare numbers; None stays an empty cell."""

    def __init__(self, currency: str):
        self.currency = currency

    def __call__(self, amount: int | None):
        return "" if amount is None else Decimal(cents.plain(amount, self.currency))


# --- coins ----------------------------------------------------------------------------------------


def _coins(money: _Money) -> Iterator[dict]:
    names = {show["id"]: show["name"] for show in shows()}
    coins = Coin.select().order_by(Coin.denom, Coin.year, Coin.id).iterator()
    while batch := list(islice(coins, BATCH)):
        keys = [coin.id for coin in batch]
        bought, sold, notes = comings.of(keys), standing_sales(keys), _notes(keys)
        for coin in batch:
            fields = {
                "id": ids.show(coin.id), "denom": denomination_name(coin.denom), "type": _type(coin),
                "title": coin.title, "year": _year(coin.year), "mint": coin.mint, "variety": coin.variety,
                "grade": coin.grade, "certified_by": coin.certified_by, "certificate": coin.certificate,
                "place": coin.place, "ask": money(coin.ask), "floor": money(coin.floor),
                "publish": " ".join(coin.publish), "state": coin.state, "pieces": coin.pieces, "held": coin.held,
                "notes": "\n\n".join(notes.get(coin.id, [])),
            }  # fmt: skip
            if coin.id in bought:
                fields |= _purchase_fields(bought[coin.id], money, names)
            if coin.id in sold:
                fields |= _sale_fields(sold[coin.id], money, names)
            yield _named("coins", fields)


def _notes(keys: list[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for note in Note.select().where(Note.coin.in_(keys)).order_by(Note.when_ms, Note.fact):
        found.setdefault(note.coin_id, []).append(note.text)
    return found


def _type(row) -> str:
    """The type's name where the import finds the type by it, and else its key."""
    known = catalogue()
    if row.type not in known.types:
        return row.type
    name = known.types[row.type].name
    year = getattr(row, "year", None)
    return name if [t.key for t in known.find_type(row.denom, name, year)] == [row.type] else row.type


def _year(year: int | None):
    return "no date" if year is None else year


def _purchase_fields(coming: comings.Coming, money: _Money, names: dict) -> dict:
    deal, lines = coming.deal, by_kind(coming.costs)
    return {
        "purchase_date": deal.date, "from": deal.party, "purchase_show": names.get(deal.show, ""),
        "purchase_payment": deal.payment or "", "purchase_note": deal.note,
        **{f"cost_{what}": money(lines.get(what)) for what in COSTS},
    }  # fmt: skip


def _sale_fields(sale: Sale, money: _Money, names: dict) -> dict:
    lines = by_kind(sale.costs)
    return {
        "sold_price": money(sale.price), "sold_date": sale.date, "sold_to": sale.party,
        "sold_show": names.get(sale.show, ""), "sold_payment": sale.payment or "", "sold_note": sale.note,
        **{f"sold_{what}": money(lines.get(what)) for what in COSTS if what != "price"},
    }  # fmt: skip


# --- the other files ------------------------------------------------------------------------------


def _wants(money: _Money) -> Iterator[dict]:
    for want in open_wants().order_by(Want.denom, Want.type, Want.id).iterator():
        fields = {
            "id": want.id, "denom": denomination_name(want.denom), "type": _type(want), "title": want.title,
            "years": want.years, "grade_from": want.grade_from, "grade_to": want.grade_to,
            "ceiling": money(want.ceiling), "priority": want.priority, "note": want.note,
        }  # fmt: skip
        yield _named("wants", fields)


def _evidence(money: _Money) -> Iterator[dict]:
    for seen in Evidence.select().order_by(Evidence.date, Evidence.fact).iterator():
        fields = {
            "id": seen.fact, "date": seen.date, "price": money(seen.price), "fee_included": _flag(seen.fee_included),
            "denom": denomination_name(seen.denom), "type": _type(seen), "title": seen.title, "year": _year(seen.year),
            "mint": seen.mint, "grade": seen.grade, "problem": _flag(seen.problem), "source": seen.source,
        }  # fmt: skip
        yield _named("evidence", fields)


def _flag(value: bool | None) -> str:
    return {None: "", True: "yes", False: "no"}[value]


def _shows(money: _Money) -> Iterator[dict]:
    for show in Show.select().order_by(Show.starts, Show.id).iterator():
        fields = {
            "id": show.id, "name": show.name, "place": show.place, "table": show.table, "starts": show.starts,
            "ends": show.ends, "float": money(show.float), "note": show.note,
        }  # fmt: skip
        yield _named("shows", fields)


def _sets() -> Iterator[dict]:
    for one, fields, own in export_sets.slots():
        yield own | _named("wants", fields | {"denom": denomination_name(one.denom), "type": _type(one)})


def _journal() -> Iterator[dict]:
    for fact in Fact.select().order_by(Fact.seq).iterator():
        yield {name: value for name, value in fact.__data__.items() if name != "digest"}


def _lines(rows: Iterable[dict], raw: BinaryIO) -> int:
    count = 0
    for row in rows:
        raw.write((dumps(row) + "\n").encode())
        count += 1
    return count


def _photos(book, whole: zipfile.ZipFile) -> int:
    """Every photo as photos/<coin>-<side>-<photo>.jpg; how many. A photo still on its way is left out."""
    count = 0
    for photo in Photo.select().order_by(Photo.coin, Photo.fact):
        path = photos.path(book.photos, photo.photo)
        if path.exists():
            whole.write(path, f"photos/{photo.coin_id}-{photo.side}-{photo.photo}.jpg", zipfile.ZIP_STORED)
            count += 1
    return count


def _receipts(book, whole: zipfile.ZipFile) -> int:
    """The receipts of every deal that stands, as receipts/<day>-<number of the deal>.jpg, or -2.jpg and so on; how many."""
    count, before, last = 0, None, 0
    rows = Receipt.select(Receipt.photo, Fact.id, Fact.body).join(Fact, on=(Receipt.of == Fact.id))
    standing = rows.where(Fact.id.not_in(Voided.select(Voided.fact))).order_by(Fact.seq, Receipt.fact)
    for photo, deal, body in standing.tuples().iterator():
        last, before = (last + 1 if deal == before else 1), deal
        path = photos.path(book.photos, photo)
        if path.exists():
            whole.write(path, f"receipts/{body['date']}-{deal}{f'-{last}' if last > 1 else ''}.jpg", zipfile.ZIP_STORED)
            count += 1
    return count
