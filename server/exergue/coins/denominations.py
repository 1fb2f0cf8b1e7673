"""Denominations: their names, face and order, and finding one in what people type."""

from dataclasses import dataclass
from fractions import Fraction

from exergue.coins import own_data, spelling, years


@dataclass(frozen=True)
class Denomination:
    """`cents`: face in cents of the country's money, a Fraction (a half cent is 1/2). `last` None: still struck."""

    key: str
    name: str
    plural: str
    country: str
    cents: Fraction
    order: int
    first: int
    last: int | None
    said: tuple[str, ...]

    def covers(self, year: int) -> bool:
        return self.first <= year and (self.last is None or year <= self.last)


def from_table(entry: dict, order: int) -> Denomination:
    """A denomination from its TOML table. Raises ValueError or KeyError where that is not sound."""
    first, _, last = str(entry["years"]).partition("-")
    return Denomination(
        entry["key"], entry["name"], entry["plural"], entry["country"], Fraction(str(entry["face"])), order,
        years.parse(first)[0], years.parse(last or first)[0] if last or "-" not in str(entry["years"]) else None,
        tuple(entry.get("said", ())),
    )


ALL: dict[str, Denomination] = {
    entry["key"]: from_table(entry, order)
    for order, entry in enumerate(own_data.table("denominations.toml")["denomination"])
}


# Words that name a country → its code. Without one, what people type is taken as they say it at home.
_COUNTRIES: dict[str, str] = {
    word: code for code, words in own_data.table("denominations.toml")["countries"].items() for word in words
}


def get(key: str) -> Denomination:
    """The denomination of that key. Raises KeyError."""
    return ALL[key]


def candidates(text: str, year: int | None = None, among: dict[str, Denomination] = ALL) -> list[Denomination]:
    """Every denomination that `text` may mean; a year leaves those that were struck then, if any were."""
    if text in among:
        return [among[text]]
    words, country = _words(text), country_named(text)
    found = [d for d in among.values() if words and words in {_words(s) for s in (d.key, d.name, d.plural, *d.said)}]
    if country and not found:  # "5 cents, Canada" for "Canadian 5 cents": the country may stand anywhere
        found = [
            d for d in among.values()
            if d.country == country and _bare(words) in [_bare(_words(s)) for s in (d.name, d.plural, *d.said)]
        ]
    if year is not None and len(found) > 1:
        found = [d for d in found if d.covers(year)] or found
    return found


def find(text: str, year: int | None = None, among: dict[str, Denomination] = ALL) -> Denomination | None:
    """The one denomination that `text` means ("1/2c", "Half Cents", "$20"), or None if none or several fit.

    "1c" alone is None: with a year before 1856 it is the large cent.
    """
    found = candidates(text, year, among)
    return found[0] if len(found) == 1 else None


def country_named(text: str) -> str | None:
    """The country that the words name ("CA" for "1921 Canada 5 cents"), or None where they name none, or several."""
    codes = {_COUNTRIES[word] for word in _words(text) if word in _COUNTRIES}
    return codes.pop() if len(codes) == 1 else None


def _bare(words: tuple[str, ...]) -> list[str]:
    """The words in order of the alphabet, without those that name a country."""
    return sorted(word for word in words if word not in _COUNTRIES)


def _words(text: str) -> tuple[str, ...]:
    return tuple(
        {"¢": "c", "ct": "c", "cts": "c"}.get(word, word) for word in spelling.tokens(text) if word not in {"-", ".", ","}
    )
