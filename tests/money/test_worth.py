"""What a coin is worth: what an estimate may say, and what may not move it."""

import random
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from money.markets import TODAY, known, many, sale, table, usual

from exergue.money.assumed import BadAssumption, Settings, read
from exergue.money.evidence import Market, age_weight
from exergue.money.rungs import PLACE
from exergue.money.sales import Target

SALES = st.lists(
    st.builds(
        sale, st.integers(1, 10**10), st.sampled_from(list(PLACE)), days=st.integers(-5, 20_000),
        year=st.sampled_from([None, 1853, 1854, 1901]), type=st.sampled_from(["seated", "bust"]),
        designation=st.sampled_from(["", "full bands"]), problem=st.booleans(), fee_included=st.booleans(),
    ),
    max_size=12,
)  # fmt: skip


@settings(max_examples=60)
@given(SALES, st.sampled_from([None, 1853, 1888]), st.booleans(), st.sampled_from([None, 1, 70_000]))
def test_after_any_evidence_a_better_grade_is_never_worth_less(sales, year, problem, melt):
    rows = known(table(sales, year=year, problem=problem, melt=melt))
    for side in ("low", "mid", "high"):
        line = [getattr(row, side) for row in rows]
        assert line == sorted(line)
    assert all(1 <= row.low <= row.mid <= row.high for row in rows)
    assert all((melt or 1) <= row.low for row in rows)


@settings(max_examples=60)
@given(SALES)
def test_nothing_is_said_further_than_one_rung_outside_the_evidence(sales):
    rows = known(table(sales))
    sold = [PLACE[each.grade] for each in sales if each.type == "seated"]
    assert all(min(sold) - 1 <= PLACE[row.grade] <= max(sold) + 1 for row in rows)


def test_one_rung_outside_is_said():
    rows = known(table([sale(5000, 20), sale(9000, 30)]))
    assert [row.grade for row in rows] == [15, 20, 25, 30, 35]


def test_without_sales_there_is_no_evidence():
    estimate = table([sale(5000, 20, type="bust")])
    assert known(estimate) == [] and estimate.note == "No evidence."
    assert len(estimate.rows) == len(PLACE)


def test_without_sales_of_anything_there_is_no_evidence():
    estimate = table([], grades=(20, 30))
    assert [row.grade for row in estimate.rows] == [20, 30] and known(estimate) == []


def test_to_know_of_the_estimates_loads_no_numerical_library():
    """The server's start does not pay for them."""
    asked = "import sys, exergue.money.evidence, exergue.money.rule; print({'numpy', 'scipy'} & set(sys.modules))"
    assert subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True).stdout == "set()\n"


def test_every_figure_rests_on_sales():
    rows = known(table([sale(9_000, 30, days=9_000, year=1840), sale(9_500, 35, days=9_900, year=1841)], year=1891))
    assert rows and all(row.sales == 2 and row.effective < 0.1 and row.first < row.last for row in rows)


def test_one_sale_is_its_own_middle_with_a_wide_interval():
    row = table([sale(10_000, 20)]).at(20)
    assert row.mid == 10_000
    assert row.low < 7_000 and row.high > 14_000
    assert (row.sales, row.first, row.last) == (1, TODAY, TODAY)


def test_more_sales_narrow_the_interval():
    some, more = (table(many(random.Random(1), count)).at(20) for count in (3, 60))
    assert more.high / more.low < some.high / some.low


def test_many_sales_find_the_true_price():
    estimate = table(many(random.Random(2), 80))
    for grade in (10, 15, 20, 30, 35):
        assert estimate.at(grade).mid == pytest.approx(usual(grade), rel=0.08)


def test_a_stray_price_hardly_moves_the_estimate():
    sales = many(random.Random(3), 12)
    before = table(sales).at(20).mid
    for factor in (20, 0.05, 10_000):
        after = table([*sales, sale(round(usual(20) * factor), 20)]).at(20).mid
        assert after == pytest.approx(before, rel=0.05)


def test_the_further_away_a_stray_price_the_less_it_says():
    sales = many(random.Random(4), 8)
    before = table(sales).at(20).mid
    near, far = (table([*sales, sale(round(usual(20) * factor), 20)]).at(20).mid for factor in (2, 200))
    assert abs(far - before) < abs(near - before)


