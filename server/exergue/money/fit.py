"""One type's curve: sales of all its issues borrow strength from each other, each as much as it is like the coin asked about.

A linear mixed model on the logarithm of the price, less the market's shape and factors (pooled.py):

    level + slope · rung + walk(rung) + issue + group + sale

All terms but the level are drawn towards 0 by their spread (best linear unbiased prediction; Henderson 1975): so an
issue with one sale moves the curve a part of the way, one with many the whole way. Neighbours in date share a part of
an issue's term. The walk is a random walk over the ladder. Sales carry Student weights (freedom+1) ÷ (freedom + t²),
found by reweighting again and again (Lange, Little & Taylor 1989): the influence of a price is bounded and falls back
towards none, however far away it is. Old sales carry less weight by half-lives.
"""

from dataclasses import dataclass, replace
from math import exp

_ROUNDS = 6


@dataclass(frozen=True)
class Spreads:
    """Standard deviations of the logarithm of the price; worth.toml, [spread]."""

    sale: float
    rung: float
    slope: float
    issue: float
    group: float
    level: float


def kinship(one: tuple, other: tuple, near: float, years: float) -> float:
    """How much of its level an issue (year, mint) shares with another: 1 the same, 0 nothing known of the date."""
    if one == other:
        return 1.0
    if one[0] is None or other[0] is None:
        return 0.0
    return near * exp(-abs(one[0] - other[0]) / years)


