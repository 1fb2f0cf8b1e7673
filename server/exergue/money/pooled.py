"""The market at large: what all sales together say of steps of grade, of the trend, and of designations and problems.

One robust regression of the logarithm of the price, inside types, so that a type's own level plays no part. The
coefficients are drawn towards what worth.toml expects, as much as little evidence needs it (a ridge). Stray prices
lose weight by Huber's function at 1.345 scaled deviations (Huber 1964; its influence is bounded).
"""

from dataclasses import dataclass, field

from .rungs import MINT_STATE

PROBLEM = " problem"  # no designation begins with a blank
_HUBER = 1.345
_MAD = 1.4826  # makes the median deviation of a normal sample its standard deviation
_ROUNDS = 12


@dataclass(frozen=True)
class Pool:
    """Logarithms: a rung `worn` and in `mint` state, `trend` a year, and the `factors` that enough sales vouch for."""

    worn: float
    mint: float
    trend: float
    factors: dict[str, float] = field(default_factory=dict)  # designation, or PROBLEM
    counted: dict[str, int] = field(default_factory=dict)  # sales on the thinner side of each comparison

    def shape(self, place):
        """What a place on the ladder adds, from the lowest rung on; never falls. Arrays or one number."""
        import numpy as np

        place = np.asarray(place, float)
        return self.worn * np.minimum(place, MINT_STATE) + self.mint * np.maximum(place - MINT_STATE, 0.0)

    def knows(self, designation: str, problem: bool) -> bool:
        """Whether such coins can be compared with plain, sound ones."""
        return (not designation or designation in self.factors) and (not problem or PROBLEM in self.factors)

    def factor(self, designation: str, problem: bool) -> float:
        return self.factors.get(designation, 0.0) + (self.factors.get(PROBLEM, 0.0) if problem else 0.0)


def pool(log_price, type_of, place, years, weight, designation, problem, settings) -> Pool:
    """The Pool of sales given as arrays; `type_of` numbers types from 0, `years` is the age, `weight` that of the age."""
    import numpy as np

    names, thinner, flags = _compared(type_of, designation, problem)
    columns = [np.minimum(place, MINT_STATE), np.maximum(place - MINT_STATE, 0.0), -years, *flags]
    expected = np.array([settings.worn, settings.mint, settings.trend] + [settings.factor] * len(names))
    X = np.column_stack(columns)
    told = y = np.asarray(log_price, float) - X @ expected[:, 0]
    robust, scale = np.ones(len(y)), 3 * settings.sale
    more = np.zeros(len(expected))
    for _ in range(_ROUNDS if len(y) else 0):
        heft = weight * robust
        sums = np.bincount(type_of, heft)
        mean = lambda column: (np.bincount(type_of, heft * column) / sums)[type_of]  # noqa: B023,E731
        inner = np.column_stack([column - mean(column) for column in X.T])
        told = y - mean(y)
        A = (inner * heft[:, None]).T @ inner / scale**2 + np.diag(expected[:, 1] ** -2)
        more = np.linalg.solve(A, (inner * heft[:, None]).T @ told / scale**2)
        left = np.abs(told - inner @ more)
        apart = left[left > 1e-9]
        scale = max(_MAD * float(np.median(apart)) if len(apart) > 5 else 3 * settings.sale, 0.02)
        robust = np.minimum(1.0, _HUBER * scale / np.maximum(left, 1e-12))
    found = expected[:, 0] + more
    enough = {name: value for name, value in zip(names, found[3:], strict=True) if thinner[name] >= settings.factor_sales}
    trend = float(found[2]) if settings.follow_market else 0.0
    return Pool(max(float(found[0]), 0.0), max(float(found[1]), 0.0), trend, {k: float(v) for k, v in enough.items()}, thinner)


def _compared(type_of, designation, problem):
    """Names of what is compared, sales on the thinner side summed over types, and a column of 0 and 1 for each."""
    import numpy as np

    names, thinner, flags = [], {}, []
    words = {d: designation == d for d in sorted(set(designation)) if d}
    if problem.any():
        words[PROBLEM] = problem
    for name, flag in words.items():
        other = ~flag if name == PROBLEM else designation == ""
        count = np.bincount(type_of), np.bincount(type_of, flag), np.bincount(type_of, other)
        thinner[name] = int(np.minimum(count[1], count[2]).sum())
        names.append(name)
        flags.append(flag.astype(float))
    return names, thinner, flags