def test_a_half_life_halves_the_weight_of_a_sale():
    assert [age_weight(days, 400) for days in (0, 400, 800)] == [1, 0.5, 0.25]
    said = Settings(half_life_days=400)
    rows = [table([sale(9000, 20, days=days)], settings=said).at(20) for days in (0, 400)]
    assert rows[1].effective == pytest.approx(rows[0].effective / 2)


def test_sales_older_than_any_half_life_are_still_evidence():
    row = table([sale(9_000, 20, days=40_000)], settings=Settings(half_life_days=30)).at(20)
    assert row.low < 9_000 < row.high and row.sales == 1 and row.effective < 1e-6


def test_of_two_prices_the_newer_counts_more():
    said = Settings(follow_market=False)
    row = table([sale(10_000, 20, days=3000), sale(14_000, 20)], settings=said).at(20)
    assert 12_500 < row.mid < 14_000


def test_old_prices_follow_the_market_if_the_owner_wants():
    sales = [sale(round(10_000 * 1.1 ** -years), 20, days=365 * years, type=f"t{n}") for n in range(30) for years in range(7)]
    sales.append(sale(5_000, 20, days=4 * 365))
    flat, led = (table(sales, settings=Settings(follow_market=on)).at(20).mid for on in (False, True))
    assert flat == pytest.approx(5_000, rel=0.02)
    assert led == pytest.approx(5_000 * 1.1**4, rel=0.06)


def test_a_scarce_date_is_not_priced_as_a_common_one():
    rng = random.Random(5)
    sales = many(rng, 30) + many(rng, 6, level=50_000, year=1870)
    scarce, common = (table(sales, year=year).at(20).mid for year in (1870, 1853))
    assert scarce == pytest.approx(usual(20, 50_000), rel=0.15)
    assert common == pytest.approx(usual(20), rel=0.10)


@pytest.mark.parametrize("factor", [5, 10, 50])
def test_a_lone_sale_of_a_key_date_is_believed_of_that_date_and_of_no_other(factor):
    sales = many(random.Random(18), 30)
    key = sale(round(usual(20) * factor), 20, year=1870)
    row = table([*sales, key], year=1870).at(20)
    assert row.low < key.cents < row.high and key.cents * 0.6 < row.mid <= key.cents
    before, after = (table(all_of, year=1853).at(20).mid for all_of in (sales, [*sales, key]))
    assert after == pytest.approx(before, rel=0.02)


def test_one_sale_of_a_date_moves_its_level_part_of_the_way():
    sales = many(random.Random(6), 60, spread=0.4)
    dear = [sale(round(usual(20) * 2), 20, year=1900) for _ in range(8)]
    none, one, eight = (table([*sales, *dear[:count]], year=1900).at(20).mid for count in (0, 1, 8))
    assert none * 1.1 < one < eight * 0.95
    assert eight == pytest.approx(usual(20) * 2, rel=0.1)


def test_a_date_without_sales_says_where_its_price_comes_from():
    sales = many(random.Random(7), 20)
    other, own = (table(sales, year=year) for year in (1900, 1853))
    assert "other dates" in other.note and "other dates" not in own.note
    assert (other.own, own.own) == (0, 20)
    assert other.at(20).high / other.at(20).low > own.at(20).high / own.at(20).low


def test_a_near_date_says_more_than_a_far_one():
    rng = random.Random(8)
    sales = many(rng, 20, level=5000, year=1840) + many(rng, 20, level=20_000, year=1890)
    near_cheap, near_dear = (table(sales, year=year).at(20).mid for year in (1841, 1889))
    assert near_cheap < near_dear
    dots = Market(sales, TODAY).picture(Target("seated", 1841)).dots
    assert sum(dot.weight for dot in dots[:20]) > 1.1 * sum(dot.weight for dot in dots[20:])


def test_coins_with_a_problem_stand_apart():
    sales = many(random.Random(9), 20)
    before = table(sales).at(20)
    after = table([*sales, *(sale(900, 20, problem=True) for _ in range(4))])
    assert after.sales == 20
    assert after.at(20).mid == pytest.approx(before.mid, rel=0.01)  # the market's steps alone are learnt from them, too
    problem = table([*sales, *(sale(900, 20, problem=True) for _ in range(4))], problem=True)
    assert problem.sales == 4 and problem.at(20).mid == pytest.approx(900, rel=0.05)
    assert known(table(sales, problem=True)) == []


