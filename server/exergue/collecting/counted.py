"""What counts as a slot: the switches of a template, and what their answers make of the types."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..coins import metal
from ..coins.model import Type
from .slots import REST


@dataclass(frozen=True)
class Switch:
    """`ask`: the question; `choices`: (answer, in words), the usual one first; `held`: what the literature says."""

    key: str
    ask: str
    choices: tuple[tuple[str, str], ...]
    held: tuple[str, ...] = ()

    @property
    def usual(self) -> str:
        return self.choices[0][0]


def within(years: Sequence[int], century: int, how: str) -> tuple[int, ...]:
    """The years in that century. how: “hundreds” 1800 to 1899, “calendar” 1801 to 1900, “either”."""
    first = 100 * (century - 1)
    first, last = {"hundreds": (first, first + 99), "calendar": (first + 1, first + 100), "either": (first, first + 100)}[how]
    return tuple(year for year in years if first <= year <= last)


def is_gold(t: Type) -> bool:
    return metal.ALLOYS[t.composition].fineness("gold") > 0


def only_proof(t: Type) -> bool:
    return set(t.years) <= set(t.proof_only)


def switches(kind: str, types: Sequence[Type], century: int = 0) -> tuple[Switch, ...]:
    """What can be chosen for a template of this kind over these types; a switch that would change nothing is left out."""
    found = []
    if kind == "dates":
        (one,) = types
        if len({(i.year, i.mint) for i in one.issues}) > len({i.year for i in one.issues}):
            found.append(Switch("mints", "Do the mints of a date count apart?",
                                (("together", "One coin of each date, of any mint"), ("apart", "One of each date and mint"))))  # fmt: skip
        if one.proof_only or any(i.proof_only for i in one.issues):
            found.append(Switch("proofs", "Dates struck in proof only?", (("out", "Left out"), ("in", "In the set"))))
        return tuple(found)
    if kind == "century":
        first = 100 * (century - 1)
        found.append(Switch("century", "Which years are of the century?", (
            (f"{century}/hundreds", f"{first} to {first + 99}"), (f"{century}/calendar", f"{first + 1} to {first + 100}"))))  # fmt: skip
    if any(map(is_gold, types)) and not all(map(is_gold, types)):
        found.append(Switch("gold", "Gold coins?", (("in", "In the set"), ("out", "Left out"))))
    if any(map(only_proof, types)) and not all(map(only_proof, types)):
        found.append(Switch("proofs", "Types struck in proof only?", (("out", "Left out"), ("in", "In the set"))))
    if any(t.single_year for t in types) and len(types) > 1:
        found.append(Switch("one-year", "Designs of one year?", (
            ("apart", "Each has its slot"), ("with", "Counted with their nearest neighbour of the same design family"), ("out", "Left out"))))  # fmt: skip
    keys = {t.key: t for t in types}
    for t in types:
        for q in t.questions:
            if q.joins in keys:
                found.append(Switch(f"{t.key}:{q.key}", f"{t.name}, {span(t)}: {_inside(q.ask)}", (
                    ("apart", "A slot of its own"), ("with", f"Counted with {keys[q.joins].name}, {span(keys[q.joins])}")), q.held))  # fmt: skip
            elif q.splits:
                named = ", ".join(name.lower() if name[1:] != name[1:].upper() else name for _, name in _parts(t, q.splits))
                found.append(Switch(f"{t.key}:{q.key}", f"{t.name}, {span(t)}: {_inside(q.ask)}", (
                    ("one", "One slot"), ("apart", f"A slot each: {named}")), q.held))  # fmt: skip
    return tuple(found)


def span(t: Type) -> str:
    return str(t.years[0]) if t.single_year else f"{t.years[0]}–{t.years[-1]}"


def _inside(ask: str) -> str:
    return ask[:1].lower() + ask[1:]


def _parts(t: Type, splits: tuple[str, ...]) -> list[tuple[str, str]]:
    """(subtype's key, name) of each slot that a question splits a type into; of one subtype: that, and the rest."""
    names = {s.key: s.name for s in t.subtypes}
    parts = [(key, names[key]) for key in splits]
    return parts if len(parts) > 1 else [(REST + splits[0], "all others"), *parts]


def kept(types: Sequence[Type], chosen: dict[str, str]) -> list[Type]:
    """The types that the general switches leave in."""
    drops = {"gold": is_gold, "one-year": lambda t: t.single_year, "proofs": only_proof}
    asked = [rule for key, rule in drops.items() if chosen.get(key) == "out"]
    found = [t for t in types if not any(rule(t) for rule in asked)]
    if "century" not in chosen:
        return found
    number, _, how = chosen["century"].partition("/")
    return [t for t in found if within(t.years, int(number), how)]


def groups(types: Sequence[Type], chosen: dict[str, str]) -> list[list[Type]]:
    """Types that count as one, together, in the order given."""
    keys = {t.key for t in types}
    lead = {t.key: t.key for t in types}

    def of(key: str) -> str:
        while lead[key] != key:
            key = lead[key]
        return key

    for t in types:
        with_ = [q.joins for q in t.questions if q.joins in keys and chosen.get(f"{t.key}:{q.key}") == "with"]
        if t.single_year and chosen.get("one-year") == "with" and not with_:
            with_ = _neighbour(t, types)
        for other in with_:
            lead[of(t.key)] = of(other)
    found: dict[str, list[Type]] = {}
    for t in types:
        found.setdefault(of(t.key), []).append(t)
    return list(found.values())


def _neighbour(t: Type, types: Sequence[Type]) -> list[str]:
    """The type with which a design of one year is counted: the one that the literature names, else the nearest in date of
    its denomination and design family; none where it stands alone."""
    keys = {other.key for other in types}
    named = [q.joins for q in t.questions if q.joins in keys]
    near = [o for o in types if o is not t and (o.denomination, o.family) == (t.denomination, t.family) and t.family]
    near.sort(key=lambda o: (min(abs(year - t.years[0]) for year in o.years), o.years[0]))
    return named[:1] or [o.key for o in near[:1]]


def parts(t: Type, chosen: dict[str, str]) -> list[tuple[str, str]]:
    """(subtype, name) of the slots of one type by the first question that is answered “apart”; none: one slot."""
    for q in t.questions:
        if q.splits and chosen.get(f"{t.key}:{q.key}") == "apart":
            return _parts(t, q.splits)
    return []
