"""What a coin is worth, on made-up markets whose truth is known. Prints errors, the reach of the interval, and times.

    python tests/bench/worth.py [--worlds 4] [--types 150] [--first 9000] [--sales 100000]

A world has types with an own curve over the ladder (steps of uneven height), issues with levels (a few scarce ones; dates
near each other alike), an own spread of sales, grades in clumps, and its own trend with a wobble. A stray price, twice to
six times too high or too low, is one in twenty. None of it is drawn from the model that the estimate supposes. Asked is
one further sale of each type, an ordinary one, of a grade that has a sale or lies between two (grades and issues drawn as
the sales were). The random numbers begin at --first; those of worlds below 9,000 were looked at when defaults were set.

- plain: the median of the type's sales of that very grade (buyers who look up the last prices do that)
- between: medians of grades joined by straight lines in the logarithm
- least: what stays of the error of one sale if the true price is known; no estimate can be below
- bars: at 6 sales a type, 25 % below plain, against the true price (all worlds together); 75 to 85 of 100 further sales
  inside low to high; 100,000 sales in 5 s
"""

import argparse
import os
import time
from datetime import date, timedelta

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the desk does (cli.py)
import numpy as np

from exergue.money.evidence import Market
from exergue.money.rungs import MINT_STATE, PLACE
from exergue.money.sales import Sale, Target

TODAY = date(2026, 6, 30)
USUAL = np.array([grade for grade, place in PLACE.items() if place == int(place)])
COUNTS = (3, 6, 12, 30)
FIGURES = ("ours", "between", "ours*", "between*", "plain*", "true", "true*", "plain true*", "least*", "inside", "width")


class World:
    """Truth of one market, and sales from it."""

    def __init__(
        self, rng: np.random.Generator, types: int, *, issues: int, spread=(0.15, 0.40), trend=0.03, stray=0.05, clumps=False,
    ):  # fmt: skip
        self.rng, self.stray, self.clumps = rng, stray, clumps
        top = len(USUAL)
        steep = rng.gamma(6, 0.15 / 6, (types, 1)) + np.where(np.arange(top) > MINT_STATE, rng.gamma(4, 0.14 / 4, (types, 1)), 0)
        uneven = rng.gamma(4, 1 / 4, top) * rng.gamma(12, 1 / 12, (types, top))  # partly alike in all types
        self.curve = rng.uniform(6, 10.5, (types, 1)) + np.cumsum(steep * uneven, axis=1)
        self.issues = np.ones(types, int) if issues == 1 else rng.integers(2, issues + 1, types)
        self.level = []
        for count in self.issues:
            common = np.convolve(rng.normal(0, 0.25, count + 4), np.ones(5) / 5**0.5, "valid")
            scarce = np.where(rng.random(count) < 0.15, rng.exponential(0.9, count), 0.0)
            self.level.append(common + scarce + rng.normal(0, 0.12, count) if count > 1 else np.zeros(1))
        self.first = rng.integers(1796, 1900, types)
        self.noise = rng.uniform(*spread, types)
        self.middle = rng.integers(8, 28, types)
        weeks = 12 * 52
        self.market = -np.concatenate([[0], np.cumsum(rng.normal(trend / 52, 0.008, weeks))])

    def truth(self, kind: int, issue: int, at: int) -> float:
        """Logarithm of today's usual price."""
        return self.curve[kind, at] + self.level[kind][issue]

    def draw(self, kind: int, stray: float, age: float | None = None) -> tuple[Sale, int, int]:
        rng = self.rng
        width = 2.0 if self.clumps else 6.0
        middle = self.middle[kind] + (rng.choice([-9, 0, 7]) if self.clumps else 0)
        at = int(np.clip(round(rng.normal(middle, width)), 0, len(USUAL) - 1))
        issue = min(int(rng.exponential(0.4) * self.issues[kind]), self.issues[kind] - 1)
        age = min(rng.exponential(2.0), 11.5) if age is None else age
        price = self.truth(kind, issue, at) + self.market[int(age * 52)] + rng.normal(0, self.noise[kind])
        if rng.random() < stray:
            price += rng.choice([-1, 1]) * np.log(rng.uniform(2, 6))
        day = TODAY - timedelta(days=round(age * 365))
        cents = max(round(np.exp(price)), 1)
        return Sale(day, cents, f"type-{kind}", int(USUAL[at]), int(self.first[kind] + issue)), issue, at

    def sales(self, each: int) -> list[Sale]:
        return [self.draw(kind, self.stray)[0] for kind in range(len(self.noise)) for _ in range(each)]


def paid_today(sales):
    found = {}
    for sale in sales:
        found.setdefault(PLACE[sale.grade], []).append(np.log(sale.cents))
    return {place: float(np.median(logs)) for place, logs in sorted(found.items())}


