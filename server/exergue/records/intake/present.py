"""What an import has to know of the book."""

from collections import Counter
from dataclasses import dataclass, field
from datetime import date
from typing import Protocol

from .. import kinds, knowledge
from ..tables import Bought, Coin, Evidence, Fact, Note, Purchase, Sale, Show, Want, dumps


@dataclass(frozen=True)
class Held:
    """A coin of the book. Costs are {what: cents}; `purchase` and `sale` are fields of those facts, or None."""

    fields: dict
    state: str = "in stock"
    costs: dict = field(default_factory=dict)
    purchase: dict | None = None
    sale: dict | None = None
    notes: tuple[str, ...] = ()


class BookView(Protocol):
    """What `read` asks of the book. Fields are those of kinds.toml, as they are kept."""

    currency: str
    today: date

    def catalogue(self): ...
    def coin(self, coin_id: str) -> Held | None: ...
    def certificates(self) -> dict[tuple[str, str], str]: ...  # (certified by, certificate) → coin ID
    def wants(self) -> dict[str, dict]: ...
    def shows(self) -> dict[str, dict]: ...
    def evidence(self) -> "Evidences": ...
    def taken_before(self, digest: str) -> str | None: ...  # the name of the file with the same bytes


@dataclass
class Evidences:
    """Recorded sales of the book: their numbers, and how many there are of each content."""

    ids: set[str] = field(default_factory=set)
    alike: Counter = field(default_factory=Counter)

    @staticmethod
    def key(fields: dict) -> str:
        return dumps({name: value for name, value in fields.items() if value not in (None, "", False)})


class OfBook:
    """The view of an open book; use it inside `book.connected()`."""

    def __init__(self, book, today: date | None = None):
        self.currency = book.settings()["currency"]
        self.today = today or date.today()

    def catalogue(self):
        return knowledge.catalogue()

    def coin(self, coin_id: str) -> Held | None:
        row = Coin.get_or_none(Coin.id == coin_id)
        if row is None:
            return None
        bought = Bought.get_or_none(Bought.coin == row)
        sold = Sale.get_or_none((Sale.coin == row) & (Sale.live == True))  # noqa: E712
        notes = Note.select().where(Note.coin == row).order_by(Note.when_ms, Note.fact)
        return Held(
            fields={name: getattr(row, name) for name in kinds.fields_of("coin")},
            state=row.state,
            costs=by_kind(bought.costs) if bought else {},
            purchase=_deal(Purchase.get_by_id(bought.purchase_id), "from") if bought else None,
            sale=_deal(sold, "to") | {"price": sold.price, "costs": by_kind(sold.costs)} if sold else None,
            notes=tuple(note.text for note in notes),
        )

    def certificates(self) -> dict[tuple[str, str], str]:
        rows = Coin.select(Coin.certified_by, Coin.certificate, Coin.id).where(Coin.certificate != "").tuples()
        return {(by.casefold(), number): coin_id for by, number, coin_id in rows}

    def wants(self) -> dict[str, dict]:
        return _fields(Want, "want")

    def shows(self) -> dict[str, dict]:
        return _fields(Show, "show")

    def evidence(self) -> Evidences:
        names = kinds.fields_of("sale_seen")
        found = Evidences()
        for row in Evidence.select():
            found.ids.add(row.fact)
            found.alike[Evidences.key({name: getattr(row, name) for name in names})] += 1
        return found

    def taken_before(self, digest: str) -> str | None:
        for row in Fact.select().where(Fact.kind == "import"):
            if row.body["digest"] == digest:
                return row.body["file"]
        return None


def by_kind(costs: list[dict]) -> dict[str, int]:
    """Cost lines as {what: cents}, lines of one kind added up."""
    sums: dict[str, int] = {}
    for line in costs:
        sums[line["what"]] = sums.get(line["what"], 0) + line["cents"]
    return sums


def _deal(row, party: str) -> dict:
    return {party: row.party, "date": row.date, "show": row.show, "payment": row.payment, "note": row.note}


def _fields(table, name: str) -> dict[str, dict]:
    return {row.id: {f: getattr(row, f) for f in kinds.fields_of(name)} for row in table.select()}
