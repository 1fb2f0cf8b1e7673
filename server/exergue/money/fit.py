"""One type's curve: sales of all its issues borrow strength from each other, each as much as it is like the coin asked about.

A linear mixed model on the logarithm of the price, less the market's shape and factors (pooled.py):

    level + steepness · shape(rung) + walk(rung) + issue + group + sale

All terms but the level are drawn towards 0 by their spread (best linear unbiased prediction; Henderson 1975): so an
issue with one sale moves the curve a part of the way, one with many the whole way. Neighbours in date share a part of
an issue's term. The walk is a random walk over the ladder, its strides in proportion to the market's steps. Sales
carry Student weights (freedom+1) ÷ (freedom + t²), found by reweighting again and again (Lange, Little & Taylor 1989):
the influence of a price is bounded and falls back towards none, however far away it is. Issues carry such weights, too,
with fewer degrees of freedom: a date may be ten times as dear as its type, so that a lone sale of a date that nobody
else sold is believed of that date, and of no other. Old sales weigh less by half-lives.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from .interval import quantile

_ROUNDS = 5
_UNDATED = -1e6  # no coin is so old
_MAD = 1.4826  # makes the median deviation of a normal sample its standard deviation
_TELLING = 1000  # so many types say enough of the spreads; of more, every second, third … is asked
_LEAST_STRIDE = 0.03  # a rung of the walk, where the market's own step is nothing


@dataclass(frozen=True)
class Spreads:
    """Standard deviations of the logarithm of the price; worth.toml, [spread]."""

    sale: float
    rung: float
    slope: float
    issue: float
    group: float
    level: float


class Axis:
    """Where places of the ladder stand for one market: `steep` along its shape, `walked` along the walk's variance."""

    def __init__(self, pool):
        self.steep = pool.shape
        self.walked = lambda place: pool.unevenness(place) + _LEAST_STRIDE**2 * place


def kinship(ones: Sequence[tuple], others: Sequence[tuple], near: float, years: float):
    """How much of their level issues (year, mint) share, a row for each of `ones`: 1 the same, 0 no date known."""
    import numpy as np

    number: dict = {}

    def looked_at(issues):
        """(years, of none far off; the number of each issue among all)."""
        dates = np.array([_UNDATED if year is None else year for year, _ in issues], dtype=float)
        return dates, np.array([number.setdefault(issue, len(number)) for issue in issues], dtype=int)

    (a, one), (b, other) = looked_at(ones), looked_at(others)
    shared = near * np.exp(np.abs(a[:, None] - b) / -years)
    shared[(a == _UNDATED)[:, None] | (b == _UNDATED)] = 0.0
    shared[one[:, None] == other] = 1.0
    return shared


