"""How long a plan takes on the phone: 150 wants of 10 grades each, the processor slowed. Prints figures and bars.

    python tests/bench/plan_phone.py [--slower 4]

The wants are those of plan.py. Printed: from the wants to the plan, the longest piece of work on the main thread meanwhile, and
what another budget, and three shows, take then.
"""

import argparse
import json
from dataclasses import asdict

from board import WATCH
from phone import Book, Desk, Phone, browsers, figure, stage
from plan import BUDGET, GRADES, WANTS, wanted

from exergue.coins import pack

RUN = """async ({wants, grades, budget}) => {
  const [{makePlanner, changes}, {makeRungs}, {paced}] = await Promise.all(['plan/planner', 'plan/rungs', 'engine/idle'].map((one) => import(`/web/${one}.js`)));
  const rungs = makeRungs(grades);
  const timed = async (work) => { const began = performance.now(); const result = await work(); return [performance.now() - began, result]; };
  const [first, planner] = await timed(() => makePlanner(wants, rungs, paced()));
  const [again, plan] = await timed(() => planner.plan(budget));
  const [more] = await timed(() => changes(plan, planner.plan(budget + 10000)).length + planner.steps().length);
  const [shows] = await timed(() => planner.overShows([budget / 3, budget / 3, budget / 3].map(Math.floor)));
  return {first, again, more, shows, coins: plan.picks.length, points: plan.points};
}"""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--slower", type=int, default=4)
    slower = parser.parse_args().slower
    given = json.loads(json.dumps({"wants": [asdict(want) for want in wanted()], "grades": pack.grades(), "budget": BUDGET}))
    with stage() as (playwright, folder):
        Book.create(folder / "book", name="Bench")
        with Desk(folder / "book") as desk:
            phone = Phone(playwright, desk, folder / "phone").goto()
            browsers.throttle(phone.page, slower)
            print(f"\n{WANTS} wants × {len(GRADES)} grades, processor {slower} times slower:")
            phone.page.evaluate(WATCH)
            phone.idle().page.evaluate("new Promise((done) => setTimeout(done, 2000))")
            figure("longest piece of work of two seconds' rest", phone.page.evaluate("stop()")["longest"], beside="(what the machine itself takes)")
            for turn in ("first", "once more"):
                phone.page.evaluate(WATCH)
                said = phone.page.evaluate(RUN, given)
                longest = phone.page.evaluate("stop()")["longest"]
                figure(f"the planner of all wants, {turn}", said["first"], beside=f"({said['coins']} coins, {said['points']} points)")
                figure("a plan from it", said["again"])
                figure("what one more step buys, all budgets", said["more"])
                figure("three shows", said["shows"])
                figure("longest piece of work meanwhile", longest, beside="(bar 50; none is 0)")
            phone.close()


if __name__ == "__main__":
    main()
