"""Rows of wants, shows and past sales."""

import re
import uuid

from ...coins import grades
from ...coins import years as spans
from ..uuid7 import is_uuid
from . import about
from .cells import Cells
from .coin_rows import changes, headline
from .draft import CHANGE, NEW, REFUSED, SAME
from .present import Evidences

_PRIORITY = {
    "": "usual", "usual": "usual", "normal": "usual", "medium": "usual", "2": "usual", "b": "usual",
    "high": "high", "urgent": "high", "top": "high", "1": "high", "a": "high",
    "low": "low", "someday": "low", "3": "low", "c": "low",
}  # fmt: skip
_BETTER = re.compile(r"(.+?)\s*(?:\+\+|or better|and up|or higher|and better|up)", re.IGNORECASE)
_BETWEEN = re.compile(r"\s*(?:\bto\b|\bthru\b|\bthrough\b|\u2013|\u2014|/|\.\.)\s*|\s+-\s+|-", re.IGNORECASE)


# --- wants ----------------------------------------------------------------------------------------


def read_want(cells: Cells) -> None:
    text, dates = _years(cells)
    found = about.identify(_WithoutYear(cells), exact=cells.filled("id"), years=dates)
    fields = {name: found[name] for name in ("denom", "type", "title") if name in found}
    if cells.has("years") or found.get("year"):
        fields["years"] = text or str(found.get("year") or "")
        _struck(cells, fields.get("type") or "", dates)
    fields |= _grades(cells)
    if cells.has("ceiling"):
        fields["ceiling"] = cells.amount("ceiling")
    if cells.has("priority"):
        said = cells.raw("priority").lower()
        if said not in _PRIORITY:
            cells.error("priority", f"“{cells.raw('priority')}” is none of high, usual and low.")
        fields["priority"] = _PRIORITY.get(said, "usual")
    if cells.has("note"):
        fields["note"] = cells.text("note", 2000, lines=True)
    cells.row.title = " ".join(filter(None, [fields.get("years"), headline(cells, fields)]))
    if not any(fields.get(name) for name in ("denom", "type", "title")):
        cells.error("", "Nothing says what is wanted.")
    _list_row(cells, "want", fields, cells.situation.view.wants)


class _WithoutYear(Cells):
    """The same row as `identify` reads it for a want, whose years are a range."""

    def __init__(self, cells: Cells):
        super().__init__(cells.situation, cells.row, cells._cells)

    def has(self, name: str) -> bool:
        return name not in ("year", "mint", "variety") and super().has(name)


def _years(cells: Cells) -> tuple[str, tuple[int, ...]]:
    """The text to keep, and the years it holds; none where it is free text such as "1794 or later"."""
    text = re.sub(r"[\u2013\u2014]", "-", cells.text("years", 40))
    if text.lower() in ("any", "any date", "all"):
        return "", ()
    try:
        return text, spans.parse(text) if text else ()
    except ValueError:
        return text, ()


def _struck(cells: Cells, type_key: str, dates: tuple[int, ...]) -> None:
    """Refuse a want for dates of which none was struck."""
    catalogue = cells.situation.view.catalogue()
    never = [catalogue.check_date(type_key, year) for year in dates] if type_key else []
    if never and all(never):
        cells.error("years", never[0])


def _grades(cells: Cells) -> dict:
    """grade_from and grade_to, from their own columns or from one with a range such as "VF-20 to EF-40"."""
    found = {name: cells.grade(name) for name in ("grade_from", "grade_to") if cells.has(name)}
    if cells.has("grade") and not any(found.values()):
        text = cells.raw("grade")
        if better := _BETTER.fullmatch(text):
            text = better[1]
        try:
            found["grade_from"] = str(grades.parse(text)) if cells.filled("grade") else ""
        except grades.BadGrade as problem:
            if pair := _range(text):
                found |= {"grade_from": pair[0], "grade_to": pair[1]}
            else:
                cells.error("grade", str(problem))
    if found.get("grade_from") and found.get("grade_to"):
        low, high = grades.parse(found["grade_from"]), grades.parse(found["grade_to"])
        if low.number > high.highest:
            cells.error("grade_to", f"{high} is below {low}.")
    return found


