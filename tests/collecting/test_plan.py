"""What to buy with a budget: against every possible choice, and against scipy's integer programming."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from exergue.collecting.knapsack import Table
from exergue.collecting.plan import Option, Planner, Sought, changes
from exergue.collecting.slots import Slot

group = st.lists(st.tuples(st.integers(0, 20), st.integers(1, 12)), max_size=3)
groups = st.lists(group, max_size=4)


def by_trial(groups, budget):
    """(greatest value, least cents for it) of every choice of at most one option a group."""
    tried = (list(one) for one in product(*([(0, 0), *g] for g in groups)))
    sums = ((sum(v for _, v in one), -sum(c for c, _ in one)) for one in tried)
    value, cents = max(each for each in sums if -each[1] <= budget)
    return value, -cents


def taken(groups, chosen):
    picked = [g[at] for g, at in zip(groups, chosen, strict=True) if at is not None]
    return sum(v for _, v in picked), sum(c for c, _ in picked)


@given(groups, st.integers(0, 60))
def test_no_other_choice_within_the_money_is_better_or_as_good_and_cheaper(groups, budget):
    table = Table(groups)
    assert taken(groups, table.choose(budget)) == by_trial(groups, budget)
    assert table.value(budget) == by_trial(groups, budget)[0]


@given(groups)
def test_the_steps_are_all_the_budgets_at_which_more_can_be_had(groups):
    table = Table(groups)
    every = [(budget, table.value(budget)) for budget in range(0, 85)]
    rises = [(0, every[0][1])] + [now for was, now in zip(every, every[1:], strict=False) if now[1] > was[1]]
    assert table.steps() == rises


@pytest.mark.parametrize("start", range(6))
def test_large_plans_agree_with_integer_programming(start):
    """scipy's milp (HiGHS), another method: one variable an option, one row a group."""
    random = np.random.default_rng(start)
    many = 40
    offers = [[(int(random.integers(1_000, 400_000)), int(random.integers(1, 150))) for _ in range(6)] for _ in range(many)]
    budget = int(random.integers(200_000, 2_000_000))
    cents, value = (np.array([one[at] for of in offers for one in of], dtype=float) for at in (0, 1))
    rows = np.zeros((many + 1, cents.size))
    rows[0] = cents
    for at in range(many):
        rows[at + 1, at * 6 : at * 6 + 6] = 1
    solved = milp(-value, constraints=LinearConstraint(rows, 0, [budget] + [1] * many), bounds=Bounds(0, 1),
                  integrality=np.ones(cents.size), options={"mip_rel_gap": 0})  # fmt: skip
    assert Table(offers).value(budget) == round(-solved.fun)


SLOT = Slot("k", "A slot", ("half-cent/draped-bust",), grade_from="F-12", grade_to="VF-30")  # F-12, 15, VF-20, 25, 30


def want(key="a", *prices, **more):
    options = tuple(Option(grade, cents) for grade, cents in prices)
    return Sought(key, key, more.pop("slot", SLOT), options=options, **more)


def test_points_are_as_the_page_says():
    one = want()
    assert [one.points(g) for g in ("F-12", "F-15", "VF-20", "VF-25", "VF-30")] == [200, 224, 250, 274, 300]
    assert want(priority="high").points("F-12") == 400 and want(priority="low").points("VF-30") == 150
    assert want(has="F-15").points("VF-20") == 2 * (25 - 12) and want(has="VF-20").points("VF-20") == 0


def test_two_slots_filled_come_before_one_filled_well():
    plan = Planner([want("a", ("F-12", 5_000), ("VF-30", 9_000)), want("b", ("F-12", 5_000), ("VF-30", 9_000))]).plan(10_000)
    assert [(p.sought.key, p.option.grade) for p in plan.picks] == [("a", "F-12"), ("b", "F-12")] and plan.cents == 10_000


def test_high_priority_comes_first_where_money_is_short():
    plan = Planner([want("a", ("F-12", 5_000)), want("b", ("F-12", 5_000), priority="high")]).plan(6_000)
    assert [p.sought.key for p in plan.picks] == ["b"] and [w.key for w in plan.left] == ["a"]


def test_of_dates_of_one_grade_the_cheapest_is_bought():
    options = (Option("VF-20", 9_000, issue="1806"), Option("VF-20", 7_000, issue="1807"), Option("F-12", 7_000))
    (pick,) = Planner([Sought("a", "a", SLOT, options=options)]).plan(20_000).picks
    assert (pick.option.issue, pick.option.grade) == ("1807", "VF-20")


def test_what_has_no_price_is_in_no_plan_and_listed():
    planner = Planner([want("none"), want("dear", ("F-12", 5_000), ceiling=4_999), want("pay", ("F-12", 5_000), ceiling=5_000)])
    plan = planner.plan(10**9)
    assert [w.key for w in plan.unpriced] == ["none"] and [w.key for w in plan.dear] == ["dear"]
    assert [p.sought.key for p in plan.picks] == ["pay"]


def test_what_more_money_changes_is_told_want_by_want():
    planner = Planner([want("a", ("F-12", 5_000), ("VF-30", 9_000)), want("b", ("F-12", 8_000))])
    told = changes(planner.plan(9_000), planner.plan(19_000))
    assert [(c.sought.key, c.before and c.before.grade, c.after.grade) for c in told] == [("b", None, "F-12")]
    assert changes(planner.plan(5_000), planner.plan(5_001)) == []


prices = st.lists(st.tuples(st.sampled_from(["F-12", "VF-20", "VF-30"]), st.integers(1, 30)), min_size=1, max_size=2)


@given(st.lists(prices, min_size=1, max_size=4), st.lists(st.integers(0, 25), min_size=1, max_size=3))
def test_over_shows_all_money_buys_the_best_and_each_show_pays_as_early_as_it_can(wants, budgets):
    planner = Planner([want(f"w{at}", *of) for at, of in enumerate(wants)])
    plans = planner.over_shows(budgets)
    whole = planner.plan(sum(budgets))
    assert sorted(p.sought.key for plan in plans for p in plan.picks) == sorted(p.sought.key for p in whole.picks)
    assert sum(plan.points for plan in plans) == whole.points
    waiting, purse = list(whole.picks), 0
    for budget, plan in zip(budgets, plans, strict=True):
        purse += budget
        assert plan.cents <= purse and plan.budget == purse
        assert plan.points == by_trial([[(p.option.cents, p.points)] for p in waiting], purse)[0]
        waiting = [p for p in waiting if p.sought.key not in {q.sought.key for q in plan.picks}]
        purse -= plan.cents
    assert waiting == []
