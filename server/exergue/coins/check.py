"""What must hold in a catalogue. Each complaint names the file, the type and the field."""

from functools import lru_cache
from itertools import combinations

from exergue.coins import grades, metal
from exergue.coins.denominations import Denomination
from exergue.coins.model import ASKS, Diagnostic, Series, Type
from exergue.coins.read import Vocabulary
from exergue.coins.years import show as show_years

AXES = ("coin", "medal", "either")


def features(vocabulary: Vocabulary, file: str) -> list[str]:
    return [
        f"{file}, {f.key}, effort: should be 1, 2 or 3, not {f.effort}."
        for f in vocabulary.features.values() if f.effort not in (1, 2, 3)
    ]


def catalogue(
    types: list[Type], heads: list[tuple[Series, str]], vocabulary: Vocabulary,
    denominations: dict[str, Denomination], owners: frozenset[str] = frozenset(),
) -> list[str]:
    """Every fault of the types taken together. Types of the `owners` files need not state the core features."""
    problems: list[str] = []
    known = {t.key for t in types}
    seen: dict[str, Type] = {}
    for head, file in heads:
        if head.denomination not in denominations:
            problems.append(f"{file}, denomination: there is no denomination “{head.denomination}”.")
    for each in types:
        if each.key in seen:
            problems.append(f"{each.source}, {each.key}, key: the type already stands in {seen[each.key].source}.")
        seen.setdefault(each.key, each)
        problems += _one(each, known, vocabulary, denominations, each.source in owners)
    for denomination in dict.fromkeys(t.denomination for t in seen.values()):
        family = [t for t in seen.values() if t.denomination == denomination]
        problems += _gaps(family, [h for h in heads if h[0].denomination == denomination])
        for one, other in combinations(family, 2):
            shared = set(one.years) & set(other.years)
            if len(shared) > 1 and other.key not in one.alongside and one.key not in other.alongside:
                problems.append(
                    f"{other.source}, {other.key}, years: {show_years(shared)} are also those of {one.key}; name it"
                    " under alongside if both were struck."
                )
            if not separates(one, other):
                problems.append(
                    f"{other.source}, {other.key}, look: no diagnostic separates it from {one.key}; add one with"
                    " different values of a shared feature, or what the other shows instead."
                )
    return problems


def separates(one: Type, other: Type) -> bool:
    """Whether a look tells the two apart: it names the other, or their values of a feature have none in common."""
    if any(other.key in d.instead for d in one.looks) or any(one.key in d.instead for d in other.looks):
        return True
    mine, others = one.stated, other.stated
    return any(not mine[key] & others[key] for key in mine.keys() & others.keys())


def _one(
    t: Type, known: set[str], vocabulary: Vocabulary, denominations: dict[str, Denomination], owners: bool
) -> list[str]:
    problems: list[str] = []

    def complain(name: str, sentence: str) -> None:
        problems.append(f"{t.source}, {t.key}, {name}: {sentence}")

    denomination = denominations.get(t.denomination)
    for year in t.years:
        if denomination and not denomination.covers(year):
            complain("years", f"{year} is outside the years of the {denomination.name.lower()}.")
            break
    for name, some in (("proof_only", t.proof_only), ("proof_disputed", t.proof_disputed)):
        if set(some) - set(t.years):
            complain(name, f"{show_years(set(some) - set(t.years))} is not among its years.")
    for near in t.alongside:
        if near == t.key or near not in known:
            complain("alongside", f"“{near}” is no other type of the catalogue.")
    if t.axis not in AXES:
        complain("axis", f"should be {', '.join(AXES[:-1])} or {AXES[-1]}, not “{t.axis}”.")
    if t.composition not in metal.ALLOYS:
        complain("composition", f"there is no alloy “{t.composition}”.")
    if not 5 <= t.diameter[0] <= t.diameter[1] <= 100:
        complain("diameter_mm", "should be the least and the greatest usual diameter, from 5 to 100 mm.")
    _weights(t, vocabulary, complain)
    for name, keys in (
        ("look", [d.key for d in t.looks]), ("subtype", [s.key for s in t.subtypes]),
        ("question", [q.key for q in t.questions]), ("issue", [f"{i.year}{i.mint}" for i in t.issues]),
    ):
        for twice in sorted({key for key in keys if keys.count(key) > 1}):
            complain(name, f"“{twice}” stands twice.")
    for subtype in t.subtypes:
        if set(subtype.years) - set(t.years):
            complain(f"subtype {subtype.key}, years", "go beyond the years of the type.")
    for issue in t.issues:
        if issue.year not in t.years:
            complain("issue", f"{issue.year} is not among its years.")
        if issue.mint and issue.mint not in t.mints:
            complain("issue", f"{issue.mint} is not among its mints.")
        if issue.mintage is not None and not issue.source:
            complain("issue", f"the mintage of {issue.year} needs a source.")
    missing = set(t.years) - {i.year for i in t.issues}
    if missing:
        complain("issue", f"{show_years(missing)} has none.")
    subtypes = {s.key for s in t.subtypes}
    for question in t.questions:
        for key in question.splits:
            if key not in subtypes:
                complain(f"question {question.key}, splits", f"there is no subtype “{key}”.")
        if question.joins and (question.joins == t.key or question.joins not in known):
            complain(f"question {question.key}, joins", f"“{question.joins}” is no other type of the catalogue.")
    _shows(t, vocabulary, owners, complain)
    if not t.looks:
        complain("look", "there is nothing to look at.")
    for d in t.looks:
        _look(d, t, known, vocabulary, complain)
    return problems


