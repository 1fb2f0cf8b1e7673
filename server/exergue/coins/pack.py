"""What phone and server must both know of coins, as values that JSON can write.

types: key → {name, title, denom, years, proofOnly, proofDisputed, single, edge, axis, metal, mm, weights, obverse, reverse,
designer, subtypes, questions, issues, looks, near}. looks come in checklist order, each {key, feature, look, fits,
values, instead: {type: text}, seenAt, asks, kills, effort, error, years?, caution?}. near: types easily taken for it.
"""

from exergue.coins import ladder, metal
from exergue.coins.denominations import Denomination
from exergue.coins.grade import ladder as plain_grades
from exergue.coins.model import Diagnostic, Feature, Law, Type


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


def feature(f: Feature) -> dict:
    return {"name": f.name, "look": f.look, "values": f.values, "effort": f.effort, "error": f.error}


def law(of: Law) -> dict:
    return {"name": of.name, "cite": of.cite, "says": of.says}


def coin_type(t: Type, title: str, looks: list[Diagnostic], near: list[str]) -> dict:
    return {
        "name": t.name, "title": title, "denom": t.denomination, "years": t.years, "proofOnly": t.proof_only,
        "proofDisputed": t.proof_disputed,
        "single": t.single_year, "edge": t.edge, "axis": t.axis, "metal": metal.ALLOYS[t.composition].name,
        "mm": [float(x) for x in t.diameter],
        "weights": [
            {
                "years": w.years, "grains": float(w.grains), "grams": round(float(metal.grams(w.grains)), 3),
                "law": w.law, "note": w.note,
            }
            for w in t.weights
        ],
        "obverse": t.obverse, "reverse": t.reverse, "designer": t.designer,
        "subtypes": [_subtype(s) for s in t.subtypes],
        "questions": [{"key": q.key, "ask": q.ask, "held": q.held} for q in t.questions],
        "issues": [_issue(i) for i in t.issues],
        "looks": [_look(d) for d in looks], "near": near,
    }


def _subtype(s) -> dict:
    return {"key": s.key, "name": s.name, "years": s.years, "marks": s.marks, "note": s.note}


def _issue(i) -> dict:
    entry = {
        "year": i.year, "mint": i.mint, "mintage": i.mintage, "source": i.source, "proofOnly": i.proof_only,
        "note": i.note, "varieties": i.varieties,
    }
    return {name: value for name, value in entry.items() if value or name == "year"}


def _look(d: Diagnostic) -> dict:
    entry = {
        "key": d.key, "feature": d.feature, "look": d.look, "fits": d.fits, "values": d.values,
        "instead": d.instead, "seenAt": d.seen_at, "asks": d.asks, "kills": d.kills, "effort": d.effort,
        "error": d.error, "years": d.years, "caution": d.caution,
    }
    return {name: value for name, value in entry.items() if value or name not in ("years", "caution")}