class Fit:
    """Sales of one type as arrays: `place` on the ladder, `issue` [(year, mint)], `group` [key], `value` logarithms less
    shape and factor, `weight` of the age. `kin(one, other)` is kinship. Call `solve` before the rest."""

    def __init__(self, place, issue, group, value, weight, kin, freedom):
        import numpy as np

        self.place, self.issue, self.group, self.kin, self.freedom = place, issue, group, kin, freedom
        self.issues, self.groups = sorted(set(issue), key=str), sorted(set(group))
        self.rungs, rung_of = np.unique(place, return_inverse=True)
        self.gaps = np.diff(self.rungs)
        n, R, m, k = len(value), len(self.rungs), len(self.issues), len(self.groups)
        self.at_walk, self.at_issue, self.at_group, self.size = 2, R + 1, R + 1 + m, R + 1 + m + k
        number = {each: at for at, each in enumerate(self.issues)}
        self.issue_of = np.array([number[each] for each in issue])
        number = {each: at for at, each in enumerate(self.groups)}
        self.group_of = np.array([number[each] for each in group])
        self.middle, self.origin = float(np.median(value)), float(np.average(place, weights=weight))
        X = np.zeros((n, self.size))
        X[:, 0], X[:, 1] = 1.0, place - self.origin
        rows = np.arange(n)
        walked = rung_of > 0
        X[rows[walked], 1 + rung_of[walked]] = 1.0
        X[rows, self.at_issue + self.issue_of] = 1.0
        X[rows, self.at_group + self.group_of] = 1.0
        self.X, self.value, self.age_weight = X, value - self.middle, weight
        self.robust = np.ones(n)
        self.likeness = np.array([[kin(a, b) for b in self.issues] for a in self.issues])
        self.unlike = np.linalg.inv(self.likeness)
        steps = np.zeros((R - 1, R - 1))  # increments of the walk, in roots of rungs; it starts at 0 on the lowest
        at = np.arange(R - 1)
        steps[at, at] = self.gaps**-0.5
        steps[at[1:], at[:-1]] = -(self.gaps[1:] ** -0.5)
        self.steps = steps

    def solve(self, spreads: Spreads, own: float | None = None, rounds: int = _ROUNDS) -> "Fit":
        """Find every term and how surely it is known. `own`: the type's own spread of a sale, where it is known."""
        import numpy as np

        self.spreads, self.own = spreads, own or spreads.sale
        P = np.zeros((self.size, self.size))
        P[0, 0], P[1, 1] = spreads.level**-2, spreads.slope**-2
        walk, issue = slice(self.at_walk, self.at_issue), slice(self.at_issue, self.at_group)
        P[walk, walk] = self.steps.T @ self.steps / spreads.rung**2
        P[issue, issue] = self.unlike / spreads.issue**2
        at = np.arange(self.at_group, self.size)
        P[at, at] = spreads.group**-2
        for _ in range(rounds):
            heft = self.age_weight * self.robust / self.own**2
            XW = self.X.T * heft
            self.sure = np.linalg.inv(XW @ self.X + P)
            self.terms = self.sure @ (XW @ self.value)
            self.left = self.value - self.X @ self.terms
            self.pull = np.clip(np.einsum("ij,jk,ik->i", self.X, self.sure, self.X, optimize=True) * heft, 0.0, 0.999)
            far = self.left / (self.own * np.sqrt(1 - self.pull))
            self.robust = np.minimum((self.freedom + 1) / (self.freedom + far**2), 1.0)
        return self

    def own_spread(self, counts: float) -> float:
        """This type's spread of a sale, drawn towards the market's as if that rested on `counts` sales."""
        heft = self.age_weight * self.robust
        free = float((heft * (1 - self.pull)).sum())
        return float(((counts * self.spreads.sale**2 + (heft * self.left**2).sum()) / (counts + free)) ** 0.5)

    def moments(self) -> dict[str, tuple[float, float]]:
        """What this type says of each spread: (sum of squares, number of cases)."""
        import numpy as np

        heft, S, t = self.age_weight * self.robust, self.sure, self.terms
        found = {"sale": (float((heft * self.left**2).sum()), float((heft * (1 - self.pull)).sum()))}
        walk, issue = slice(self.at_walk, self.at_issue), slice(self.at_issue, self.at_group)
        group = slice(self.at_group, self.size)
        if len(self.gaps):
            step = self.steps @ t[walk]
            found["rung"] = (float(step @ step + np.trace(self.steps @ S[walk, walk] @ self.steps.T)), len(step))
            found["slope"] = (float(t[1] ** 2 + S[1, 1]), 1)
        if len(self.issues) > 1:
            square = np.outer(t[issue], t[issue]) + S[issue, issue]
            found["issue"] = (float((self.unlike * square).sum()), len(self.issues))
        if len(self.groups) > 1:
            found["group"] = (float(t[group] @ t[group] + np.trace(S[group, group])), len(self.groups))
        return found

    def surprises(self):
        """How far each sale lies from what the others say of it, in standard deviations of such a prediction, and its weight."""
        import numpy as np

        heft = self.age_weight * self.robust / self.own**2
        without = self.pull / (heft * (1 - self.pull))  # variance of the prediction from the others
        return np.abs(self.left) / (1 - self.pull) / np.sqrt(self.own**2 + without), self.age_weight

    def read(self, places, issue: tuple, group: tuple):
        """(value, variance) at each of `places` for coins of that issue and group, a further sale's own spread left out."""
        import numpy as np

        places = np.asarray(places, float)
        L = np.zeros((len(places), self.size))
        L[:, 0], L[:, 1] = 1.0, places - self.origin
        spread, rest = self.spreads, np.zeros(len(places))
        right = np.clip(np.searchsorted(self.rungs, places), 0, len(self.rungs) - 1)
        left = np.maximum(right - (self.rungs[right] > places), 0)
        gap = self.rungs[right] - self.rungs[left]
        part = np.where(gap > 0, (places - self.rungs[left]) / np.where(gap > 0, gap, 1.0), 0.0)
        rest += spread.rung**2 * np.where(gap > 0, gap * part * (1 - part), np.abs(places - self.rungs[right]))
        rows = np.arange(len(places))
        for rung, share in ((left, 1 - part), (right, part)):
            on = rung > 0
            L[rows[on], 1 + rung[on]] += share[on]
        kin = np.array([self.kin(issue, other) for other in self.issues])
        by = self.unlike @ kin
        L[:, self.at_issue : self.at_group] = by
        rest += spread.issue**2 * max(1.0 - float(kin @ by), 0.0)
        if group in self.groups:
            L[:, self.at_group + self.groups.index(group)] = 1.0
        else:
            rest += spread.group**2
        return self.middle + L @ self.terms, np.einsum("ij,jk,ik->i", L, self.sure, L, optimize=True) + rest

    def closeness(self, places, issue: tuple, group: tuple):
        """Weight of each sale beside one of the very coin asked about: 1 the same, less the less it must be like it.

        A row for each of `places`; `places` None: each sale at its own place, one row.
        """
        import numpy as np

        spread = self.spreads
        kin = np.array([self.kin(issue, other) for other in self.issues])[self.issue_of]
        away = 0.0 if places is None else np.abs(self.place - np.asarray(places, float)[:, None])
        apart = 2 * spread.issue**2 * (1 - kin) + spread.rung**2 * away + (spread.slope * away) ** 2
        apart = apart + 2 * spread.group**2 * np.array([each != group for each in self.groups])[self.group_of]
        return self.own**2 / (self.own**2 + apart)


def learn(fits: list[Fit], spreads: Spreads, counts: float, rounds: int = 6) -> Spreads:
    """The spreads that the fits show, each drawn towards `spreads` as if that rested on `counts` cases (EM; Dempster,
    Laird & Rubin 1977). Leaves the fits solved with them."""
    now = spreads
    for _ in range(rounds):
        sums = {name: [counts * getattr(spreads, name) ** 2, counts] for name in ("sale", "rung", "slope", "issue", "group")}
        for fit in fits:
            for name, (square, cases) in fit.solve(now, rounds=2).moments().items():
                sums[name][0] += square
                sums[name][1] += cases
        now = replace(now, **{name: (square / cases) ** 0.5 for name, (square, cases) in sums.items()})
    for fit in fits:
        fit.solve(now)
    return now
