"""What each budget buys, in points, as an SVG of steps. Colours are classes of sets.css."""

from markupsafe import Markup

from ...money import cents

WIDE, HIGH = 560, 220
LEFT, RIGHT, TOP, BOTTOM = 46, 14, 16, 34


def drawn(steps: list[tuple[int, int]], budget: int, more: int, currency: str) -> Markup:
    """`steps`: (cents, points) wherever a little more buys more. The budget and `more` are marked. "" where nothing can be had."""
    if len(steps) < 2:
        return Markup("")
    last = max(steps[-1][0], 1)
    wide = min(max(2 * budget, more + more // 4, steps[1][0] * 2), max(last + last // 20, more + more // 20))
    shown = [step for step in steps if step[0] <= wide]
    high = max(shown[-1][1], 1)

    def x(amount: int) -> float:
        return round(LEFT + min(amount, wide) / wide * (WIDE - LEFT - RIGHT), 1)

    def y(points: int) -> float:
        return round(HIGH - BOTTOM - points / high * (HIGH - TOP - BOTTOM), 1)

    line, seen = [f"M{x(0)} {y(shown[0][1])}"], None
    for amount, points in shown[1:]:
        if x(amount) != seen:
            line.append(f"H{x(amount)}V{y(points)}")
        else:
            line[-1] = f"H{x(amount)}V{y(points)}"
        seen = x(amount)
    line.append(f"H{WIDE - RIGHT}")
    at, then = (max(points for amount, points in steps if amount <= money) for money in (budget, more))
    short = lambda amount: cents.show(amount, currency).removesuffix(".00")  # noqa: E731
    parts = [f'<path class="grid" d="M{LEFT} {y(0)}H{WIDE - RIGHT}"/>', f'<path class="steps" d="{"".join(line)}"/>']
    parts += [f'<text x="{LEFT - 6}" y="{y(points) + 4}" text-anchor="end">{points}</text>' for points in {0, high}]
    parts += [f'<text x="{x(0)}" y="{HIGH - 6}">{short(0)}</text><text x="{x(wide)}" y="{HIGH - 6}" text-anchor="end">{short(wide)}</text>']
    parts.append(f'<path class="more" d="M{x(more)} {TOP}V{y(0)}"/><path class="now" d="M{x(budget)} {TOP}V{y(0)}"/>')
    parts.append(f'<circle class="more" cx="{x(more)}" cy="{y(then)}" r="5"/><circle class="now" cx="{x(budget)}" cy="{y(at)}" r="5"/>')
    parts.append(f'<text class="now" x="{x(budget) - 6}" y="{TOP + 10}" text-anchor="end">{short(budget)}</text>')
    said = f"Points against money: {short(budget)} buys {at}, {short(more)} buys {then}. Everything that has a price comes to {short(last)}."
    return Markup('<figure class="plan-picture"><svg viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>'
                  '<figcaption class="small soft">Points that each budget buys. Full dot: this budget; open dot: {} more.</figcaption></figure>').format(
        WIDE, HIGH, said, Markup("".join(parts)), short(more - budget))  # fmt: skip
