"""The catalogue: every type that is known, from the package's own files and the owner's.

Files are TOML, one a denomination, and one format for both. The owner's lie in BOOK/catalogue/. A faulty owner's
file is left out whole and its faults are told in `problems`; a fault in the package's own files is an error.
"""

import hashlib
import tomllib
from dataclasses import replace
from functools import cached_property, lru_cache
from pathlib import Path

from exergue.coins import check, dates, find_type, own_data, pack, read
from exergue.coins import denominations as built_in
from exergue.coins.denominations import Denomination
from exergue.coins.model import Diagnostic, Series, Type
from exergue.coins.read import Vocabulary

_ASKED_FIRST = {"type": 0, "genuine": 1, "issue": 2}


class CatalogueError(ValueError):
    """The package's own catalogue is not sound; the message lists every fault, one a line."""


class Catalogue:
    """Types by key, in order of denomination and first year. Made by `load`."""

    def __init__(
        self, types: list[Type], series: dict[str, Series], vocabulary: Vocabulary,
        denominations: dict[str, Denomination], problems: list[str],
    ):
        order = {key: d.order for key, d in denominations.items()}
        self.types = {t.key: t for t in sorted(types, key=lambda t: (order[t.denomination], t.years[0]))}
        self.series, self.denominations, self.problems = series, denominations, problems
        self.features, self.laws, self.vocabulary = vocabulary.features, vocabulary.laws, vocabulary

    def type(self, key: str) -> Type:
        """Raises KeyError."""
        return self.types[key]

    def of(self, denomination: str) -> list[Type]:
        """The types of a denomination, earliest first; none for one that has no file yet."""
        return [t for t in self.types.values() if t.denomination == denomination]

    def title(self, key: str) -> str:
        """The line for people: "Half cent, Draped Bust"."""
        found = self.types[key]
        return f"{self.denominations[found.denomination].name}, {found.name}"

    def checklist(self, key: str, year: int | None = None) -> list[Diagnostic]:
        """What to look at, in order: first what would end the deal, dates known for trouble before all; then what
        tells the type, what else tells a right coin, and what tells the issue. Cheap and sure looks come first.

        With a year, without the looks that are asked of other dates only.
        """
        asked = [d for d in self.types[key].looks if year is None or not d.years or year in d.years]
        return sorted(asked, key=lambda d: (not d.kills, _ASKED_FIRST[d.asks], not d.years, d.effort, d.error))

    def check_date(self, key: str, year: int | None, mint: str = "") -> str | None:
        """None, or a sentence that says why such a coin was never struck."""
        found = self.types[key]
        return dates.never_struck(
            found, year, mint or "", self.series[found.denomination], self.of(found.denomination),
            self.denominations[found.denomination],
        )

    def date_note(self, key: str, year: int | None, mint: str = "") -> str | None:
        """A note on a date that was struck in proof only, at all mints or at that one; not a refusal."""
        found = self.types[key]
        return dates.proof_note(found, year, mint or "", self.denominations[found.denomination])

    def find_type(self, denomination: str, text: str, year: int | None = None) -> list[Type]:
        """Types that the text may mean, best first; see find_type.candidates."""
        if denomination not in self.denominations:
            return []
        return find_type.candidates(self.of(denomination), text or "", year, self.denominations[denomination])

    def near(self, key: str) -> list[str]:
        """Types that its diagnostics name, or that name it: the ones it is taken for."""
        named = [other for d in self.types[key].looks for other in d.instead]
        naming = [t.key for t in self.types.values() if any(key in d.instead for d in t.looks)]
        return list(dict.fromkeys(named + naming))

    def pack(self) -> dict:
        """JSON-able: all that the phone must know of coins. Treat it as read-only; shapes in pack.py."""
        return self._packed

    @cached_property
    def _packed(self) -> dict:
        return pack.pack(self)


def mark(extra_folder: Path | str | None = None) -> str:
    """Sixteen hex digits that change whenever a catalogue loaded now could say something else.

    Of the files, both data and code that reads them, so that nobody need load a catalogue to learn that it is the same.
    """
    digest = hashlib.sha256()
    for entry in (*_code(), *_data(), *_extra(extra_folder)):
        content = entry.read_bytes() if entry.is_file() else b""  # an owner's file may be anything, or just gone
        digest.update(f"{entry.name} {len(content)} ".encode("utf-8", "replace") + content)
    return digest.hexdigest()[:16]