def asked(world: World, each: int, tries: int = 4) -> dict[str, list]:
    """Errors (logarithms, absolute) of each method, and whether the further sale lay inside low to high."""
    sales = world.sales(each)
    market = Market(sales, TODAY)
    by_type = {}
    for sale in sales:
        by_type.setdefault(sale.type, []).append(sale)
    out = {name: [] for name in FIGURES}
    for kind in range(len(world.noise)):
        for _ in range(tries):
            further, issue, at = world.draw(kind, 0.0, age=0.0)
            medians = paid_today(by_type[further.type])
            place, said = PLACE[further.grade], np.log(further.cents)
            if not min(medians) <= place <= max(medians):
                continue
            row = market.table(Target(further.type, further.year, grades=(further.grade,))).at(further.grade)
            between = np.interp(place, list(medians), list(medians.values()))
            truth = world.truth(kind, issue, at)
            out["ours"].append(abs(np.log(row.mid) - said))
            out["true"].append(abs(np.log(row.mid) - truth))
            out["between"].append(abs(between - said))
            out["inside"].append(row.low <= further.cents <= row.high)
            out["width"].append(np.log(row.high / row.low) / 2)
            if place in medians:
                out["ours*"].append(out["ours"][-1])
                out["true*"].append(out["true"][-1])
                out["between*"].append(out["between"][-1])
                out["plain*"].append(abs(medians[place] - said))
                out["least*"].append(abs(truth - said))
                out["plain true*"].append(abs(medians[place] - truth))
    return out


WORLDS = {
    "one issue": dict(issues=1),
    "several issues": dict(issues=40),
    "clumped grades": dict(issues=15, clumps=True),
    "noisy": dict(issues=15, spread=(0.3, 0.6), stray=0.10),
    "quiet": dict(issues=15, spread=(0.05, 0.15), stray=0.02),
    "rising fast": dict(issues=15, trend=0.10),
    "falling": dict(issues=15, trend=-0.06),
}


def errors(first: int, worlds: int, types: int) -> None:
    print("Median error of one further sale, in hundredths of the natural logarithm (near percent);")
    print(f"worlds {first} to {first + worlds - 1} of each kind, {types} types each. * where the very grade has a sale.")
    print("Truth: against the true price of that coin instead of one sale of it.\n")
    print(f"{'market':16s} {'sales':>5s} {'asked':>6s} |"
          f" {'ours*':>6s} {'plain*':>6s} {'betw.*':>6s} {'least*':>6s} {'lower':>6s} | {'ours':>6s} {'betw.':>6s} |"
          f" {'truth*':>6s} {'plain*':>6s} {'lower':>6s} | {'inside':>6s} {'width':>6s}")  # fmt: skip
    every = {each: {} for each in COUNTS}
    for name, shape in WORLDS.items():
        for each in COUNTS:
            out = {}
            for number in range(first, first + worlds):
                world = World(np.random.default_rng(number), types, **shape)
                for key, some in asked(world, each).items():
                    out.setdefault(key, []).extend(some)
                    every[each].setdefault(key, []).extend(some)
            line(name, each, out)
    for each, out in every.items():
        line("all of them", each, out)


def line(name: str, each: int, out: dict) -> None:
    of = {key: 100 * float(np.median(some)) for key, some in out.items() if key not in ("inside", "width")}
    print(f"{name:16s} {each:5d} {len(out['ours']):6d} |"
          f" {of['ours*']:6.1f} {of['plain*']:6.1f} {of['between*']:6.1f} {of['least*']:6.1f}"
          f" {100 * (1 - of['ours*'] / of['plain*']):5.0f}% | {of['ours']:6.1f} {of['between']:6.1f} |"
          f" {of['true*']:6.1f} {of['plain true*']:6.1f} {100 * (1 - of['true*'] / of['plain true*']):5.0f}% |"
          f" {100 * np.mean(out['inside']):5.1f}% ±{100 * np.expm1(np.median(out['width'])):4.0f}%")  # fmt: skip


def times(first: int, count: int) -> None:
    Market(World(np.random.default_rng(first), 5, issues=2).sales(5), TODAY).table(Target("type-0"))  # libraries are loaded
    print(f"\n{count:,} sales, a table for one coin of every type; seconds by the clock (of this processor):")
    for types in (300, 1000, 5000):
        world = World(np.random.default_rng(first), types, issues=40)
        sales = world.sales(count // types)
        marks = [(time.perf_counter(), time.process_time())]
        market = Market(sales, TODAY)
        marks.append((time.perf_counter(), time.process_time()))
        for later in (0, 1):
            for kind in range(types):
                market.table(Target(f"type-{kind}", int(world.first[kind]) + later))
            marks.append((time.perf_counter(), time.process_time()))
        (whole, worked), (at_large, _), (more, _) = [
            (after[0] - before[0], after[1] - before[1])
            for before, after in ((marks[0], marks[2]), (marks[0], marks[1]), (marks[2], marks[3]))
        ]
        print(f"{types:6,} types: {whole:5.2f} ({worked:.2f}), bar 5; of it the market at large {at_large:.2f};"
              f" a table more {1000 * more / types:.2f} ms")  # fmt: skip


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--worlds", type=int, default=4)
    parser.add_argument("--types", type=int, default=150)
    parser.add_argument("--first", type=int, default=9000)
    parser.add_argument("--sales", type=int, default=100_000)
    said = parser.parse_args()
    if said.worlds:
        errors(said.first, said.worlds, said.types)
    if said.sales:
        times(said.first, said.sales)


if __name__ == "__main__":
    main()
