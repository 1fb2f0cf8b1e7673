"""A catalogue file, already parsed from TOML, turned into the values of model.py.

Nothing is raised for bad data: every complaint is added to `problems`, naming file, type and field.
"""

from dataclasses import dataclass, field
from fractions import Fraction

from exergue.coins import metal, words
from exergue.coins.fields import Fields
from exergue.coins.model import (
    Diagnostic, Feature, Issue, Law, Question, Series, Subtype, Type, Weight,
)
from exergue.coins.years import parse as parse_years


@dataclass
class Vocabulary:
    """What every file may refer to: features, laws, and checks that many types share."""

    features: dict[str, Feature] = field(default_factory=dict)
    laws: dict[str, Law] = field(default_factory=dict)
    checks: dict[str, dict] = field(default_factory=dict)


def features(table: object, file: str, problems: list[str]) -> dict[str, Feature]:
    found = {}
    for key, entry in Fields(table, file, problems).left.items():
        f = Fields(entry, f"{file}, {key}", problems)
        found[key] = Feature(
            key, f.text("name"), f.text("look"), dict(f.table("values")), f.whole("effort"), f.share("error", None),
            f.text("seen_at", "G-4"), f.flag("core"),
        )
        f.done()
    return found


def laws(table: object, file: str, problems: list[str]) -> dict[str, Law]:
    found = {}
    for key, entry in Fields(table, file, problems).left.items():
        f = Fields(entry, f"{file}, {key}", problems)
        grains: dict[str, tuple[Fraction, ...]] = {}
        for unit, of in (("grains", Fraction(1)), ("grams", metal.GRAMS_IN_GRAIN)):
            weights = Fields(f.table(unit), f"{file}, {key}, {unit}", problems)
            for denomination in list(weights.left):
                grains[denomination] = grains.get(denomination, ()) + tuple(
                    weight / of for weight in weights.fractions(denomination)
                )
        allowed = Fields(f.table("tolerance"), f"{file}, {key}, tolerance", problems)
        tolerance = {denomination: allowed.fraction(denomination) for denomination in list(allowed.left)}
        found[key] = Law(key, f.text("name"), f.text("cite"), f.text("says", ""), grains, tolerance)
        f.done()
    return found


def series(table: dict, file: str, vocabulary: Vocabulary, problems: list[str]) -> tuple[Series, list[Type]]:
    """The whole file: what it says of its denomination, and its types in order."""
    f = Fields(table, file, problems)
    denomination = f.text("denomination")
    gaps = {}
    for span, why in f.table("gaps").items():
        try:
            gaps.update(dict.fromkeys(parse_years(span), str(why)))
        except ValueError as problem:
            f.complain("gaps", str(problem))
    head = Series(denomination, gaps, f.text("ended", ""), f.text("begun", ""), f.text("mint_note", ""))
    f.table("denomination_is")  # taken by the catalogue before this
    types = [_type(entry, denomination, file, vocabulary, problems) for entry in f.tables("type")]
    f.done()
    return head, types


def _type(entry: dict, denomination: str, file: str, vocabulary: Vocabulary, problems: list[str]) -> Type:
    slug = entry.get("key", "") if isinstance(entry, dict) else ""
    place = f"{file}, {denomination}/{slug}"
    f = Fields(entry, place, problems)
    f.text("key")
    years, proof_only = f.years("years"), f.years("proof_only", "")
    least, greatest = f.texts("diameter_mm", True)[:2] or ("1", "1")
    weights = tuple(_weight(w, f"{place}, weight", problems) for w in f.tables("weight"))
    diameter = (_millimetres(least, f), _millimetres(greatest, f))
    said = words.of(f.left.get("composition"), diameter, weights)
    looks = [_look(d, place, denomination, vocabulary, said, problems) for d in f.tables("look")]
    for name in f.texts("checks"):
        if name in vocabulary.checks:
            looks.append(shared_check(name, vocabulary, said, place, denomination, problems))
        else:
            f.complain("checks", f"there is no shared check “{name}”.")
    made = Type(
        key=f"{denomination}/{slug}", denomination=denomination, name=f.text("name"), said=f.texts("said"),
        years=years, proof_only=proof_only,
        proof_disputed=f.years("proof_disputed", ""), mints=f.texts("mints"), designer=f.text("designer", ""),
        obverse=f.text("obverse"), reverse=f.text("reverse"), edge=f.text("edge"), axis=f.text("axis"),
        composition=f.text("composition"), diameter=diameter, weights=weights,
        subtypes=tuple(_subtype(s, f"{place}, subtype", problems) for s in f.tables("subtype")),
        questions=tuple(_question(q, f"{place}, question", denomination, problems) for q in f.tables("question")),
        issues=_issues(f, place, proof_only, problems),
        looks=tuple(looks), source=file, family=f.text("family", ""), survivors=f.whole("survivors", 0),
        shows=_shows(f, place, problems),
        alongside=tuple(near if "/" in near else f"{denomination}/{near}" for near in f.texts("alongside")),
    )
    f.done()
    return made


