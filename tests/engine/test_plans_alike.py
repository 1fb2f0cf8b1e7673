"""A plan for a budget, the phone's in Chromium against the desk's in Python: the same choice, also among equals."""

import json
import random
from dataclasses import asdict
from datetime import date

import pytest
from support.modules import served_modules

from exergue.coins import pack
from exergue.coins.grades import ladder
from exergue.collecting import filling
from exergue.collecting.knapsack import Table
from exergue.collecting.plan import Option, Planner, Sought, changes
from exergue.collecting.slots import Slot
from exergue.labels import ids
from exergue.records import knowledge, planning, reading

pytestmark = pytest.mark.browser
GRADES = json.loads(json.dumps(pack.grades()))


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    """One page for all that needs no book."""
    yield from served_modules(tmp_path_factory, browser)


def some_groups(draw):
    """Groups of options; small figures, so that there are many ties."""
    top = draw.choice([4, 30, 10**5, 10**12])
    value = draw.choice([3, 12, 200])
    return [[(draw.randrange(top), draw.randrange(1, value)) for _ in range(draw.randrange(5))] for _ in range(draw.randrange(9))]


def test_the_phone_chooses_like_the_desk(module):
    draw = random.Random(41)
    cases = []
    for groups in [[], [[]], *(some_groups(draw) for _ in range(400))]:
        whole = sum(max((cents for cents, _ in group), default=0) for group in groups)
        cases.append({"groups": groups, "budgets": [0, whole, whole + 1, *(draw.randrange(whole + 2) for _ in range(4))]})
    said = module("plan/knapsack", """Promise.all(given.map(async ({groups, budgets}) => {
        const table = await it.makeTable(groups);
        return {steps: table.steps(), chosen: budgets.map((one) => [table.value(one), table.choose(one)])};
    }))""", cases)  # fmt: skip
    for case, phone in zip(cases, said, strict=True):
        table = Table(case["groups"])
        assert phone["steps"] == [list(step) for step in table.steps()]
        assert phone["chosen"] == [[table.value(one), table.choose(one)] for one in case["budgets"]]


def some_wants(draw):
    """Wants with windows, priorities and ceilings, whose prices are often alike."""
    texts = [str(grade) for grade in ladder()]
    wants = []
    for at in range(draw.randrange(1, 9)):
        low, high = sorted(draw.sample(range(len(texts)), 2))
        slot = Slot("k", "", ("half-cent/draped-bust",), grade_from=draw.choice(["", texts[low]]), grade_to=draw.choice(["", texts[high]]),
                    strike=draw.choice(["any", "any", "proof"]))  # fmt: skip
        rungs = filling.rungs(slot)
        options = tuple(Option(draw.choice(rungs), draw.choice([0, 100, 100, 250, 400, 900]), "estimate", draw.choice(["a/a", "a/b"]),
                               draw.choice(["", "1806", "1807-S"])) for _ in range(draw.randrange(5)))  # fmt: skip
        has = draw.choice(["", "", draw.choice(texts), "VF", "AU-50 Details (cleaned)", "VF-30 Details (old net bag) net F-12", "MS-64+ RB"])
        wants.append(Sought(f"w{at}", f"W{at}", slot, draw.choice(["high", "usual", "low"]), has, draw.choice([None, None, 300]), options))
    return wants


def plain(plan):
    """A plan without what both sides were given."""
    return {"picks": [[p.sought.key, asdict(p.option), p.points] for p in plan.picks], "cents": plan.cents, "points": plan.points,
            "budget": plan.budget, **{name: [w.key for w in getattr(plan, name)] for name in ("left", "dear", "unpriced")}}  # fmt: skip


PLAIN = """const plain = (plan) => ({picks: plan.picks.map((p) => [p.sought.key, p.option, p.points]), cents: plan.cents, points: plan.points,
    budget: plan.budget, ...Object.fromEntries(['left', 'dear', 'unpriced'].map((name) => [name, plan[name].map((w) => w.key)]))});
    const told = (found) => found.map((one) => [one.sought.key, one.before, one.after]);"""


def told(found):
    return [[c.sought.key, c.before and asdict(c.before), c.after and asdict(c.after)] for c in found]


def test_the_phone_plans_like_the_desk(module):
    draw = random.Random(42)
    cases = []
    for _ in range(300):
        wants = some_wants(draw)
        most = sum(max((one.cents for one in want.options), default=0) for want in wants)
        cases.append((wants, draw.randrange(most + 50), [draw.randrange(most + 50) for _ in range(draw.randrange(2, 5))]))
    given = {"grades": GRADES, "cases": json.loads(json.dumps([[[asdict(want) for want in wants], budget, shows] for wants, budget, shows in cases]))}
    said = module("plan/planner", """import('/web/plan/rungs.js').then(({makeRungs}) => {
        const rungs = makeRungs(given.grades);
        %s
        return Promise.all(given.cases.map(async ([wants, budget, shows]) => {
            const planner = await it.makePlanner(wants, rungs);
            const [plan, more] = [planner.plan(budget), planner.plan(budget + 200)];
            return {plan: plain(plan), steps: planner.steps(), shows: (await planner.overShows(shows)).map(plain), changes: told(it.changes(plan, more))};
        }));
    })""" % PLAIN, given)  # fmt: skip
    for (wants, budget, shows), phone in zip(cases, said, strict=True):
        planner = Planner(wants)
        plan, more = planner.plan(budget), planner.plan(budget + 200)
        assert phone["plan"] == plain(plan)
        assert phone["steps"] == [list(step) for step in planner.steps()]
        assert phone["shows"] == [plain(one) | {"left": []} for one in planner.over_shows(shows)]
        assert phone["changes"] == told(changes(plan, more))


