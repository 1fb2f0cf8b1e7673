"""What a coin is worth, from recorded sales: a low, a middle and a high price for each grade, and what they rest on.

`Market(sales, today, settings)` looks at all sales once; `.table(target)` answers for one coin, `.picture(target)` gives
what a chart needs. Low to high is where about four in five further sales of such a coin would fall. Nothing is said
further than one rung of the ladder outside the evidence. The method: pooled.py learns from all sales together, fit.py
draws one type's curve, monotone.py keeps it from falling, interval.py says how wide it is.
"""

from collections.abc import Callable
from datetime import date
from functools import partial

from .assumed import Settings
from .fit import Axis, Fit, Spreads, kinship, learn
from .interval import student, widening
from .monotone import curve, isotonic
from .pooled import pool
from .rungs import PLACE, within
from .sales import Dot, Estimate, Picture, Row, Sale, Target

_COUNTS = 0.05  # a sale with less of the weight of the weightiest is not counted among those that a figure rests on
_LEAST = 1e-9  # weight of the oldest sale: next to nothing, and still a number to divide by


class Market:
    """All sales, grouped by type once. `melt(type, year)`: cents of precious metal in such a coin, or None.

    Sales that cannot be used stand in `left_out` as (sale, sentence); a sale after `today` counts as of today.
    """

    def __init__(
        self, sales: list[Sale], today: date, settings: Settings | None = None,
        melt: Callable[[str, int | None], int | None] = lambda type, year: None,
    ):  # fmt: skip
        self.today, self.settings, self.melt = today, settings or Settings(), melt
        self.left_out: list[tuple[Sale, str]] = []
        self.sales = [sale for sale in sales if self._usable(sale)]
        self._kin = partial(kinship, near=self.settings.near, years=self.settings.years)
        self._fits: dict[tuple, Fit] = {}
        self._issues = [sale.issue for sale in self.sales]
        self._groups = [sale.group for sale in self.sales]
        self._arrays()
        self._parts: dict[tuple, list[int]] = {}
        for at, (sale, group) in enumerate(zip(self.sales, self._groups, strict=True)):
            self._parts.setdefault(self._compared(sale.type, group), []).append(at)
        self._learn()

    def table(self, target: Target) -> Estimate:
        """The estimate for each grade of `target.grades`, or of the whole ladder."""
        melt = self.melt(target.type, target.year)
        wanted = target.grades or tuple(PLACE)
        of = self._parts.get(self._compared(target.type, target.group))
        if not of:
            return Estimate(target, tuple(Row(grade) for grade in wanted), 0, 0, "No evidence.", melt)
        rows = self._rows(target, of, melt)
        own = [self._issues[at] for at in of].count(target.issue)
        table = tuple(rows[grade] if grade in rows else Row(grade) for grade in wanted)
        return Estimate(target, table, len(of), own, self._note(target, of, own), melt)

    def picture(self, target: Target) -> Picture:
        """Dots, curve and interval for a chart; all empty without evidence."""
        import numpy as np

        of = self._parts.get(self._compared(target.type, target.group))
        if not of:
            return Picture()
        fit, rows = self._fit(target), self._rows(target, of, self.melt(target.type, target.year))
        weight = fit.weights(None, target.issue, target.group)
        today = np.rint(np.exp(self._value[of] + self.pool.shape(self._place[of]) + self.pool.factor(*target.group)))
        dots = [
            Dot(
                sale.grade, PLACE[sale.grade], round(self._paid[at]), int(today[i]), float(weight[i]), sale.date, sale.source,
                sale.issue == target.issue, sale.group == target.group,
            )
            for i, (at, sale) in enumerate((at, self.sales[at]) for at in of)
        ]  # fmt: skip
        places = [PLACE[grade] for grade in rows]
        fine = [float(x) for x in np.arange(places[0] * 4, places[-1] * 4 + 1) / 4]
        drawn = [
            np.rint(np.exp(curve(places, np.log([getattr(row, side) for row in rows.values()]), fine)))
            for side in ("low", "mid", "high")
        ]
        points = tuple((x, int(low), int(mid), int(high)) for x, low, mid, high in zip(fine, *drawn, strict=True))
        return Picture(tuple(dots), points, tuple(zip(places, rows, strict=True)))

    def _usable(self, sale: Sale) -> bool:
        if sale.grade not in PLACE:
            self.left_out.append((sale, "This sale has no grade of the ladder; give it one."))
        elif sale.cents <= 0:
            self.left_out.append((sale, "This sale has no price; give what was paid."))
        else:
            return True
        return False

    def _arrays(self) -> None:
        """Each sale's figures, and the market at large."""
        import numpy as np

        kept, fee = self.sales, float(self.settings.fee)
        days = np.array([max((self.today - sale.date).days, 0) for sale in kept], dtype=float)
        types = {key: at for at, key in enumerate(dict.fromkeys(sale.type for sale in kept))}
        self._paid = np.array([sale.cents * (1.0 if sale.fee_included else fee) for sale in kept], dtype=float)
        self._place = np.array([PLACE[sale.grade] for sale in kept], dtype=float)
        self._day = np.array([sale.date.toordinal() for sale in kept], dtype=int)
        self._weight = np.maximum(age_weight(days, self.settings.half_life_days), _LEAST)
        number = np.array([types[sale.type] for sale in kept], dtype=int)
        designation = np.array([sale.designation for sale in kept], dtype=object)
        problem = np.array([sale.problem for sale in kept], dtype=bool)
        years, logs = days / 365.25, np.log(self._paid)
        self.pool = pool(logs, number, self._place, years, self._weight, designation, problem, self.settings)
        self._axis = Axis(self.pool)
        factor = {group: self.pool.factor(*group) for group in set(self._groups)}
        self._value = logs + self.pool.since(years) - self.pool.shape(self._place)
        self._value -= np.array([factor[group] for group in self._groups], dtype=float)

    def _compared(self, type: str, group: tuple[str, bool]) -> tuple:
        """Sales with the same key are compared; without a known factor a designation, or a problem, stands apart."""
        designation, problem = group
        return type, "" if self.pool.knows(designation, False) else designation, problem and not self.pool.knows("", True)

    def _learn(self) -> None:
        """Spreads and the width of the interval, from types taken evenly from the best to the least documented."""
        said = self.settings
        start = Spreads(said.sale, said.rung, said.slope, said.issue, said.group, said.level)
        ranked = sorted((of for of in self._parts.values() if len(of) > 1), key=len, reverse=True)
        step = max(len(ranked) / said.learn_types, 1.0)
        chosen = [ranked[int(i * step)] for i in range(min(len(ranked), said.learn_types))]
        fits = [self._unsolved(sorted(of, key=lambda at: -self._day[at])[: said.learn_sales]) for of in chosen]
        self.spreads = learn(fits, start, said.learn_counts)
        self.widening = widening([self._settled(fit).surprises() for fit in fits], said.interval, said.width_counts)

    def _unsolved(self, of: list[int]) -> Fit:
        issues, groups = [self._issues[at] for at in of], [self._groups[at] for at in of]
        return Fit(
            self._axis, self._place[of], issues, groups, self._value[of], self._weight[of],
            self._kin, (self.settings.freedom, self.settings.issue_freedom),
        )  # fmt: skip

    def _fit(self, target: Target) -> Fit:
        """The solved fit of the target's sales, made once."""
        key = self._compared(target.type, target.group)
        if key not in self._fits:
            self._fits[key] = self._settled(self._unsolved(self._parts[key]).solve(self.spreads))
        return self._fits[key]

    def _settled(self, fit: Fit) -> Fit:
        """The fit solved again with the type's own spread. `caution`: so much wider, since that spread is little known."""
        said = self.settings
        own, cases = fit.own_spread(said.spread_counts)
        fit.caution = student(said.interval, cases) / student(said.interval, 1e9)
        return fit.solve(self.spreads, own, rounds=2)

    def _rows(self, target: Target, of: list[int], melt: int | None) -> dict[int, Row]:
        """A row for each grade within a rung of the evidence."""
        import numpy as np

        fit = self._fit(target)
        grades = within(float(fit.rungs[0]), float(fit.rungs[-1]))
        places = np.array([PLACE[grade] for grade in grades])
        value, variance = fit.read(places, target.issue, target.group)
        value = value + self.pool.shape(places) + self.pool.factor(*target.group)
        half, sure = self.widening * fit.caution * np.sqrt(fit.own**2 + variance), (1 / variance).tolist()
        lines = np.array([isotonic(line, sure) for line in np.array((value - half, value, value + half)).tolist()])
        bare = np.maximum(np.rint(np.exp(np.minimum(lines, 40.0))).astype(int), 1)  # whole cents, and at least one
        low, mid, high = np.maximum(bare, melt or 1).tolist()
        weight = fit.weights(places, target.issue, target.group)
        counts, days = weight >= _COUNTS * weight.max(axis=1, keepdims=True), self._day[of]
        sales, effective = counts.sum(axis=1).tolist(), weight.sum(axis=1).tolist()
        first = np.where(counts, days, days.max()).min(axis=1).tolist()
        last = np.where(counts, days, days.min()).max(axis=1).tolist()
        return {
            grade: Row(
                grade, low[i], mid[i], high[i], sales[i], effective[i],
                date.fromordinal(first[i]), date.fromordinal(last[i]), low[i] > without,
            )
            for i, (grade, without) in enumerate(zip(grades, bare[0].tolist(), strict=True))
        }  # fmt: skip

    def _note(self, target: Target, of: list[int], own: int) -> str:
        others = len(of) - [self._groups[at] for at in of].count(target.group)
        said = [f"Rests on {_sales(len(of))} of the type, {own} of this date and mint."]
        if not own:
            said = [f"From other dates of the type: {_sales(len(of))}, none of this date and mint."]
        if others:
            said.append(f"{_sales(others).capitalize()} of another designation or condition, brought over by a factor.")
        return " ".join(said)


def age_weight(days, half_life_days: float):
    """The weight of a sale that many days old: it halves with each half-life. Arrays or one number."""
    return 0.5 ** (days / half_life_days)


def _sales(count: int) -> str:
    return f"{count} sale" if count == 1 else f"{count} sales"
