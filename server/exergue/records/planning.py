"""What a plan is made from: the open slots of a set, or the want list, with prices by recorded sales or ceilings.

Runs inside `book.connected()`; `settings` and `today` as for worth.py. Prices are the middle of the estimate. A slot that
asks for certain dates is priced by sales of those dates alone: what other dates sold for says nothing of a rare one.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from ..coins import grades, years
from ..collecting import filling
from ..collecting.plan import Option, Sought
from ..collecting.slots import BadSlot, Slot, read
from ..money.sales import Sale, Target
from . import goals, reading, worth
from .knowledge import catalogue, type_name
from .tables import Goal

FEW_YEARS = 3  # a slot of so many dates asks for certain dates
MOST_ISSUES = 12  # dates of a type that are priced apart, those with most sales


Issues = dict[str, list[tuple[int, str]]]  # type → the dates and mints of it that have sales of their own, most first


def of_set(key: str, settings: dict, today: date, upgrades: bool = False) -> list[Sought]:
    """Its open slots, and with `upgrades` those that a better coin could fill; a want for a slot lends ceiling, priority
    and window. Empty where there is no such set."""
    goal = Goal.get_or_none(Goal.id == key)
    if goal is None:
        return []
    made, found, pieces, _ = goals.fill(goal.slots)
    wants = {want["slot"]: want for want in reading.wants() if want.get("goal") == key}
    asked = _sales(settings, today)
    sought = []
    for slot in made:
        has = pieces[found.filled[slot.key]].grade if slot.key in found.filled else ""
        if slot.key not in found.filled or (upgrades and slot.key in found.upgrades):
            sought.append(_sought(slot.key, slot.title, slot, wants.get(slot.key), has, asked, settings, today))
    return sought


def of_wants(settings: dict, today: date) -> list[Sought]:
    """Every want that is open. One that is for a slot of a set accepts what the slot does."""
    asked, sets, sought = _sales(settings, today), {}, []
    for want in reading.wants():
        goal = want.get("goal")
        if goal and goal not in sets:
            row = Goal.get_or_none(Goal.id == goal)
            sets[goal] = goals.fill(row.slots) if row else None
        slot, has = _slot(want), ""
        if goal and sets[goal]:
            made, found, pieces, _ = sets[goal]
            held = next((one for one in made if one.key == want.get("slot")), None)
            if held:
                slot, has = held, pieces[found.filled[held.key]].grade if held.key in found.filled else ""
        title = f"{want['title']}, {want['years']}" if want["years"] else want["title"]
        sought.append(_sought(want["id"], title, slot, want, has, asked, settings, today))
    return sought


def _slot(want: dict) -> Slot:
    """What a want accepts; no types where it names none."""
    types = want.get("types") or ([want["type"]] if want["type"] else [])
    row = {"key": want["id"], "title": want["title"], "types": types}
    try:
        return read(row | {"years": want["years"]})
    except BadSlot:  # free text such as “1794 or later”, or no type
        return Slot(want["id"], want["title"], tuple(types))


def _sought(key, title, slot: Slot, want: dict | None, has: str, asked: Issues, settings: dict, today: date) -> Sought:
    ceiling, priority = None, "usual"
    if want:
        ceiling, priority = want["own"]["ceiling"], want["priority"]
        window = {name: want[name] for name in ("grade_from", "grade_to") if want[name]}
        if not _crossed({"grade_from": slot.grade_from, "grade_to": slot.grade_to} | window):
            slot = replace(slot, **window)
    options = _options(slot, asked, settings, today)
    if not options and ceiling is not None:
        lowest = filling.rungs(slot)[:1] if slot.grade_from or slot.grade_to else []
        options = [Option(lowest[0] if lowest else "", ceiling, "ceiling")]
    return Sought(key, title, slot, priority, has, ceiling, tuple(options))


def _crossed(window: dict) -> bool:
    low, high = window["grade_from"], window["grade_to"]
    return bool(low and high and grades.parse(low).number > grades.parse(high).number)


def issues(sales: Iterable[Sale]) -> Issues:
    """The dates and mints that these sales speak of, type by type."""
    counts: dict[str, Counter] = {}
    for sale in sales:
        counts.setdefault(sale.type, Counter())[sale.issue] += 1
    return {key: [issue for issue, _ in found.most_common() if issue[0] is not None] for key, found in counts.items()}


def _sales(settings: dict, today: date) -> Issues:
    return issues(worth.market(settings, today).sales)


def targets(slot: Slot, asked: Issues) -> list[Target]:
    """What prices of a slot are asked of: every date that sales speak of, and a usual date where any will do."""
    struck = years.parse(slot.years) if slot.years else ()
    certain = bool(slot.issues or slot.mints or slot.subtype or 0 < len(struck) <= FEW_YEARS)
    designation = "PF" if slot.strike == "proof" else ""
    found = []
    for key in (key for key in slot.types if key in asked and key in catalogue().types):
        dates = [] if certain else [(None, "")]
        dates += [issue for issue in asked[key] if _asks_for(slot, struck, *issue)][:MOST_ISSUES]
        if slot.subtype:  # recorded sales do not say which division of a type was sold
            dates = []
        found += [Target(key, year, mint, designation, False) for year, mint in dates]
    return found


def all_targets(asked: Issues, wants: list[dict], sets: list[dict]) -> list[Target]:
    """What any plan of these cards asks prices of: each want, and each slot that is open, wanted or could be bettered."""
    wanted = {(want.get("goal"), want.get("slot")) for want in wants}
    rows = [row for one in sets for row in one["slots"]
            if "coin" not in row or "upgrade" in row or (one["id"], row["key"]) in wanted]  # fmt: skip
    return [target for slot in (*map(_slot, wants), *goals.slots_of(rows)) for target in targets(slot, asked)]


def _options(slot: Slot, asked: Issues, settings: dict, today: date) -> list[Option]:
    """Every grade of the window at each target."""
    grades_of = {grades.parse(text).number: text for text in filling.rungs(slot)}
    found = []
    for target in targets(slot, asked):
        issue = named(target.year, target.mint)
        for row in worth.table(target, settings, today).rows:
            if row.mid is not None and row.grade in grades_of:
                found.append(Option(grades_of[row.grade], row.mid, "estimate", target.type, issue, row.sales, row.last.isoformat()))
    return found


def named(year: int | None, mint: str) -> str:
    """A date and mint as plans and phones write it: “1806”, “1909-S”, "" for a usual date."""
    return "" if year is None else f"{year}-{mint}" if mint else str(year)


def _asks_for(slot: Slot, struck: tuple[int, ...], year: int, mint: str) -> bool:
    fits = (not slot.mints or mint in slot.mints) and (not slot.issues or named(year, mint) in slot.issues)
    return fits and (not struck or year in struck)


def bought(option: Option) -> str:
    """What of a want is to be bought: “1806 Draped Bust” or “Draped Bust, a usual date”."""
    name = type_name(option.type)
    return f"{option.issue} {name}".strip() if option.issue else f"{name}, a usual date" if name else ""
