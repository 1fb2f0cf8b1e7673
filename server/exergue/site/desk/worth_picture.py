"""Sales, curve and interval as one SVG: grades along, price up on a logarithmic scale. Colours are classes of desk.css."""

from math import ceil, exp, floor, log, log10

from markupsafe import Markup, escape

from ...coins import ladder
from ...money import cents
from ...money.rungs import PLACE
from ...money.sales import Picture

WIDE, HIGH = 440, 260
LEFT, RIGHT, TOP, BOTTOM = 62, 10, 12, 34
DOTS = 400  # the weightiest; more would only be black
_STEP = {number: name for name, step in ladder.STEPS.items() for number in (*step.numbers, *step.also)}


def drawn(picture: Picture, currency: str, grade: int | None = None, cost: int | None = None) -> Markup:
    """The picture, "" without evidence. `grade` (number) and `cost` (cents) of the coin are marked where they are given."""
    if not picture.curve:
        return Markup("")
    dots = sorted(picture.dots, key=lambda dot: -dot.weight)[:DOTS]
    places = [each for each, *_ in picture.curve] + [dot.place for dot in dots]
    if grade in PLACE:
        places.append(PLACE[grade])
    first, last = min(places) - 0.5, max(places) + 0.5
    prices = [price for _, low, _, high in picture.curve for price in (low, high)] + [dot.today for dot in dots]
    prices += [cost] if cost else []
    least, most = log(max(min(prices), 1)) - 0.1, log(max(prices)) + 0.1

    def x(place: float) -> float:
        return round(LEFT + (place - first) / (last - first) * (WIDE - LEFT - RIGHT), 1)

    def y(price: float) -> float:
        return round(TOP + (most - log(max(price, 1))) / (most - least) * (HIGH - TOP - BOTTOM), 1)

    parts = []
    for price in _prices(exp(least), exp(most)):
        at, said = y(price), escape(cents.show(price, currency).removesuffix(".00"))
        parts.append(f'<path class="grid" d="M{LEFT} {at}H{WIDE - RIGHT}"/><text x="{LEFT - 6}" y="{at + 4}" text-anchor="end">{said}</text>')
    free = 0.0
    for number, place in PLACE.items():
        if first <= place <= last and x(place) >= free:
            parts.append(f'<text x="{x(place)}" y="{HIGH - 14}" text-anchor="middle">{_STEP.get(number, "")}</text>'
                         f'<text x="{x(place)}" y="{HIGH - 2}" text-anchor="middle">{number}</text>')  # fmt: skip
            free = x(place) + 30
    over = [f"{x(place)} {y(high)}" for place, _, _, high in picture.curve]
    under = [f"{x(place)} {y(low)}" for place, low, _, _ in reversed(picture.curve)]
    parts.append(f'<path class="interval" d="M{"L".join(over + under)}Z"/>')
    parts.append(f'<path class="mid" d="M{"L".join(f"{x(place)} {y(mid)}" for place, _, mid, _ in picture.curve)}"/>')
    for dot in dots:
        parts.append(f'<circle class="{"own" if dot.same_issue else "other"}" cx="{x(dot.place)}" cy="{y(dot.today)}" r="3.2"/>')
    if grade in PLACE:
        parts.append(f'<path class="here" d="M{x(PLACE[grade])} {TOP}V{HIGH - BOTTOM}"/>')
    if cost:
        parts.append(f'<path class="cost" d="M{LEFT} {y(cost)}H{WIDE - RIGHT}"/><text class="cost" x="{WIDE - RIGHT - 2}" y="{y(cost) - 4}" text-anchor="end">cost</text>')
    words = _words(picture, len(dots), currency, grade, cost)
    key = _key(grade in PLACE, any(dot.same_issue for dot in dots), any(not dot.same_issue for dot in dots))
    return Markup('<figure class="worth"><svg viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg><figcaption class="small soft">{}</figcaption></figure>').format(
        WIDE, HIGH, words, Markup("".join(parts)), key)  # fmt: skip


def _prices(least: float, most: float) -> list[int]:
    """Round prices for lines across: 1, 2, 5 of each power of ten, or the powers alone where these are many."""
    powers = range(floor(log10(least)), ceil(log10(most)) + 1)
    found = [round(step * 10**power) for power in powers for step in (1, 2, 5) if least <= step * 10**power <= most]
    found = [price for price in found if price >= 1]
    return found if len(found) <= 8 else [price for price in found if str(price).startswith("1")]


def _words(picture: Picture, dots: int, currency: str, grade: int | None, cost: int | None) -> str:
    ticks = picture.ticks
    ends = dict((place, mid) for place, _, mid, _ in picture.curve)
    said = f"{dots} {'sale' if dots == 1 else 'sales'} and the estimate from grade {ticks[0][1]}, {cents.show(ends[ticks[0][0]], currency)},"
    said += f" to grade {ticks[-1][1]}, {cents.show(ends[ticks[-1][0]], currency)}; price on a logarithmic scale."
    said += f" The coin’s grade, {grade}, is marked." if grade in PLACE else ""
    return said + (f" Its cost, {cents.show(cost, currency)}, is marked." if cost else "")


def _key(graded: bool, own: bool, other: bool) -> str:
    dots = ["full dots are sales of this date and mint"] if own else []
    dots += ["open dots are other dates and mints"] if other else []
    text = f"Prices at today’s level, fee included; {', '.join(dots)}. The band holds about four in five further sales."
    return text + (" The broken line is this coin’s grade." if graded else "")