def _weights(t: Type, vocabulary: Vocabulary, complain) -> None:
    for weight in t.weights:
        law = vocabulary.laws.get(weight.law)
        if law is None:
            complain("weight", f"there is no law “{weight.law}”.")
        elif weight.grains not in law.grains.get(t.denomination, ()):
            lawful = " or ".join(f"{float(w):g}" for w in law.grains.get(t.denomination, ()))
            complain(
                "weight", f"{float(weight.grains):g} grains contradicts the {law.name}, which says {lawful or 'nothing'}."
            )
        elif min(weight.years, default=9999) < int(law.key[:4]) - 1:
            complain("weight", f"{min(weight.years)} is before the {law.name}.")
        if weight.composition and weight.composition not in metal.ALLOYS:
            complain("weight, composition", f"there is no alloy “{weight.composition}”.")
        if set(weight.years) - set(t.years):
            complain("weight", f"{show_years(set(weight.years) - set(t.years))} is not among its years.")
    spoken_of = any(t.denomination in law.grains for law in vocabulary.laws.values())
    bare = set(t.years) - {year for w in t.weights for year in w.years}
    if bare and spoken_of:
        complain("weight", f"{show_years(bare)} has none.")


def _shows(t: Type, vocabulary: Vocabulary, owners: bool, complain) -> None:
    for key, values in t.shows.items():
        feature = vocabulary.features.get(key)
        if feature is None:
            complain("shows", f"there is no feature “{key}”.")
            continue
        for value in values:
            if value not in feature.values:
                complain(f"shows, {key}", f"the feature has no value “{value}”.")
    for key, feature in vocabulary.features.items():
        if feature.core and not owners and not t.stated.get(key):
            complain("shows", f"nothing is said of “{key}”, which every type states.")


def _look(d: Diagnostic, t: Type, known: set[str], vocabulary: Vocabulary, complain) -> None:
    place = f"look {d.key}"
    feature = vocabulary.features.get(d.feature)
    if feature is None:
        complain(place, f"there is no feature “{d.feature}”.")
    else:
        for value in d.values:
            if value not in feature.values:
                complain(place, f"the feature {d.feature} has no value “{value}”.")
    for near in d.instead:
        if near == t.key or near not in known:
            complain(place, f"“{near}” is no other type of the catalogue.")
    if d.asks not in ASKS:
        complain(place, f"asks should be {', '.join(ASKS[:-1])} or {ASKS[-1]}, not “{d.asks}”.")
    if d.effort not in (1, 2, 3):
        complain(place, f"effort should be 1, 2 or 3, not {d.effort}.")
    if set(d.years) - set(t.years):
        complain(place, "years go beyond the years of the type.")
    problem = _bad_grade(d.seen_at)
    if problem:
        complain(f"{place}, seen_at", problem)


@lru_cache(maxsize=256)
def _bad_grade(text: str) -> str:
    try:
        grades.parse(text)
    except grades.BadGrade as problem:
        return str(problem)
    return ""


def _gaps(family: list[Type], heads: list[tuple[Series, str]]) -> list[str]:
    """A year is struck, or it is a gap that says why; never both, never neither."""
    problems = []
    struck = {year for t in family for year in t.years}
    gaps = {year: file for head, file in heads for year in head.gaps}
    for t in family:
        both = set(t.years) & set(gaps)
        if both:
            problems.append(f"{t.source}, {t.key}, years: {show_years(both)} is a gap in {gaps[min(both)]}.")
    neither = set(range(min(struck, default=0), max(struck, default=-1) + 1)) - struck - set(gaps)
    if neither:
        file = heads[-1][1] if heads else family[-1].source
        problems.append(f"{file}, {family[0].denomination}, gaps: {show_years(neither)} is no year of a type and no gap.")
    return problems
