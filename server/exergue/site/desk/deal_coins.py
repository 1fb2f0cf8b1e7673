"""Coins in the forms of deals: rows of new ones, IDs of those that the book has."""

from fractions import Fraction
from math import lcm

from flask import g

from ...coins import denominations
from ...labels import ids
from ...money import melt
from ...records import knowledge, reading
from .. import here
from . import showing, words
from .coin_form import denomination_choices
from .deal_rows import BadDeal, Row
from .forms import CoinIdField, GradeField, LineField, MoneyField, OneOf, WholeField

SPLITS = [("even", "Evenly over the pieces"), ("weights", "By the shares typed"), ("estimate", "By the estimates typed"),
          ("face", "By face value"), ("metal", "By metal, at the spot prices in Settings")]  # fmt: skip
FIELDS = ("denom", "title", "year", "mint", "grade", "place", "ask")


def type_names() -> dict[str, str]:
    """Name in full (“Half cent, Draped Bust”) → key of the catalogue."""
    known = knowledge.catalogue().types
    return {f"{knowledge.denomination_name(one.denomination)}, {one.name}": key for key, one in known.items()}


class TypeField(LineField):
    """A type of the catalogue by its name in full; data is its key, or ""."""

    def process_formdata(self, values):
        super().process_formdata(values)
        if self.data:
            found = {name.casefold(): key for name, key in type_names().items()}
            key = found.get(self.data.casefold()) or (self.data if self.data in found.values() else None)
            if key is None:
                raise ValueError("The catalogue has no type of this name; choose one of the list, or describe the coin.")
            self.data = key

    def _value(self):
        if self.raw_data:
            return self.raw_data[0]
        return next((name for name, key in type_names().items() if key == self.data), self.data or "")


class ComingRow(Row):
    """A coin that comes in: new, or one that the book has without its purchase."""

    label = CoinIdField("Label")
    denom = OneOf("Denomination")
    type = TypeField("Type")
    title = LineField("Description", most=120)
    year = WholeField("Year")
    mint = LineField("Mint mark", most=4)
    grade = GradeField("Grade")
    pieces = WholeField("Pieces")
    place = LineField("Place", most=60)
    ask = MoneyField("Asking price")
    worth = MoneyField("Share")

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.denom.offer(denomination_choices())

    def fields(self) -> dict:
        """What was said of the coin, as a fact holds it."""
        said = {name: self[name].data for name in FIELDS if self[name].data not in (None, "")}
        if self.type.data:
            said |= {"type": self.type.data, "denom": self.type.data.partition("/")[0]}
        if "mint" in said:
            said["mint"] = said["mint"].upper()
        return said

    def count(self) -> int:
        if self.pieces.data is not None and self.pieces.data < 1:
            raise BadDeal("A row has at least one piece; leave the number empty for a single coin.")
        return self.pieces.data or 1

    def body(self) -> dict:
        """{coin, set, pieces?}; coin is None for a label still to be drawn. Raises BadDeal."""
        said, known = self.fields(), self.label.data and here.book().card("coin", self.label.data)
        if known and said:
            raise BadDeal(f"The book has a coin with the label {ids.show(self.label.data)}; leave the rest of its row empty, "
                          "or take another label.")  # fmt: skip
        if not known and not (said.get("type") or said.get("denom") or said.get("title")):
            raise BadDeal("Say of every coin what it is: a type, a denomination or a description.")
        return {"coin": self.label.data or None, "set": said} | ({"pieces": self.count()} if self.count() > 1 else {})


class BoughtRow(ComingRow):
    """A coin that comes in for money or for coins, for a want perhaps."""

    want = OneOf("Fills the want")

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.want.offer(_wants())

    def body(self) -> dict:
        return super().body() | ({"want": self.want.data} if self.want.data else {})


def _wants() -> list[tuple[str, str]]:
    """The choices of a want, read once a request."""
    if "wants_offered" not in g:
        g.wants_offered = [("", "None"), *((one["id"], _want(one)) for one in reading.wants())]
    return g.wants_offered


def _want(one: dict) -> str:
    window = showing.window(one["grade_from"], one["grade_to"])
    return ", ".join(said for said in (one["title"], one["years"], window) if said)


def one_each(rows: list[dict]) -> list[dict]:
    """The same rows. Raises BadDeal where two of them say that they fill the same want."""
    said = [row["want"] for row in rows if row.get("want")]
    if len(said) > len(set(said)):
        raise BadDeal("Two coins are said to fill the same want; choose one of them.")
    return rows


def drawn(rows: list[dict]) -> list[dict]:
    """The rows with a new ID where none was typed."""
    return [row | {"coin": row["coin"] or ids.new_id()} for row in rows]


def whole(weights: list[Fraction]) -> list[int]:
    """Whole numbers in the same proportion."""
    scale = lcm(*[weight.denominator for weight in weights])
    return [int(weight * scale) for weight in weights]


def weights(how: str, rows: list[dict], typed: list[int | None]) -> list[int] | None:
    """How a lump sum is divided over rows {coin, set, pieces?}; None: evenly over the pieces. Raises BadDeal, BadSpot."""
    if how == "even":
        return None
    if how in ("weights", "estimate"):
        if None in typed:
            raise BadDeal("Give every coin a share, or share the sum in another way.")
        return typed
    about = [row["set"] or here.book().card("coin", row["coin"]) or {} for row in rows]
    pieces = [row.get("pieces") or one.get("pieces") or 1 for row, one in zip(rows, about, strict=True)]
    return (_faces if how == "face" else _metal)(about, pieces)


def _faces(about: list[dict], pieces: list[int]) -> list[int]:
    found = [denominations.ALL.get(one.get("denom") or "") for one in about]
    if None in found:
        raise BadDeal("To share by face, give every coin its denomination.")
    if len({one.country for one in found}) > 1:
        raise BadDeal("Face values of several countries cannot be weighed against each other; share the sum in another way.")
    return whole([one.cents * count for one, count in zip(found, pieces, strict=True)])


def _metal(about: list[dict], pieces: list[int]) -> list[int]:
    spot, known, found = melt.read(here.book().setting("spot") or {}), knowledge.catalogue().types, []
    for one, count in zip(about, pieces, strict=True):
        worth = melt.of_type(known[one["type"]], spot, one.get("year")) if one.get("type") in known else None
        if worth is None:
            raise BadDeal(f"The metal in {words.coin_line(one)} is not known: give its type and year, and the spot prices "
                          "in Settings, or share the sum in another way.")  # fmt: skip
        found.append(sum(ounces * spot[metal].cents for metal, ounces in worth.ounces.items()) * count)
    return whole(found)
