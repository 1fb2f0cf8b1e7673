"""The catalogue at the desk: denominations, a series as a timeline, a type with what the book has of it."""

from flask import abort, render_template

from ...coins import metal, rarity
from ...coins.years import show as show_years
from ...records import knowledge, reading
from . import desk, worth_words

COUNTRIES = {"US": "United States", "GB": "Great Britain", "CA": "Canada"}
AXES = {"coin": "Coin turn: reverse upside down", "medal": "Medal turn: both sides upright", "either": "Either turn"}


@desk.get("/types")
def types():
    known = knowledge.catalogue()
    countries: dict[str, list] = {}
    held = reading.held_by_type()
    for one in known.denominations.values():
        of = known.of(one.key)
        if of:
            years = show_years([min(t.years[0] for t in of), max(t.years[-1] for t in of)]).replace(", ", "–")
            owned = sum(1 for t in of if t.key in held)
            countries.setdefault(COUNTRIES.get(one.country, one.country), []).append((one, of, years, owned))
    return render_template("desk/types.html", countries=countries, problems=known.problems)


@desk.get("/types/<denom>")
def series(denom: str):
    known = knowledge.catalogue()
    of = known.of(denom)
    if not of:
        abort(404, "The catalogue has no types of this denomination.")
    return render_template(
        "desk/series.html", denomination=known.denominations[denom], types=of, years=show_years,
        picture=picture(of), gaps=gaps_of(known.series[denom].gaps),
    )


@desk.get("/types/<denom>/<slug>")
def coin_type(denom: str, slug: str):
    known = knowledge.catalogue()
    found = known.types.get(f"{denom}/{slug}")
    if not found:
        abort(404, "The catalogue has no such type.")
    owned = reading.stock(type=found.key, state="in stock", order="date", per=100)
    wants = [want for want in reading.wants() if want["type"] == found.key]
    looks = known.checklist(found.key)
    return render_template(
        "desk/type.html", type=found, denomination=known.denominations[denom], years=show_years, known=known,
        owned=owned, wants=wants, picture=picture(known.of(denom), found.key), axes=AXES,
        looks=[("How it is known", [d for d in looks if d.asks != "genuine"]),
               ("Is it genuine?", [d for d in looks if d.asks == "genuine"])],
        alloy=metal.ALLOYS[found.composition], pure=precious(found),
        rare=(rarity.sheldon(found.survivors), rarity.universal(found.survivors)) if found.survivors else None,
        worth=worth_words.of_type(found.key),
    )  # fmt: skip


def gaps_of(gaps: dict[int, str]) -> list[tuple[str, str]]:
    """(years, why) in the order of the first year; each reason as a sentence of its own."""
    by_reason: dict[str, list[int]] = {}
    for year in sorted(gaps):
        by_reason.setdefault(gaps[year], []).append(year)
    return [(show_years(years), why[:1].upper() + why[1:]) for why, years in by_reason.items()]


def picture(of: list, now: str = "") -> dict:
    """What the timeline is drawn from: the fields of the phone's pack that it needs, and what the book has."""
    held = reading.held_by_type()
    return {
        "types": [{"key": t.key, "name": t.name, "years": t.years, "proofOnly": t.proof_only} for t in of],
        "held": {t.key: held[t.key] for t in of if t.key in held}, "now": now,
    }


def precious(t) -> list[tuple[str, float, float]]:
    """(metal, grams, troy ounces) of the silver and gold in a piece of each lawful weight; empty where there is none."""
    found = []
    for weight in t.weights:
        alloy = metal.ALLOYS[weight.composition or t.composition]
        for name in ("gold", "silver"):
            if alloy.fineness(name):
                fine = metal.pure(metal.grams(weight.grains), alloy.fineness(name))
                line = (name, round(float(fine), 3), round(float(metal.troy_ounces(fine)), 4))
                if line not in found:
                    found.append(line)
    return found
