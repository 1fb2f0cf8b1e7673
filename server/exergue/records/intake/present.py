"""What an import has to know of the book."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Protocol

from .. import comings, kinds, knowledge
from ..tables import Coin, Evidence, Fact, Move, Note, Sale, Show, Want, dumps

BATCH = 500


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
    def coins(self, ids: list[str]) -> dict[str, Held]: ...  # those of these IDs that the book has
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

    def coins(self, ids: list[str]) -> dict[str, Held]:
        return {key: held for at in range(0, len(ids), BATCH) for key, held in _held(ids[at : at + BATCH])}

    def certificates(self) -> dict[tuple[str, str], str]:
        rows = Coin.select(Coin.certified_by, Coin.certificate, Coin.id).where(Coin.certificate != "").tuples()
        return {(by.casefold(), number): coin_id for by, number, coin_id in rows}

    def wants(self) -> dict[str, dict]:
        return _fields(Want.select().where(Want.gone == ""), "want")

    def shows(self) -> dict[str, dict]:
        return _fields(Show.select(), "show")

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


def _held(ids: list[str]) -> Iterator[tuple[str, Held]]:
    names = list(kinds.fields_of("coin"))
    bought = comings.of(ids)
    sold = standing_sales(ids)
    notes: dict[str, list[str]] = {}
    for note in Note.select().where(Note.coin.in_(ids)).order_by(Note.when_ms, Note.fact):
        notes.setdefault(note.coin_id, []).append(note.text)
    for row in Coin.select().where(Coin.id.in_(ids)):
        came, sale = bought.get(row.id), sold.get(row.id)
        yield row.id, Held(
            fields={name: getattr(row, name) for name in names},
            state=row.state,
            costs=by_kind(came.costs) if came else {},
            purchase=_deal(came.deal, "from") if came else None,
            sale=_deal(sale, "to") | {"price": sale.price, "costs": by_kind(sale.costs)} if sale else None,
            notes=tuple(notes.get(row.id, ())),
        )


def standing_sales(ids: list[str]) -> dict[str, Sale]:
    """coin → the sale by which it went, of these coins those that are sold; of a lot the last of its sales."""
    move = (Move.coin == Sale.coin) & (Move.fact == Sale.fact)
    query = Sale.select().join(Move, on=move).switch(Sale).join(Coin, on=Coin.id == Sale.coin)
    rows = query.where(Sale.coin.in_(ids), Sale.live == True, Coin.state == "sold").order_by(Move.seq)  # noqa: E712
    return {row.coin_id: row for row in rows}


def by_kind(costs: list[dict]) -> dict[str, int]:
    """Cost lines as {what: cents}, lines of one kind added up; what a coin that was not bought counts for is a price."""
    sums: dict[str, int] = {}
    for line in costs:
        what = line["what"] if line["what"] in kinds.spec()["words"]["costs"] else "price"
        sums[what] = sums.get(what, 0) + line["cents"]
    return sums


def _deal(row, party: str) -> dict:
    return {party: row.party, "date": row.date, "show": row.show, "payment": row.payment, "note": row.note}


def _fields(rows, name: str) -> dict[str, dict]:
    return {row.id: {f: getattr(row, f) for f in kinds.fields_of(name)} for row in rows}
