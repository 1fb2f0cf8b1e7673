"""Which coin a row speaks of: denomination, type, date and mint, read together."""

import re

from ...coins import denominations
from . import issue
from .cells import Cells

_DAMAGED = re.compile(r"0?[12]-(jan|feb)|(jan|feb)-0?[12]|0?[12]/0?[12]/\d{4}|4-jan|1-apr", re.IGNORECASE)
_DATED = re.compile(r"(\d{4}(?:/\d{1,4})?(?:[- ]?(?:CC|[PDSOCW])(?![A-Za-z]))?)[ ,;:]+(\S.*)", re.DOTALL)
_IDLE = {"u", "s", "us", "usa", "american", "the"}
NAMES = ("denom", "type", "title", "year", "mint", "variety")


def identify(cells: Cells, held: dict | None = None, exact: bool = False, years: tuple[int, ...] = ()) -> dict:
    """Fields denom, type, title, year, mint, variety, as far as the file has columns for them.

    `held`: the fields of the coin that is edited. `exact`: take what is written and infer nothing.
    `years`: for a row without one date, the dates that it may have.
    """
    held = held or {}
    found: dict = {}
    date, words = ("", cells.text("title", 120)) if exact or held or cells.filled("year") else _dated(cells)
    _date(cells, held, found, exact, date)
    year = found.get("year", held.get("year"))
    denom = _denomination(cells, held, found, year, exact)
    _type(cells, found, denom, (year,) if year is not None else years, words)
    if denom and found.get("title") and not exact and not held and not cells.filled("type"):
        _type_within(cells, found, denom, year)
    denom = denom or found.get("denom") or ""
    whole = {name: held.get(name) for name in NAMES} | found
    if whole.get("type"):
        never = _catalogue(cells).check_date(whole["type"], year, whole.get("mint") or "")
        if never:
            cells.error("year" if cells.has("year") else "type", never)
    elif denom and year is not None and not exact:
        _by_date(cells, found, denom, year)
    return found


def _dated(cells: Cells) -> tuple[str, str]:
    """The date before a description such as "1806 half cent, Draped Bust", and the rest of it."""
    title = cells.text("title", 120)
    match = _DATED.fullmatch(title) if cells.has("title") else None
    return (match[1], match[2]) if match else ("", title)


def _date(cells: Cells, held: dict, found: dict, exact: bool, described: str) -> None:
    year, mark, variety = held.get("year"), "", ""
    if cells.has("year") or described:
        text = cells.raw("year") or described
        try:
            year, mark, variety = issue.parse(text) if text else issue.Issue(None, "", "")
        except issue.BadIssue as problem:
            cells.error("year", str(problem))
        found["year"] = year
    if cells.has("mint"):
        try:
            written = issue.mint(cells.raw("mint")) if cells.raw("mint") else ""
        except issue.BadIssue as problem:
            return cells.error("mint", str(problem))
        if mark and written and mark != written:
            cells.error("mint", f"“{cells.raw('mint')}” does not fit the date “{cells.raw('year')}”.")
        found["mint"] = written or mark
    elif mark:
        found["mint"] = mark
    if found.get("mint") and not exact:
        found["mint"] = issue.drop_early_p(year, found["mint"])
    if cells.has("variety"):
        written = cells.text("variety", 120)
        found["variety"] = (written if variety in written else f"{variety}, {written}" if written else variety)[:120]
    elif variety:
        found["variety"] = variety


def _denomination(cells: Cells, held: dict, found: dict, year: int | None, exact: bool) -> str:
    """Key of the denomination, or "" where it is not known; also puts it in `found`."""
    if not cells.has("denom"):
        denom = held.get("denom") or ""
        if not denom and not exact:
            denom = found["denom"] = _denomination_within(cells, year)
        return denom
    text = cells.raw("denom")
    if not text:
        found["denom"] = "" if exact else _denomination_within(cells, year)
        return found["denom"]
    known = _catalogue(cells).denominations
    named = [d for d in known.values() if text.casefold() == d.name.casefold()]
    fitting = named or denominations.candidates(text, year, known)
    if _DAMAGED.fullmatch(text) or text in ("1/2", "\u00bd", "1/4", "\u00bc"):
        cells.error("denom", f"“{text}” is a fraction, or what a spreadsheet made of one; write half cent or half dollar.")
    elif len(fitting) > 1:
        cells.error("denom", f"“{text}” could be {_either([d.name for d in fitting])}; write which.")
    elif fitting:
        found["denom"] = fitting[0].key
        if year is not None and not fitting[0].covers(year) and not _catalogue(cells).of(fitting[0].key):
            cells.warn("year", f"{fitting[0].plural.capitalize()} were struck in other years than {year}.")
    elif inner := "" if exact else _denomination_in(cells, text, year):
        cells.warn("denom", f"“{text}” is read as {known[inner].name}.")
        found["denom"] = inner
        found["title"] = "" if _words(text) <= _IDLE | _words(" ".join((known[inner].name, *known[inner].said))) else text
    else:
        cells.warn("denom", f"“{text}” is no denomination known here; it is kept as the title.")
        found["denom"], found["title"] = "", text
    return found.get("denom", "")