@lru_cache(maxsize=1)
def _code() -> tuple:
    return tuple(sorted((e for e in own_data.DATA.parent.iterdir() if e.name.endswith(".py")), key=lambda e: e.name))


@lru_cache(maxsize=1)
def _data() -> tuple:
    found = (*own_data.DATA.iterdir(), *(own_data.DATA / "catalogue").iterdir())
    return tuple(sorted((e for e in found if e.name.endswith(".toml")), key=lambda e: e.name))


def _extra(folder: Path | str | None) -> list[Path]:
    """The owner's files, in order; none without a folder."""
    return sorted(Path(folder).glob("*.toml")) if folder else []


def load(extra_folder: Path | str | None = None) -> Catalogue:
    """The catalogue with the owner's files of `extra_folder`, if it exists. Raises CatalogueError."""
    types, heads, vocabulary, denominations = _own()
    problems: list[str] = []
    owned: set[str] = set()
    for path in _extra(extra_folder):
        faults: list[str] = []
        more, head, words, known = _file(path, vocabulary, denominations, faults)
        if not faults:
            faults = check.features(words, path.name)
            owners = frozenset({*owned, path.name})
            faults += check.catalogue(types + more, [*heads, (head, path.name)], words, known, owners)
        if faults:
            problems += faults
        else:
            types, heads, vocabulary, denominations = types + more, [*heads, (head, path.name)], words, known
            owned.add(path.name)
    series: dict[str, Series] = {}
    for head, _ in heads:
        first = series.setdefault(head.denomination, head)
        series[head.denomination] = replace(first, gaps=head.gaps | first.gaps)
    return Catalogue(types, series, vocabulary, denominations, problems)


@lru_cache(maxsize=1)
def _own() -> tuple[list[Type], list[tuple[Series, str]], Vocabulary, dict[str, Denomination]]:
    problems: list[str] = []
    vocabulary = Vocabulary(
        read.features(own_data.table("features.toml"), "features.toml", problems),
        read.laws(own_data.table("laws.toml"), "laws.toml", problems),
        own_data.table("checks.toml"),
    )
    denominations = dict(built_in.ALL)
    types: list[Type] = []
    heads: list[tuple[Series, str]] = []
    for entry in sorted((own_data.DATA / "catalogue").iterdir(), key=lambda e: e.name):
        if entry.name.endswith(".toml"):
            more, head, vocabulary, denominations = _file(entry, vocabulary, denominations, problems)
            types, heads = types + more, [*heads, (head, entry.name)]
    problems += check.features(vocabulary, "features.toml")
    problems += check.catalogue(types, heads, vocabulary, denominations)
    if problems:
        raise CatalogueError("\n".join(problems))
    return types, heads, vocabulary, denominations


def _file(
    path: Path, vocabulary: Vocabulary, denominations: dict[str, Denomination], faults: list[str]
) -> tuple[list[Type], Series, Vocabulary, dict[str, Denomination]]:
    """One file, with the words and the denomination that it brings itself; data/FORMAT.md has the form."""
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError) as problem:
        faults.append(f"{path.name}: cannot be read as TOML ({problem}).")
        return [], Series("", {}, "", "", ""), vocabulary, denominations
    own = {name: table.pop(name, {}) for name in ("laws", "features")}
    words = Vocabulary(
        read.features(own["features"], path.name, faults) | vocabulary.features,
        read.laws(own["laws"], path.name, faults) | vocabulary.laws,
        vocabulary.checks,
    )
    known = dict(denominations)
    if "denomination_is" in table:
        try:
            made = built_in.from_table({"key": table["denomination"], **table["denomination_is"]}, len(known))
        except (KeyError, ValueError, TypeError) as problem:
            faults.append(f"{path.name}, denomination_is: is not complete ({problem}).")
        else:
            known.setdefault(made.key, made)
    head, types = read.series(table, path.name, words, faults)
    return types, head, words, known
