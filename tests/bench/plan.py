"""How long a plan takes: 150 wants of 10 grades each. Aim: exact within 2 s. Prints seconds."""

import random
import time

from exergue.collecting.plan import Option, Planner, Sought
from exergue.collecting.slots import Slot

GRADES = ("G-4", "VG-8", "F-12", "VF-20", "VF-30", "EF-40", "EF-45", "AU-50", "AU-55", "MS-63")
WANTS, BUDGET = 150, 5_000_000


def wanted() -> list[Sought]:
    """Wants of mixed priorities, some of them to be bettered."""
    draw = random.Random(7)
    slot = Slot("k", "A slot", ("half-cent/draped-bust",), grade_from="G-4", grade_to="MS-63")
    wants = []
    for at in range(WANTS):
        cents, options = draw.randrange(1_000, 40_000), []
        for grade in GRADES:
            cents = int(cents * draw.uniform(1.1, 1.9))
            options.append(Option(grade, cents))
        priority = draw.choice(("high", "usual", "low"))
        has = draw.choice(("", "", "VG-8"))
        wants.append(Sought(f"w{at}", "A want", slot, priority, has, None, tuple(options)))
    return wants


def main() -> None:
    wants = wanted()
    begun = time.perf_counter()
    planner = Planner(wants)
    plan = planner.plan(BUDGET)
    made = time.perf_counter()
    more = planner.plan(BUDGET + 10_000)
    planner.over_shows([BUDGET // 3] * 3)
    done = time.perf_counter()
    print(f"{WANTS} wants × {len(GRADES)} grades: {made - begun:.2f} s for a plan of {len(plan.picks)} coins, {plan.points} points")
    print(f"one more $100 ({more.points - plan.points} points) and three shows: {done - made:.2f} s more")
    print(f"budgets at which more can be had: {len(planner.steps()):,}")


if __name__ == "__main__":
    main()