def _range(text: str) -> tuple[str, str] | None:
    """Two grades with a sign between; a hyphen inside "VF-20" is none."""
    for match in _BETWEEN.finditer(text):
        try:
            low, high = grades.parse(text[: match.start()]), grades.parse(text[match.end() :])
        except grades.BadGrade:
            continue
        return (str(low), str(high)) if low.number <= high.highest else (str(high), str(low))
    return None


# --- shows ----------------------------------------------------------------------------------------


def read_show(cells: Cells) -> None:
    fields = {name: cells.text(name, most, lines=name == "note") for name, most in
              (("name", 120), ("place", 120), ("table", 40), ("note", 2000)) if cells.has(name)}  # fmt: skip
    fields |= {name: cells.day(name) for name in ("starts", "ends") if cells.has(name)}
    if cells.has("float"):
        fields["float"] = cells.amount("float")
    if fields.get("starts") and fields.get("ends", "") and fields["ends"] < fields["starts"]:
        cells.error("ends", "The show ends before it starts.")
    if not fields.get("name"):
        cells.error("name", "A show needs a name.")
    cells.row.title = " ".join(filter(None, [fields.get("name"), fields.get("starts")]))
    _list_row(cells, "show", fields, cells.situation.view.shows, alike=("name", "starts"))


def _list_row(cells: Cells, what: str, fields: dict, listing, alike: tuple[str, ...] = ()) -> None:
    """A want or show: an edit of one that the book has (by number, or `alike` fields), or a new one."""
    held = cells.situation.once(what, listing)
    taken = cells.situation.seen_ids
    key = cells.raw("id")
    if key and not is_uuid(key):
        cells.error("id", f"“{key}” is no number that this book gave; leave it empty for a new {what}.")
    if key and key in taken:
        cells.error("id", "This number stands in an earlier row of this file too.")
    if not key:
        names = alike or tuple(fields)
        same = [k for k, other in held.items() if k not in taken and all(_same(fields, other, n) for n in names)]
        key = same[0] if same else str(uuid.uuid4())
    taken.add(key)
    if cells.row.fate == REFUSED:
        return
    if key not in held:
        given = {name: value for name, value in fields.items() if value not in (None, "")}
        cells.row.facts.append((f"{what}.add", {what: key, "set": given}))
        cells.row.fate = NEW
        return
    differs = changes(cells, held[key], fields)
    if differs:
        base = {name: held[key][name] for name in differs}
        cells.row.facts.append((f"{what}.edit", {what: key, "base": base, "set": differs}))
    cells.row.fate = CHANGE if differs else SAME


def _same(fields: dict, other: dict, name: str) -> bool:
    a, b = fields.get(name), other.get(name)
    return a.casefold() == b.casefold() if isinstance(a, str) and isinstance(b, str) else (a or None) == (b or None)


# --- past sales -----------------------------------------------------------------------------------


def read_evidence(cells: Cells) -> None:
    fields = about.identify(cells, exact=cells.filled("id"))
    fields.pop("variety", None)
    fields["grade"] = cells.grade("grade")
    fields["date"], fields["price"] = cells.day("date"), cells.amount("price")
    fields |= {name: cells.flag(name) for name in ("fee_included", "problem")}
    fields["source"] = cells.text("source", 120)
    cells.row.title = headline(cells, fields)
    for name, why in (("date", "A past sale needs its day."), ("price", "A past sale needs its price.")):
        if fields[name] in (None, "") and not any(m.level == "error" for m in cells.row.messages):
            cells.error(name, why)
    if not any(fields.get(name) for name in ("denom", "type", "title")):
        cells.error("", "Nothing says which coin was sold.")
    if cells.row.fate == REFUSED:
        return
    known = cells.situation.once("evidence", cells.situation.view.evidence)
    given = {name: value for name, value in fields.items() if value not in (None, "")}
    key = Evidences.key(given)
    if cells.raw("id") in known.ids:
        cells.row.fate = SAME
    elif not cells.filled("id") and known.alike[key] > 0:
        known.alike[key] -= 1
        cells.row.fate = SAME
    else:
        cells.row.facts.append(("sale.seen", {"set": given}))
        cells.row.fate = NEW
