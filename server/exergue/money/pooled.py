"""The market at large: what all sales together say of steps of grade, of the years, and of designations and problems.

One robust regression of the logarithm of the price, inside types, so that a type's own level plays no part. The
coefficients are drawn towards what worth.toml expects, as much as little evidence needs it (a ridge). Stray prices
lose weight by Huber's function at 1.345 scaled deviations (Huber 1964; its influence is bounded).
"""

from dataclasses import dataclass, field
from functools import cached_property

from .rungs import MINT_STATE, PLACE

PROBLEM = " problem"  # no designation begins with a blank
_HUBER = 1.345
_MAD = 1.4826  # makes the median deviation of a normal sample its standard deviation
_ROUNDS = 8
_TOP = int(max(PLACE.values()))
_PAST = 15  # years back that the market's level is followed; before that it stands still


@dataclass(frozen=True)
class Pool:
    """Logarithms: what each rung of the ladder adds to the one before (`steps`, never below 0), what each year back
    adds to the price of its time (`risen`), and the `factors` that enough sales vouch for, by designation or PROBLEM.
    `counted`: sales on the thinner side of each."""

    steps: tuple[float, ...]
    risen: tuple[float, ...]
    factors: dict[str, float] = field(default_factory=dict)
    counted: dict[str, int] = field(default_factory=dict)

    def shape(self, place):
        """What places on the ladder add to the lowest; linear between rungs, never falling. An array."""
        import numpy as np

        return np.interp(place, *self._shape)

    def unevenness(self, place):
        """The sum of squared steps up to each of `place`: how fast a type's own curve may leave the market's shape."""
        import numpy as np

        return np.interp(place, *self._unevenness)

    @cached_property
    def _shape(self):
        return _summed(self.steps)

    @cached_property
    def _unevenness(self):
        return _summed([step**2 for step in self.steps])

    def since(self, years):
        """What brings a price so many years old to today's level; linear inside a year. An array."""
        import numpy as np

        return np.interp(years, np.arange(_PAST + 1), np.concatenate([[0.0], np.cumsum(self.risen)]))

    def knows(self, designation: str, problem: bool) -> bool:
        """Whether such coins can be compared with plain, sound ones."""
        return (not designation or designation in self.factors) and (not problem or PROBLEM in self.factors)

    def factor(self, designation: str, problem: bool) -> float:
        return self.factors.get(designation, 0.0) + (self.factors.get(PROBLEM, 0.0) if problem else 0.0)


def _summed(steps):
    """(places of the ladder, the sum of the steps up to each)."""
    import numpy as np

    return np.arange(len(steps) + 1), np.concatenate([[0.0], np.cumsum(steps)])


def pool(log_price, type_of, place, years, weight, designation, problem, settings) -> Pool:
    """The Pool of sales given as arrays; `type_of` numbers types from 0, `years` is the age, `weight` that of the age."""
    import numpy as np
    from scipy.sparse import csr_array

    names, thinner, flags = _compared(type_of, designation, problem)
    expected, P = _expected(settings, len(names))
    rows = np.arange(len(place))
    X = csr_array(np.column_stack([_between(place, _TOP), -_between(years, _PAST), *flags]))
    G = csr_array((np.ones(len(rows)), (rows, type_of)), shape=(len(rows), max(type_of, default=-1) + 1))
    told = np.asarray(log_price, float) - X @ expected
    robust, scale, more = np.ones(len(told)), 3 * settings.sale, np.zeros(len(expected))
    for _ in range(_ROUNDS if len(told) else 0):
        heft = weight * robust
        XH, sums = X.T * heft, G.T @ heft
        XG = (XH @ G).toarray()
        A = (XH @ X).toarray() - (XG / sums) @ XG.T
        mean = G.T @ (heft * told) / sums
        more = np.linalg.solve(A / scale**2 + P, (XH @ told - XG @ mean) / scale**2)
        left = told - X @ more
        left = np.abs(left - G @ (G.T @ (heft * left) / sums))
        apart = left[left > 1e-9]
        scale = max(_MAD * float(np.median(apart)) if len(apart) > 5 else 3 * settings.sale, 0.02)
        robust = np.minimum(1.0, _HUBER * scale / np.maximum(left, 1e-12))
    found = expected + more
    steps, risen, factors = np.diff(found[: _TOP + 1]), np.diff(found[_TOP + 1 : _TOP + _PAST + 2]), found[_TOP + _PAST + 2 :]
    enough = {name: float(value) for name, value in zip(names, factors, strict=True) if thinner[name] >= settings.factor_sales}
    risen = risen if settings.follow_market else np.zeros(_PAST)
    return Pool(tuple(np.maximum(steps, 0.0).tolist()), tuple(risen.tolist()), enough, thinner)


def _between(at, last: int):
    """For each of `at` its shares of the whole numbers 0 to `last` beside it; beyond the last, all of that."""
    import numpy as np

    at = np.minimum(at, last)
    below, rows = np.minimum(at.astype(int), last - 1), np.arange(len(at))
    shares = np.zeros((len(at), last + 1))
    shares[rows, below], shares[rows, below + 1] = below + 1 - at, at - below
    return shares


def _expected(settings, names: int):
    """What is expected of each coefficient (rungs, years, factors), and how surely, as a matrix of precisions."""
    import numpy as np
    from scipy.linalg import block_diag

    def walk(kinds):
        level, common, own = np.array([getattr(settings, kind) for kind in kinds]).T
        same = np.array([[one == other for other in kinds] for one in kinds])
        steps = np.diff(np.eye(len(kinds) + 1), axis=0)
        sure = np.linalg.inv(np.where(same, np.outer(common, common), 0.0) + np.diag(own**2))
        return np.concatenate([[0.0], np.cumsum(level)]), steps.T @ sure @ steps + 1e-6

    rungs, sure_rungs = walk(["mint" if rung >= MINT_STATE else "worn" for rung in range(_TOP)])
    past, sure_past = walk(["trend"] * _PAST)
    factor, apart = settings.factor
    return np.concatenate([rungs, past, [factor] * names]), block_diag(sure_rungs, sure_past, np.eye(names) / apart**2)


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
