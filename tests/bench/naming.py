"""Names random coins of the catalogue with the phone's own modules, in Chromium. Prints figures and bars.

    python tests/bench/naming.py [--coins 10000] [--seed 1793] [--made-up 0] [--slower 4]

Coins are drawn evenly over types (or by --prior), then over issues, and spread over the rows of the table: a grade (which hides questions
and wears weights), a rate of wrong answers (any other value, another digit, another measure), and a rate of "cannot tell".
A feature of which the catalogue says nothing for the type is answered "cannot tell".

- questions: asked on average until the engine stops.
- entropy bound: bits learned ÷ the most that any question on offer could tell at each step, on average.
- least: what no way of asking could go below, were every answer sure: found by trying every first question and, for each of
  its answers, every second one.
- top-1, top-3: the true type is first, among the first three. top-1 of what can be told apart leaves out the types whose
  answers are those of another one.
- stated: mean of the probability that the engine gave to its first choice; calibration: how often it was right.
The row "sure" runs the engine with every error rate set to 0, and asks the same of the bound; the others use the rates of
the data, which the engine believes whatever the row does.
"""

import argparse
import json
import sys
from pathlib import Path

from phone import Desk, browsers, figure, median, stage

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from support import made_up  # noqa: E402

from exergue.coins import catalogue  # noqa: E402
from exergue.records.book import Book  # noqa: E402

SCRIPT = Path(__file__).with_suffix(".js").read_text("utf-8").split("\n", 1)[1]
GRADES = ("MS-63", "VF-20", "G-4")
# name, sure, wrong answers, cannot tell, features never answered
ROWS = (
    ("sure", True, 0, 0, ()), ("no wrong answer", False, 0, 0, ()), ("3 in 100 wrong", False, 0.03, 0.03, ()),
    ("1 in 10 wrong", False, 0.1, 0, ()), ("1 in 10 wrong or unsure", False, 0.1, 0.1, ()), ("no date", False, 0, 0, ("date",)),
)  # fmt: skip


class Trials:
    def __init__(self, page, pack: dict, seed: int):
        self.page, self.pack, self.seed = page, pack, seed

    def run(self, task: str, **given):
        given = {"seed": self.seed, "rate": 0, "unsure": 0, "blind": [], "sure": False, "grade": "VF-20", "prior": "uniform", "coins": 1} | given
        return self.page.evaluate(SCRIPT, {"task": task, "pack": self.pack, "given": given})


def accuracy(trials: Trials, coins: int, prior: str) -> list[tuple[float, bool]]:
    """Prints the table; returns (stated probability, right) of every coin with the data's own error rates or less."""
    each = coins // (len(ROWS) * len(GRADES))
    stated = []
    print(f"\n{each * len(ROWS) * len(GRADES):,} coins:\n"
          f"  {'grade':<6} {'answers':<24} {'questions':>9} {'bound':>6} {'ratio':>6} {'least':>6} {'top-1':>7} {'apart':>7} {'top-3':>7} {'stated':>7}")  # fmt: skip
    for grade in GRADES:
        least, alike = trials.run("bound", grade=grade)["least"], set(trials.run("alike", grade=grade))
        for name, sure, rate, unsure, blind in ROWS:
            said = trials.run("trial", grade=grade, coins=each, sure=sure, rate=rate, unsure=unsure, blind=list(blind), prior=prior)
            total, results = said["total"], said["results"]
            right = [rank == 0 for _, rank, _, _ in results]
            apart = [rank == 0 for t, rank, _, _ in results if t not in alike]
            questions = total["asked"] / each
            bound = (total["before"] - total["after"]) / (total["most"] / total["asked"]) / each
            print(f"  {grade:<6} {name:<24} {questions:>9.2f} {bound:>6.2f} {questions / bound:>6.3f} {least:>6.2f} {mean(right):>7.2%} {mean(apart):>7.2%}"
                  f" {mean([rank < 3 for _, rank, _, _ in results]):>7.2%} {mean([top for _, _, top, _ in results]):>7.2%}", flush=True)  # fmt: skip
            if not sure and rate <= 0.03:
                stated += [(top, rank == 0) for _, rank, top, _ in results]
        print(f"         types that look alike at {grade}: {len(alike)} of {said['count']}")
    return stated


def mean(values) -> float:
    values = list(values)
    return sum(values) / max(1, len(values))


def calibration(stated: list[tuple[float, bool]]) -> None:
    print("\nstated probability of the first choice, and how often it was right (rows up to 3 in 100 wrong):")
    edges = (0, 0.5, 0.7, 0.9, 0.98, 0.995, 1.0001)
    for low, high in zip(edges, edges[1:], strict=False):
        inside = [(p, right) for p, right in stated if low <= p < high]
        if inside:
            print(f"  {low:>5.3f} to {min(high, 1):<5.3f} {len(inside):>6} coins   stated {mean(p for p, _ in inside):.3f}   right {mean(r for _, r in inside):.3f}")


def strangers(trials: Trials, coins: int) -> None:
    """Coins that the catalogue does not have; no answer is wrong. The nearest type is often named: see what contradicts."""
    found = trials.run("strangers", coins=coins)
    print(f"\n{coins} coins whose type was taken out of the catalogue: {found['named'] / coins:.0%} given another name as sure,"
          f" {found['open'] / coins:.0%} left open, {found['none'] / coins:.0%} called none of these; {found['asked'] / coins:.1f} questions")  # fmt: skip


def speed(trials: Trials, slower: int) -> None:
    browsers.throttle(trials.page, slower)
    print(f"\nprocessor {slower} times slower:")
    trials.run("times", coins=60)
    took = sorted(trials.run("times", coins=150))
    figure("weigh the answers and choose a question, median", median(took), beside="(bar 20)")
    figure("95 in 100 within", took[int(len(took) * 0.95)])
    figure("longest", took[-1])
    figure("prepare, once for a catalogue, median of 5", median([trials.run("preparing") for _ in range(5)]))
    browsers.throttle(trials.page, 1)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--coins", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1793)
    parser.add_argument("--made-up", type=int, default=0, metavar="TYPES", help="name made-up coins of so many types instead")
    parser.add_argument("--prior", choices=("uniform", "survivors"), default="uniform", help="how coins are drawn, and what the engine is told of it")
    parser.add_argument("--pack", type=Path, help="take the catalogue from a pack kept as JSON")
    parser.add_argument("--slower", type=int, default=4)
    said = parser.parse_args()
    pack = json.loads(said.pack.read_text("utf-8") if said.pack else json.dumps(catalogue.load().pack()))
    if said.made_up:
        pack = made_up.pack(pack, said.made_up)
    print(f"{len(pack['types']['keys'])} types, seed {said.seed}")
    with stage() as (playwright, folder):
        Book.create(folder / "book", name="Bench", currency="USD")
        browser = browsers.launch(playwright)
        with Desk(folder / "book") as desk:
            page = browser.new_page()
            page.goto(desk.address)
            trials = Trials(page, pack, said.seed)
            speed(trials, said.slower)
            calibration(accuracy(trials, said.coins, said.prior))
            strangers(trials, said.coins // 20)
        browser.close()


if __name__ == "__main__":
    main()