class Fit:
    """Sales of one type as arrays: `place` on the ladder, `issue` [(year, mint)], `group` [key], `value` logarithms less
    shape and factor, `weight` of the age. `kin(ones, others)` is kinship. `freedom` of sales, of issues.
    Call `solve` before the rest."""

    def __init__(self, axis: Axis, place, issue: list, group: list, value, weight, kin: Callable, freedom: tuple):
        import numpy as np

        self.axis, self.place, self.kin, self.freedom = axis, place, kin, freedom
        self.rungs, rung_of = np.unique(place, return_inverse=True)
        self.issues, self.issue_of = _numbered(issue)
        self.groups, self.group_of = _numbered(group)
        n, R, m = len(value), len(self.rungs), len(self.issues)
        self.walk, self.issue = slice(2, R + 1), slice(R + 1, R + 1 + m)
        self.group = slice(R + 1 + m, R + 1 + m + len(self.groups))
        self._each = np.arange(self.group.start, self.group.stop)
        self.middle, self.origin = float(np.median(value)), float(np.average(axis.steep(place), weights=weight))
        self.walked = axis.walked(self.rungs)
        self.X, rows = np.zeros((n, self.group.stop)), np.arange(n)
        self.X[:, 0], self.X[:, 1] = 1.0, axis.steep(place) - self.origin
        self.X[rows, 1 + rung_of] = np.where(rung_of > 0, 1.0, self.X[rows, 1 + rung_of])
        self.X[rows, self.issue.start + self.issue_of] = 1.0
        self.X[rows, self.group.start + self.group_of] = 1.0
        self.value, self.age_weight, self.robust = value - self.middle, weight, np.ones(n)
        self.unlike, self.common, self._kins = np.linalg.inv(kin(self.issues, self.issues)), np.ones(m), {}
        root = np.diff(self.walked) ** -0.5
        strides = np.diag(root) - np.diag(root[1:], -1)  # the walk's increments over what is expected of them; 0 at first
        self.stride = strides.T @ strides

    def solve(self, spreads: Spreads, own: float | None = None, rounds: int = _ROUNDS) -> "Fit":
        """Find every term and how surely it is known. `own`: the type's own spread of a sale, where it is known."""
        import numpy as np

        self.spreads, self.own = spreads, own or spreads.sale
        X, Xt, square = self.X, self.X.T, self.own**2
        P = np.zeros((self.group.stop, self.group.stop))
        P[0, 0], P[1, 1] = spreads.level**-2, spreads.slope**-2
        P[self.walk, self.walk] = self.stride / spreads.rung**2
        P[self._each, self._each] = spreads.group**-2
        for _ in range(rounds):
            heft, level = self.age_weight * self.robust / square, self.common**0.5 / spreads.issue
            P[self.issue, self.issue] = self.unlike * level[:, None] * level
            XW = Xt * heft
            self.sure = np.linalg.inv(XW @ X + P)
            self.terms = self.sure @ (XW @ self.value)
            self.left = self.value - X @ self.terms
            self.pull = np.minimum(np.einsum("ij,ij->i", X @ self.sure, X) * heft, 0.999)
            far = self.left**2 / (square * (1 - self.pull))
            self.robust = (self.freedom[0] + 1) / (self.freedom[0] + far)
            far = (self.terms[self.issue] ** 2 + self.sure.diagonal()[self.issue]) / spreads.issue**2
            self.common = (self.freedom[1] + 1) / (self.freedom[1] + far)
        return self

    def _kin_of(self, issue: tuple):
        """Its kinship with each of the issues, worked out once."""
        if issue not in self._kins:
            self._kins[issue] = self.kin([issue], self.issues)[0]
        return self._kins[issue]

    def own_spread(self, counts: float) -> tuple[float, float]:
        """This type's spread of a sale, drawn towards the market's as if that rested on `counts` sales, and on how many
        it rests with those; strays fall out."""
        import numpy as np

        sound = self.age_weight * np.minimum(self.robust, 1.0) ** 2
        square, cases = float((sound * self.left**2).sum()), float((sound * (1 - self.pull)).sum())
        return ((counts * self.spreads.sale**2 + square) / (counts + cases)) ** 0.5, counts + cases

    def moments(self) -> dict[str, tuple[float, float]]:
        """What this type says of the spreads of its terms: (sum of squares, number of cases that the sales determine)."""
        import numpy as np

        found, parts = {}, {"rung": (self.walk, self.stride), "slope": (slice(1, 2), np.eye(1)),
                            "issue": (self.issue, self.unlike * np.outer(self.common, self.common) ** 0.5),
                            "group": (self.group, np.eye(len(self.groups)))}  # fmt: skip
        for name, (part, apart) in parts.items():
            term, known = self.terms[part], getattr(self.spreads, name) ** 2
            told = len(term) - float((apart * self.sure[part, part]).sum()) / known
            found[name] = (float(term @ apart @ term), max(told, 0.0))
        return found

    def surprises(self):
        """How far each sale lies from what the others say of it, in deviations of such a prediction, and its age's weight."""
        import numpy as np

        heft = self.age_weight * self.robust / self.own**2
        without = self.pull / (heft * (1 - self.pull))  # variance of the prediction from the others
        return np.abs(self.left) / (1 - self.pull) / np.sqrt(self.own**2 + without), self.age_weight

    def read(self, places, issue: tuple, group: tuple):
        """(value, variance) at each of `places` for coins of that issue and group, a further sale's own spread left out."""
        import numpy as np

        spread, at = self.spreads, self.axis.walked(places)
        L = np.zeros((len(places), self.group.stop))
        L[:, 0], L[:, 1] = 1.0, self.axis.steep(places) - self.origin
        right = np.clip(np.searchsorted(self.walked, at), 0, len(self.walked) - 1)
        left = np.maximum(right - (self.walked[right] > at), 0)
        gap = self.walked[right] - self.walked[left]
        part = np.where(gap > 0, (at - self.walked[left]) / np.where(gap > 0, gap, 1.0), 0.0)
        rest = spread.rung**2 * np.where(gap > 0, gap * part * (1 - part), np.abs(at - self.walked[right]))
        for rung, share in ((left, 1 - part), (right, part)):
            on = np.flatnonzero(rung > 0)
            L[on, 1 + rung[on]] += share[on]
        kin = self._kin_of(issue)
        by, known = self.unlike @ kin, issue in self.issues
        L[:, self.issue] = by * (self.common / (self.common[self.issues.index(issue)] if known else 1.0)) ** 0.5
        rest = rest + spread.issue**2 * max(1.0 - float(kin @ by), 0.0)
        if group in self.groups:
            L[:, self.group.start + self.groups.index(group)] = 1.0
        else:
            rest = rest + spread.group**2
        return self.middle + L @ self.terms, ((L @ self.sure) * L).sum(axis=1) + rest

    def weights(self, places, issue: tuple, group: tuple):
        """Weight of each sale beside one today of the very coin asked about, 0 to 1: by age, by how stray it is, and by
        how much like it it must be. A row for each of `places`; None: each sale at its own place, one row."""
        import numpy as np

        spread = self.spreads
        apart = 2 * spread.issue**2 * (1 - self._kin_of(issue)[self.issue_of])
        apart = apart + 2 * spread.group**2 * np.array([each != group for each in self.groups])[self.group_of]
        if places is not None:
            steep = self.axis.steep(self.place) - self.axis.steep(places)[:, None]
            walked = self.axis.walked(self.place) - self.axis.walked(places)[:, None]
            apart = apart + spread.rung**2 * np.abs(walked) + (spread.slope * steep) ** 2
        return self.age_weight * np.minimum(self.robust, 1.0) * self.own**2 / (self.own**2 + apart)