def test_with_enough_sales_on_both_sides_a_problem_is_a_factor():
    rng = random.Random(10)
    sales = [one for n in range(8) for one in many(rng, 8, type=f"t{n}") + many(rng, 4, level=3000, type=f"t{n}", problem=True)]
    estimate = table([*sales, *many(rng, 10)], problem=True)
    assert estimate.at(20).mid == pytest.approx(usual(20, 3000), rel=0.15)
    assert "brought over by a factor" in estimate.note


def test_designations_stand_apart_until_a_factor_is_known():
    rng = random.Random(11)
    bands = many(rng, 6, level=15_000, designation="full bands")
    plain = [one for n in range(6) for one in many(rng, 6, type=f"t{n}")]
    assert known(table([*plain, *many(rng, 6)], designation="full bands")) == []
    estimate = table([*plain, *many(rng, 8), *bands], designation="full bands")
    assert estimate.at(20).mid == pytest.approx(usual(20, 15_000), rel=0.15)


def test_a_price_without_the_buyers_fee_is_raised_by_it():
    row = table([sale(10_000, 20, fee_included=False)], settings=read({"buyers_fee": "22.5"})).at(20)
    assert row.mid == 12_250


def test_never_below_the_metal():
    estimate = table(many(random.Random(17), 40, level=1_500), melt=1_800)
    assert (estimate.at(10).low, estimate.at(10).mid, estimate.melt) == (1_800, 1_800, 1_800)
    assert estimate.at(10).at_melt and not estimate.at(40).at_melt


def test_sales_that_cannot_be_used_are_kept_and_told():
    off, free = sale(5000, 19), sale(0, 20)
    market = Market([off, free, sale(5000, 20)], TODAY)
    assert [one for one, _ in market.left_out] == [off, free]
    assert [why for _, why in market.left_out] == [
        "This sale has no grade of the ladder; give it one.", "This sale has no price; give what was paid."
    ]  # fmt: skip
    assert market.table(Target("seated", 1853)).sales == 1


def test_the_order_of_sales_does_not_matter():
    sales = many(random.Random(12), 15) + many(random.Random(13), 6, year=1861)
    again = random.Random(14).sample(sales, len(sales))
    assert [(r.low, r.mid, r.high) for r in table(sales).rows] == [(r.low, r.mid, r.high) for r in table(again).rows]


def test_all_prices_doubled_double_the_estimate():
    sales = many(random.Random(15), 15)
    once, twice = (table([replace(one, cents=one.cents * factor) for one in sales]).at(25).mid for factor in (1, 2))
    assert twice == pytest.approx(2 * once, abs=2)


def test_a_picture_shows_every_sale_and_the_table():
    sales = [*many(random.Random(16), 15), sale(9_000, 30, days=1500, year=1861, source="a sale in town", fee_included=False)]
    market, target = Market(sales, TODAY), Target("seated", 1853)
    shown, rows = market.picture(target), known(market.table(target))
    assert len(shown.dots) == 16 and all(0 < dot.weight <= 1 for dot in shown.dots)
    last = shown.dots[-1]
    assert (last.grade, last.place, last.paid, last.source) == (30, PLACE[30], 10_800, "a sale in town")
    assert not last.same_issue and last.weight < shown.dots[0].weight
    assert [grade for _, grade in shown.ticks] == [row.grade for row in rows]
    at = {place: (low, mid, high) for place, low, mid, high in shown.curve}
    assert all(at[PLACE[row.grade]] == (row.low, row.mid, row.high) for row in rows)
    for line in list(zip(*shown.curve, strict=True))[1:]:
        assert list(line) == sorted(line)


def test_without_evidence_a_picture_is_empty():
    shown = Market([], TODAY).picture(Target("seated", 1853))
    assert (shown.dots, shown.curve, shown.ticks) == ((), (), ())


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ({"half_life": 3}, "“half_life” is no setting"), ({"half_life_days": 0}, "from 30 to 36500"),
        ({"half_life_days": "long"}, "from 30 to 36500"), ({"buyers_fee": "a lot"}, "“a lot” is not"),
        ({"buyers_fee": 20}, "“20” is not"), ({"follow_market": "yes"}, "on or off"), ({"factor_sales": 0}, "from 1 to 1000"),
    ],
)  # fmt: skip
def test_a_setting_that_cannot_be_meant_is_told(table, said):
    with pytest.raises(BadAssumption, match=said):
        read(table)