def shared_check(
    name: str, vocabulary: Vocabulary, said: dict[str, str], place: str, denomination: str, problems: list[str]
) -> Diagnostic:
    """A look of checks.toml with the words of a type put in; without words its marks stay."""
    return _look(vocabulary.checks[name], place, denomination, vocabulary, said, problems, name)


def _millimetres(text: str, f: Fields) -> Fraction:
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        f.complain("diameter_mm", f"“{text}” is no number of millimetres.")
        return Fraction(1)


def _weight(entry: dict, place: str, problems: list[str]) -> Weight:
    f = Fields(entry, place, problems)
    grains = f.fraction("grams") / metal.GRAMS_IN_GRAIN if "grams" in f.left else f.fraction("grains")
    made = Weight(f.years("years"), grains, f.text("law"), f.text("note", ""), f.text("composition", ""))
    f.done()
    return made


def _subtype(entry: dict, place: str, problems: list[str]) -> Subtype:
    f = Fields(entry, place, problems)
    made = Subtype(f.text("key"), f.text("name"), f.years("years"), f.text("marks"), f.text("note", ""), f.flag("whole"))
    f.done()
    return made


def _question(entry: dict, place: str, denomination: str, problems: list[str]) -> Question:
    f = Fields(entry, place, problems)
    joins = f.text("joins", "")
    made = Question(
        f.text("key"), f.text("ask"), f.texts("held", True), f.texts("splits"),
        joins if "/" in joins or not joins else f"{denomination}/{joins}",
    )
    f.done()
    return made


def _issues(f: Fields, place: str, proof_only: tuple[int, ...], problems: list[str]) -> tuple[Issue, ...]:
    """The issues told in full, and those that `struck` only names: mint mark → years; `-` is no mark."""
    told = [_issue(i, f"{place}, issue", proof_only, problems) for i in f.tables("issue")]
    known = {(i.year, i.mint) for i in told}
    struck = Fields(f.table("struck"), f"{place}, struck", problems)
    for mark in list(struck.left):
        mint = "" if mark == "-" else mark
        told += [Issue(y, mint, proof_only=y in proof_only) for y in struck.years(mark) if (y, mint) not in known]
    return tuple(sorted(told, key=lambda i: (i.year, i.mint)))


def _shows(f: Fields, place: str, problems: list[str]) -> dict[str, tuple[str, ...]]:
    """feature → values; one value may stand without brackets."""
    table = Fields(f.table("shows"), f"{place}, shows", problems)
    return {name: table.one_or_more(name) for name in list(table.left)}


def _issue(entry: dict, place: str, proof_only: tuple[int, ...], problems: list[str]) -> Issue:
    f = Fields(entry, place, problems)
    year = f.whole("year")
    made = Issue(
        year, f.text("mint", ""), f.maybe_whole("mintage"), f.text("source", ""),
        f.flag("proof_only") or year in proof_only, f.text("note", ""), f.texts("varieties"),
    )
    f.done()
    return made


def _look(
    entry: dict, place: str, denomination: str, vocabulary: Vocabulary, said: dict[str, str], problems: list[str],
    shared: str = "",
) -> Diagnostic:
    key = shared or (entry.get("key", "") if isinstance(entry, dict) else "")
    f = Fields(entry, f"{place}, look {key}", problems)
    f.text("key", shared or None)
    name = f.text("feature", key)
    feature = vocabulary.features.get(name) or Feature(name, name, "", {}, 1, 0.0)
    fits = words.fill(f.text("fits"), said)
    instead = Fields(f.table("instead"), f"{f.place}, instead", problems)
    made = Diagnostic(
        key=key, feature=name, look=f.text("look", feature.look), fits=fits, values=f.texts("values"),
        instead={
            near if "/" in near else f"{denomination}/{near}": instead.text(near) for near in list(instead.left)
        },
        seen_at=f.text("seen_at"), asks=f.text("asks", "type"), kills=f.flag("kills"),
        effort=f.whole("effort", feature.effort), error=f.share("error", feature.error),
        years=f.years("years", ""), caution=f.text("caution", ""),
    )
    f.done()
    return made
