"""Sets made from the catalogue: one of each type of a denomination, a series, a design family or a century, or one of
each date of a type. What the literature has not settled is a switch, and so is what many leave out.

A template is named by a text: `denomination/dime`, `series/dime/Seated Liberty`, `family/US/Seated Liberty`,
`century/US/19`, `dates/dime/barber`.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..coins.catalogue import Catalogue
from ..coins.model import Type
from ..coins.years import runs
from . import counted
from .counted import Switch
from .slots import Slot

YEARS_LENGTH = 40  # of a slot's years, as the book keeps them
TEXT_LENGTH = 200


class BadTemplate(ValueError):
    """No such template, or no such answer to one of its switches."""


@dataclass(frozen=True)
class Template:
    """`types`: whose slots it may have, in the catalogue's order; `title`: for people; `switches`: what can be chosen."""

    text: str
    title: str
    types: tuple[Type, ...]
    switches: tuple[Switch, ...]


def find(catalogue: Catalogue, text: str) -> Template:
    """The template of that name. Raises BadTemplate."""
    kind, _, subject = text.partition("/")
    country, _, name = subject.partition("/")
    kinds = catalogue.denominations
    if kind == "denomination":
        types, title = catalogue.of(subject), kinds[subject].plural if subject in kinds else ""
        title = f"{title[:1].upper()}{title[1:]} by type"
    elif kind == "series":
        types = [t for t in catalogue.of(country) if t.family == name]
        title = f"{name} {kinds[country].plural} by type" if types else ""
    elif kind == "family":
        types = [t for t in _of(catalogue, country) if t.family == name]
        title = f"{name} by type"
    elif kind == "century" and name.isdecimal():
        types = [t for t in _of(catalogue, country) if counted.within(t.years, int(name), "either")]
        title = f"Types of the {ordinal(int(name))} century"
    elif kind == "dates":
        types = [catalogue.types[subject]] if subject in catalogue.types else []
        title = f"{catalogue.title(subject)}, by date" if types else ""
    else:
        types = []
    if not types:
        raise BadTemplate(f"There is no template “{text}”; choose one of the list.")
    return Template(text, title, tuple(types), counted.switches(kind, types, int(name) if kind == "century" else 0))


def _of(catalogue: Catalogue, country: str) -> list[Type]:
    return [t for t in catalogue.types.values() if catalogue.denominations[t.denomination].country == country]


def ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def offered(catalogue: Catalogue) -> dict[str, list[tuple[str, str]]]:
    """{kind: [(template, what it is about)]} of all that can be made; dates of one type are left to the type's page."""
    found: dict[str, list[tuple[str, str]]] = {"century": [], "denomination": [], "series": [], "family": []}
    denominations = {t.denomination: catalogue.denominations[t.denomination] for t in catalogue.types.values()}
    for key, one in denominations.items():
        found["denomination"].append((f"denomination/{key}", one.name))
        for family in dict.fromkeys(t.family for t in catalogue.of(key) if t.family):
            if sum(t.family == family for t in catalogue.of(key)) > 1:
                found["series"].append((f"series/{key}/{family}", f"{family} {one.plural}"))
    for country in dict.fromkeys(one.country for one in denominations.values()):
        types = _of(catalogue, country)
        for family in dict.fromkeys(t.family for t in types if t.family):
            if len({t.denomination for t in types if t.family == family}) > 1:
                found["family"].append((f"family/{country}/{family}", f"{family} ({country})"))
        first, last = min(t.years[0] for t in types), max(t.years[-1] for t in types)
        for number in range(first // 100 + 1, last // 100 + 2):
            found["century"].append((f"century/{country}/{number}", f"{ordinal(number)} century ({country})"))
    return found


def slots(catalogue: Catalogue, template: Template, answers: dict[str, str] | None = None, **wish) -> list[Slot]:
    """The slots, in the catalogue's order. `answers`: {switch: choice}, the usual one where none is given. `wish`: what
    every slot asks for: grade_from, grade_to, strike, problem_free. Raises BadTemplate for an answer that is not offered."""
    chosen = settled(template, answers or {})
    if template.text.startswith("dates/"):
        made = _dates(template.types[0], chosen)
    else:
        one = len({t.denomination for t in template.types}) == 1
        name = {t.key: t.name if one else catalogue.title(t.key) for t in template.types}
        kept = counted.kept(template.types, chosen)
        groups = counted.groups(kept, chosen)
        made = [slot for group in groups for slot in _of_group(group, name, chosen)]
    return [replace(slot, **wish) for slot in made]


def settled(template: Template, answers: dict[str, str]) -> dict[str, str]:
    """Every switch with its answer. Raises BadTemplate."""
    chosen = {}
    for switch in template.switches:
        answer = answers.get(switch.key) or switch.usual
        if answer not in dict(switch.choices):
            raise BadTemplate(f"“{answer}” is no answer to: {switch.ask}")
        chosen[switch.key] = answer
    return chosen


def text(template: Template, answers: dict[str, str]) -> str:
    """The template and its switches where they are not as usual, in at most 200 characters."""
    said = settled(template, answers)
    other = [f"{s.key}={said[s.key]}" for s in template.switches if said[s.key] != s.usual]
    whole = "; ".join([template.text, *other])
    return whole if len(whole) <= TEXT_LENGTH else whole[: TEXT_LENGTH - 1] + "…"


def _of_group(group: Sequence[Type], name: dict[str, str], chosen: dict[str, str]) -> list[Slot]:
    """The slots of types that are counted as one: one, or more where a division of the type is counted apart."""
    lead = max(group, key=lambda t: (len(t.years), -t.years[0]))
    also = [name[t.key] for t in group if t is not lead]
    century = chosen.get("century")
    struck = tuple(sorted({year for t in group for year in t.years}))
    inside = counted.within(struck, *_number(century)) if century else struck
    base = Slot(lead.key, name[lead.key], tuple(t.key for t in group), "" if inside == struck else spanned(inside),
                note=f"Counted with it: {'; '.join(also)}." if also else "")  # fmt: skip
    parts = counted.parts(lead, chosen) if len(group) == 1 else []
    made = []
    for key, title in parts:
        years = next((s.years for s in lead.subtypes if s.key == key), lead.years)
        if not century or counted.within(years, *_number(century)):
            made.append(replace(base, key=f"{lead.key}#{key}", title=f"{base.title}, {title}", subtype=key))
    return made or [base]


def _number(choice: str) -> tuple[int, str]:
    number, _, how = choice.partition("/")
    return int(number), how


def spanned(years: Sequence[int]) -> str:
    """Years as text, from first to last where a list of them would be too long."""
    text = runs(years)
    return text if len(text) <= YEARS_LENGTH else f"{years[0]}-{years[-1]}"


def _dates(t: Type, chosen: dict[str, str]) -> list[Slot]:
    proofs = chosen.get("proofs") == "in"
    issues = [i for i in t.issues if proofs or not (i.proof_only or i.year in t.proof_only)]
    if chosen.get("mints") != "apart":
        return [Slot(f"{t.key}@{year}", str(year), (t.key,), str(year)) for year in sorted({i.year for i in issues})]
    written = [f"{i.year}-{i.mint}" if i.mint else str(i.year) for i in issues]
    return [Slot(f"{t.key}@{each}", each, (t.key,), issues=(each,)) for each in dict.fromkeys(written)]
