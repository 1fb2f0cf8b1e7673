"""What phone and server must both know of coins, as values that JSON can write, short because phones carry it.

web/engine/unpack.js makes of it what the screens read; what it leaves out, that file puts back by the rules beside.
- types stand in columns: {keys: […], name: […], looks: […] …}, null where a type has nothing of the kind. What is alike
  stands together so and shrinks to less.
- years: text of years.runs.
- checks: looks that types share, once; a type's `looks` name them, and `words` fill their marks.
- fields of a type: {name, title, denom, years, proofOnly?, proofDisputed?, alongside?, family?, survivors?, rare?, edge, axis, alloy,
  mm: [least, greatest], weights, obverse, reverse, designer?, subtypes?, questions?, struck?, issues?, shows, looks,
  words, near?}. Keys of types inside are short within the denomination.
  struck: mint mark → years of issues of which nothing more is said; issues: the others.
  shows: feature → value or values that its pieces show, those of looks among them.
  looks: in checklist order; {key?, feature, look?, fits, values?, instead?, seenAt, asks?, kills?, effort?, error?,
  years?, caution?}: key, look, effort and error where they are not the feature's, asks where it is not "type".
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from exergue.coins import ladder, metal, rarity, read, words
from exergue.coins.denominations import Denomination
from exergue.coins.grade import ladder as plain_grades
from exergue.coins.model import Diagnostic, Feature, Law, Type
from exergue.coins.years import runs

if TYPE_CHECKING:
    from exergue.coins.catalogue import Catalogue


def pack(known: Catalogue) -> dict:
    return {
        "grades": grades(),
        "denominations": [denomination(d) for d in known.denominations.values()],
        "alloys": {key: alloy(of) for key, of in metal.ALLOYS.items()},
        "features": {key: feature(f) for key, f in known.features.items()},
        "laws": {key: law(of) for key, of in known.laws.items()},
        "checks": {key: look(shared(key, known), known) for key in known.vocabulary.checks},
        "types": columns({key: coin_type(t, known) for key, t in known.types.items()}),
    }


def columns(entries: dict[str, dict]) -> dict[str, list]:
    names = dict.fromkeys(name for entry in entries.values() for name in entry)
    return {"keys": list(entries)} | {name: [entry.get(name) for entry in entries.values()] for name in names}


def grades() -> dict:
    """ladder: [text, name, number] lowest first; proofs likewise; marks and problems for a picker."""
    def line(grade):
        return [str(grade), grade.name, grade.number]
    return {
        "steps": [{"key": s.key, "name": s.name, "numbers": s.numbers, "also": s.also} for s in ladder.STEPS.values()],
        "strikes": [{"key": s.key, "name": s.name, "from": s.sound_from} for s in ladder.STRIKES.values()],
        "ladder": [line(g) for g in plain_grades()],
        "proofs": [line(g) for g in plain_grades("PF")],
        "marks": [{"key": m.key, "name": m.name, "group": m.group, "on": m.on} for m in ladder.MARKS.values()],
        "problems": ladder.PROBLEMS,
    }


def denomination(d: Denomination) -> dict:
    """cents may be 0.5: a half cent."""
    cents = int(d.cents) if d.cents.denominator == 1 else float(d.cents)
    return {
        "key": d.key, "name": d.name, "plural": d.plural, "country": d.country, "cents": cents, "order": d.order,
        "first": d.first, "last": d.last,
    }


def alloy(a: metal.Alloy) -> dict:
    """parts: metal → part of one; density: least and greatest usual, g/cm³."""
    return {
        "name": a.name, "parts": {name: round(float(part), 5) for name, part in a.parts.items()},
        "density": [round(float(d), 3) for d in a.density],
    }


def feature(f: Feature) -> dict:
    entry = {
        "name": f.name, "look": f.look, "values": f.values, "effort": f.effort, "error": f.error, "seenAt": f.seen_at,
    }
    return entry | {"core": True} if f.core else entry


def law(of: Law) -> dict:
    return {"name": of.name, "cite": of.cite, "says": of.says}


def coin_type(t: Type, known: Catalogue) -> dict:
    said = words.of(t.composition, t.diameter, t.weights)
    entry = {
        "name": t.name, "title": known.title(t.key), "denom": t.denomination, "years": runs(t.years),
        "proofOnly": runs(t.proof_only), "proofDisputed": runs(t.proof_disputed),
        "alongside": _near(t.alongside, t), "family": t.family, "survivors": t.survivors,
        "rare": [rarity.sheldon(t.survivors), rarity.universal(t.survivors)] if t.survivors else [],
        "edge": t.edge, "axis": t.axis, "alloy": t.composition, "mm": [float(x) for x in t.diameter],
        "weights": [_weight(w, t, known) for w in t.weights],
        "obverse": t.obverse, "reverse": t.reverse, "designer": t.designer,
        "subtypes": [_subtype(s, t) for s in t.subtypes],
        "questions": [_filled({"key": q.key, "ask": q.ask, "held": q.held, "splits": q.splits, "joins": q.joins})
                      for q in t.questions],
        "struck": _struck(t), "issues": [_issue(i, t) for i in t.issues if _told(i, t)],
        "shows": _shows(t, known),
        "looks": [_shared_or_own(d, t, said, known) for d in known.checklist(t.key)],
        "words": {mark: text for mark, text in said.items() if mark != "metal"},
        "near": _near(known.near(t.key), t),
    }  # fmt: skip
    return _filled(entry)


def _filled(entry: dict) -> dict:
    return {name: value for name, value in entry.items() if value not in ("", 0, None, [], (), {})}


def _near(keys, t: Type) -> list[str]:
    return [_short(key, t) for key in keys]


def _short(key: str, t: Type) -> str:
    return key.removeprefix(f"{t.denomination}/")


def _weight(w, t: Type, known: Catalogue) -> dict:
    """years left out: those of the type. off: grains by which the law let a piece differ."""
    off = known.laws[w.law].tolerance.get(t.denomination)
    return _filled({
        "years": "" if w.years == t.years else runs(w.years), "grains": round(float(w.grains), 3),
        "grams": round(float(metal.grams(w.grains)), 3), "off": float(off) if off else 0, "law": w.law, "note": w.note,
        "alloy": w.composition if w.composition != t.composition else "",
    })  # fmt: skip


def _subtype(s, t: Type) -> dict:
    return _filled({
        "key": s.key, "name": s.name, "years": "" if s.years == t.years else runs(s.years), "marks": s.marks,
        "note": s.note, "whole": s.whole,
    })  # fmt: skip


def _told(i, t: Type) -> bool:
    return bool(i.mintage is not None or i.source or i.note or i.varieties or _proof_here(i, t))


def _proof_here(i, t: Type) -> bool:
    """In proof only at this mint, while others struck the date for circulation."""
    return i.proof_only and i.year not in t.proof_only


def _struck(t: Type) -> dict:
    bare: dict[str, list[int]] = {}
    for i in t.issues:
        if not _told(i, t):
            bare.setdefault(i.mint, []).append(i.year)
    return {mint: runs(years) for mint, years in bare.items()}


def _issue(i, t: Type) -> dict:
    entry = _filled({
        "year": i.year, "mint": i.mint, "source": i.source, "note": i.note, "varieties": i.varieties,
        "proofOnly": _proof_here(i, t),
    })  # fmt: skip
    return entry if i.mintage is None else entry | {"mintage": i.mintage}


def _shows(t: Type, known: Catalogue) -> dict:
    """Where one value is shown it stands alone. Not what shared checks look at: there every right coin is alike."""
    found = {}
    alike = {known.vocabulary.checks[key]["feature"] for key in known.vocabulary.checks} - t.shows.keys()
    for key, values in t.stated.items():
        if key in alike:
            continue
        listed = sorted(values)
        found[key] = listed[0] if len(listed) == 1 else listed
    return dict(sorted(found.items()))


def shared(key: str, known: Catalogue, said: dict[str, str] | None = None, denomination: str = "") -> Diagnostic:
    """A look of checks.toml, its marks filled with what is said of a type."""
    return read.shared_check(key, known.vocabulary, said or {}, "", denomination, [])


def _shared_or_own(d: Diagnostic, t: Type, said: dict[str, str], known: Catalogue) -> str | dict:
    if d.key in known.vocabulary.checks and shared(d.key, known, said, t.denomination) == d:
        return d.key
    return look(d, known, t)


def look(d: Diagnostic, known: Catalogue, t: Type | None = None) -> dict:
    of = known.features[d.feature]
    return _filled({
        "key": d.key if d.key != d.feature else "", "feature": d.feature,
        "look": d.look if d.look != of.look else "", "fits": d.fits,
        "values": d.values[0] if len(d.values) == 1 else d.values,
        "instead": {_short(key, t) if t else key: text for key, text in d.instead.items()},
        "seenAt": d.seen_at, "asks": d.asks if d.asks != "type" else "", "kills": d.kills,
        "effort": d.effort if d.effort != of.effort else 0, "caution": d.caution,
        "years": runs(d.years) if d.years else "",
    }) | ({"error": d.error} if d.error != of.error else {})  # fmt: skip