def _denomination_within(cells: Cells, year: int | None) -> str:
    return _denomination_in(cells, cells.raw("title") or cells.raw("type"), year)


def _denomination_in(cells: Cells, text: str, year: int | None) -> str:
    """The denomination named in a description such as "1806 half cent, Draped Bust"; the longest name wins.

    Where it names a country, a coin of that country or none: "Canada 10 cents" is no dime.
    """
    country = denominations.country_named(text)
    words = [word for word in re.sub(r"[(),;]", " ", text).split() if not re.fullmatch(r"(1[5-9]|20)\d\d", word)]
    for length in (3, 2, 1):
        for at in range(len(words) - length + 1):
            piece = " ".join(words[at : at + length]).strip(",;.")
            if re.search(r"[^\W\d_]|\$", piece):
                fitting = denominations.candidates(piece, year, _catalogue(cells).denominations)
                if len(fitting) == 1 and country in (None, fitting[0].country):
                    return fitting[0].key
    return ""


def _words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.casefold()))


def _type_within(cells: Cells, found: dict, denom: str, year: int | None) -> None:
    """A description that says no more than denomination and type is the type."""
    fitting = _types(cells, found["title"], denom, (year,) if year is not None else ())
    if len(fitting) == 1:
        found["type"], found["title"] = fitting[0].key, ""


def _type(cells: Cells, found: dict, denom: str, years: tuple[int, ...], title: str) -> None:
    """The catalogue's type, or the text as the title where the catalogue has none of that name."""
    kept = [found.pop("title")] if "title" in found else []
    if cells.has("type"):
        text = cells.text("type", 120)
        unknown = not denom and cells.filled("denom")
        fitting = _types(cells, text, denom, years) if text and not unknown else []
        found["type"] = fitting[0].key if len(fitting) == 1 else ""
        if found["type"] and not denom:
            found["denom"] = fitting[0].denomination
        if len(fitting) > 1:
            kept.append(text)
            cells.warn("type", f"“{text}” could be {_either([_title(cells, t) for t in fitting])}; it is kept as the title until you say which.")
        elif text and not fitting:
            kept.append(text)
            if denom and _catalogue(cells).of(denom):
                cells.warn("type", f"The catalogue has no such type of this denomination; “{text}” is kept as the title.")
    if cells.has("title") or kept:
        kept = [text for text in kept if text and text.casefold() not in title.casefold()]
        found["title"] = ", ".join(filter(None, [*kept, title]))[:120]


def _types(cells: Cells, text: str, denom: str, years: tuple[int, ...]) -> list:
    """Types that the text names: by key, or by name within the denomination, or within all where it is not known."""
    catalogue = _catalogue(cells)
    if text in catalogue.types:
        return [catalogue.types[text]]
    year = years[0] if len(years) == 1 else None
    within = [denom] if denom else list(catalogue.series)
    fitting = cells.situation.once(
        (denom, text, year), lambda: [found for key in within for found in catalogue.find_type(key, text, year)]
    )
    return [t for t in fitting if set(years) & set(t.years)] or fitting


def _by_date(cells: Cells, found: dict, denom: str, year: int) -> None:
    """A date that belongs to one type only says which; one of several, or of none, is told."""
    catalogue = _catalogue(cells)
    types = catalogue.of(denom)
    fitting = [t for t in types if year in t.years]
    column = "type" if cells.has("type") else "year"
    if len(fitting) == 1 and not found.get("title"):
        found["type"] = fitting[0].key
        cells.tell(column, f"{fitting[0].name}, by the date: no other type of this denomination is dated {year}.")
    elif len(fitting) > 1 and not found.get("title"):
        cells.warn(column, f"{year} is the date of {_either([t.name for t in fitting], 'and')}; say which in the type.")
    elif types and not fitting and _whole_series(catalogue.series[denom], types, year):
        cells.error("year", catalogue.check_date(types[0].key, year))


def _whole_series(series, types: list, year: int) -> bool:
    """Whether the catalogue knows why nothing of this denomination has that date."""
    first, last = min(min(t.years) for t in types), max(max(t.years) for t in types)
    return year in series.gaps or year < first and bool(series.begun) or year > last and bool(series.ended)


def _catalogue(cells: Cells):
    return cells.situation.view.catalogue()


def _title(cells: Cells, one) -> str:
    return _catalogue(cells).title(one.key)


def _either(names: list[str], word: str = "or") -> str:
    quoted = [f"“{name}”" for name in dict.fromkeys(names)]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} {word} {quoted[-1]}"