GOAL = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
YEARS = ["", "", "1806", "1803, 1806-1808", "1800-1830", "1794 or later", "1806,1806", "1806–1807", "3000"]


def recorded(draw, types):
    """Sales of many types, dates, mints and strikes; wants and a set of every shape; coins that fill some slots."""
    acts = []
    for key in types:
        issues = knowledge.catalogue().types[key].issues
        for _ in range(draw.randrange(1, 25)):
            issue, grade = draw.choice(issues[:18]), draw.choice(["G-4", "F-12", "VF-20", "VF-30", "EF-40", "AU-50", "MS-63", "PF-63"])
            about = {"denom": key.partition("/")[0], "type": key, "grade": grade, "price": draw.randrange(500, 90_000), "fee_included": True,
                     "date": f"2026-{draw.randrange(1, 11):02}-05"}  # fmt: skip
            acts.append(("sale.seen", {"set": about | draw.choice([{}, {"year": issue.year, "mint": issue.mint}, {"year": issue.year, "mint": issue.mint}])}))
    grades = ["", "", "F-12", "VF-20", "AU-50", "MS-60"]
    slots = []
    for at in range(30):
        accepted = draw.sample(types, draw.choice([1, 1, 1, 3]))
        issue = draw.choice(knowledge.catalogue().types[accepted[0]].issues)
        more = draw.choice([{}, {}, {"years": str(issue.year)}, {"mints": [issue.mint]}, {"issues": [planning.named(issue.year, issue.mint)]},
                            {"strike": "proof"}, {"strike": "business", "problem_free": True}, {"years": "1800-1840"}])  # fmt: skip
        low, high = sorted((draw.choice(grades), draw.choice(grades)), key=grades.index)
        slots.append({"key": f"s{at}", "title": f"Slot {at}", "types": accepted, "grade_from": low, **({"grade_to": high} if high else {}), **more})
    split = next(key for key in types if knowledge.catalogue().types[key].subtypes)
    slots.append({"key": "part", "title": "A division", "types": [split], "subtype": knowledge.catalogue().types[split].subtypes[0].key})
    acts.append(("set.add", {"goal": GOAL, "set": {"name": "Of every shape", "slots": slots}}))
    for at in range(40):
        goal = {"goal": GOAL, "slot": f"s{draw.randrange(32)}"} if draw.random() < 0.3 else {}
        key = draw.choice([*types, ""])
        what = {"type": key, "denom": key.partition("/")[0]} if key else {"title": draw.choice(["Anything", "Etwas"])}
        what |= draw.choice([{}, {}, {"types": draw.sample(types, 2)}])
        said = {"years": draw.choice(YEARS), "grade_from": draw.choice(grades), "ceiling": draw.choice([None, None, 300, 20_000]),
                "priority": draw.choice(["high", "usual", "low"])}  # fmt: skip
        said = {name: value for name, value in said.items() if value}
        acts.append(("want.add", {"want": f"01890000-0000-7000-8000-0000000002{at:02}", "set": what | goal | said}))
    for key in draw.sample(types, 6):
        acts.append(("coin.add", {"coin": ids.new_id(draw.choice), "set": {"type": key, "denom": key.partition("/")[0], "grade": "F-15", "year": knowledge.catalogue().types[key].years[0]}}))
    return acts


ON_THE_PHONE = """Promise.all(['/web/engine/sought.js', '/web/plan/planner.js', '/web/engine/idle.js'].map((one) => import(one))).then(async ([{lines, priced}, it, {paced}]) => {
    %s
    const found = {};
    for (const [name, read] of [['wants', lines('')], ['open', lines(goal)], ['all', lines(goal, true)]]) {
        const {sought, rungs} = await priced((await read).lines, paced(2));
        const planner = await it.makePlanner(sought, rungs, paced(2));
        found[name] = {sought: sought.map(({slot, ...rest}) => rest), plans: budgets.map((one) => plain(planner.plan(one))),
            shows: (await planner.overShows(budgets)).map(plain), changes: told(it.changes(planner.plan(budgets[0]), planner.plan(budgets[1])))};
    }
    return found;
})""" % PLAIN  # fmt: skip


def test_of_one_book_phone_and_desk_make_the_same_plans(stocked, anna):
    draw = random.Random(43)
    budgets = [120_000, 130_000, 700_000]
    with stocked.book.connected():
        types = [key for key, one in knowledge.catalogue().types.items() if one.denomination in ("half-cent", "large-cent", "dime", "half-dollar")]
        stocked.book.act_all(recorded(draw, types[:24]))
    anna.sync()
    anna.run("import('/web/engine/worth.js').then(({renew}) => renew().then(renew))")  # the first may be one that began before
    phone = anna.run(f"((goal, budgets) => {ON_THE_PHONE})('{GOAL}', {budgets})")
    with stocked.book.connected():
        settings, today = stocked.book.settings(), date.today()
        desk = {"wants": planning.of_wants(settings, today), "open": planning.of_set(GOAL, settings, today), "all": planning.of_set(GOAL, settings, today, True)}
    for name, sought in desk.items():
        asked = [{field: value for field, value in asdict(want).items() if field != "slot"} for want in sought]
        assert phone[name]["sought"] == json.loads(json.dumps(asked)), name
        planner = Planner(sought)
        assert phone[name]["plans"] == [plain(planner.plan(one)) for one in budgets]
        assert phone[name]["shows"] == [plain(one) | {"left": []} for one in planner.over_shows(budgets)]
        assert phone[name]["changes"] == told(changes(planner.plan(budgets[0]), planner.plan(budgets[1])))
    assert sum(len(one.options) > 1 for one in desk["wants"]) > 10 and any(want.has for want in desk["all"])
    assert any(option.issue for want in desk["open"] for option in want.options) and reading.goals()[0]["filled"] > 0