def learn(fits: list[Fit], spreads: Spreads, counts: float, rounds: int = 8) -> Spreads:
    """The spreads that the fits show, each drawn towards `spreads` as if that rested on `counts` cases.

    Of terms: squares over the number of well-determined cases (MacKay 1992). Of a sale: the median deviation of what is
    left, standardised, so that strays do not count. Leaves the fits solved with them.
    """
    import numpy as np

    now, telling = spreads, fits[:: -(-len(fits) // _TELLING) or 1]
    for _ in range(rounds if fits else 0):
        sums = {name: [counts * getattr(spreads, name) ** 2, counts] for name in ("rung", "slope", "issue", "group")}
        for fit in telling:
            for name, (square, cases) in fit.solve(now, rounds=2).moments().items():
                sums[name][0] += square
                sums[name][1] += cases
        far = np.concatenate([np.abs(fit.left) / np.sqrt(1 - fit.pull) for fit in telling])
        told = np.concatenate([fit.age_weight * (1 - fit.pull) for fit in telling])
        sale = _MAD * quantile(far, told, 0.5)
        sums["sale"] = counts * spreads.sale**2 + told.sum() * sale**2, counts + told.sum()
        now = replace(now, **{name: float(square / cases) ** 0.5 for name, (square, cases) in sums.items()})
    for fit in fits:
        fit.solve(now)
    return now


def _numbered(keys: list):
    """The different keys, as they first come, and the number of each one's key."""
    import numpy as np

    number: dict = {}
    of = [number.setdefault(key, len(number)) for key in keys]
    return list(number), np.array(of, dtype=int)
