"""Ceiling and floor by the owner's rule: arithmetic that adds up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.rule import BadRule, ceiling, floor_of, read
from exergue.money.sales import Row

PERCENT = st.decimals(0, 60, places=2).map(str)
SIDE = st.sampled_from(["low", "mid", "high"])
CENTS = st.integers(0, 10**9)
RULES = st.fixed_dictionaries({
    "ceiling": st.fixed_dictionaries({"of": SIDE, "percent": PERCENT, "fee": PERCENT, "tax": PERCENT,
                                      "shipping": st.integers(0, 5000), "other": st.integers(0, 5000)}),
    "floor": st.fixed_dictionaries({"of": SIDE, "percent": PERCENT, "margin": PERCENT, "melt": PERCENT,
                                    "fee": PERCENT, "shipping": st.integers(0, 5000)}),
}).map(read)  # fmt: skip
ROWS = st.lists(CENTS, min_size=3, max_size=3).map(lambda three: Row(20, *sorted(three)))
ROW = Row(20, 8_000, 10_000, 12_500)


def half_up(cents, percent):
    whole = round(float(percent) * 100)
    return (2 * cents * whole + 10_000) // 20_000


def added(answer):
    return sum(line["cents"] for line in answer.lines)


@given(ROWS, RULES)
def test_the_lines_of_a_ceiling_add_up(row, rule):
    answer = ceiling(row, rule)
    assert added(answer) == answer.cents >= 0


@given(ROWS, RULES)
def test_a_ceiling_with_all_that_comes_on_top_stays_within_the_share_and_a_cent_more_does_not(row, rule):
    said, price = rule["ceiling"], ceiling(row, rule).cents
    share = getattr(row, said["of"]) * round(float(said["percent"]) * 100) // 10_000

    def spent(price):
        fee = half_up(price, said["fee"])
        return price + fee + half_up(price + fee, said["tax"]) + said["shipping"] + said["other"]

    assert price == 0 or spent(price) <= share
    assert spent(price + 1) > share


@given(ROWS, st.none() | CENTS, st.none() | CENTS, RULES)
def test_the_lines_of_a_floor_add_up_and_it_covers_each_of_its_reasons(row, cost, melt, rule):
    answer, said = floor_of(row, cost, melt, rule), rule["floor"]
    assert added(answer) == answer.cents
    kept = answer.cents - half_up(answer.cents, said["fee"]) - said["shipping"]
    of, percents = getattr(row, said["of"]), {key: float(said[key]) for key in ("margin", "percent", "melt")}
    for start, percent in ((cost, 100 + percents["margin"]), (of, percents["percent"]), (melt, percents["melt"])):
        if start is not None:
            assert kept * 10_000 >= start * round(percent * 100)


def test_the_usual_ceiling():
    answer = ceiling(ROW, read({}))
    assert answer.cents == 8_500
    assert answer.lines == ({"what": "estimate, mid", "cents": 10_000}, {"what": "to 85 % of it", "cents": -1_500})


def test_a_ceiling_at_an_auction():
    """Worked by hand: 9,000 − 500 = 8,500 for a price with 20 % and then 8 % on top: 6,558, fee 1,312, tax 630."""
    rule = read({"ceiling": {"percent": "90", "fee": "20", "tax": "8", "shipping": 500}})
    answer = ceiling(ROW, rule)
    assert [line["cents"] for line in answer.lines] == [10_000, -1_000, -500, -1_312, -630]
    assert answer.cents == 6_558


def test_costs_that_eat_the_share_leave_a_ceiling_of_nothing():
    answer = ceiling(Row(20, 300, 400, 500), read({"ceiling": {"shipping": 900}}))
    assert answer.cents == added(answer) == 0
    assert answer.lines[-1] == {"what": "nothing is left", "cents": 560}


def test_the_greatest_reason_makes_the_floor():
    rule = read({"floor": {"margin": "10", "percent": "80"}})
    ways = [(7_000, 100, 7_700, "cost"), (1_000, 100, 6_400, "estimate, low"), (1_000, 9_001, 9_001, "metal")]
    for cost, melt, cents, first in ways:
        answer = floor_of(ROW, cost, melt, rule)
        assert (answer.cents, answer.lines[0]["what"]) == (cents, first)


def test_a_floor_is_raised_by_what_selling_costs():
    """Worked by hand: 1,100 kept and 300 shipped are 1,400; of 1,556 ten in a hundred, 156, go."""
    answer = floor_of(Row(20), 1_000, None, read({"floor": {"fee": "10", "shipping": 300}}))
    assert [(line["what"], line["cents"]) for line in answer.lines] == [
        ("cost", 1_000), ("margin of 10 %", 100), ("shipping", 300), ("fee of 10 %", 156)
    ]  # fmt: skip
    assert answer.cents == 1_556


def test_without_evidence_there_is_no_ceiling():
    answer = ceiling(Row(20), read({}))
    assert (answer.cents, answer.lines) == (None, ()) and "No evidence" in answer.why


def test_without_anything_there_is_no_floor_and_cost_alone_makes_one():
    assert floor_of(Row(20), None, None, read({})).cents is None
    assert floor_of(Row(20), 0, None, read({})).cents == 0


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ({"roof": {}}, "“roof” is no part of a rule"),
        ({"ceiling": 85}, "is a table"),
        ({"ceiling": {"percnt": "85"}}, "“percnt” is nothing"),
        ({"ceiling": {"of": "best"}}, "“best” is none of these"),
        ({"ceiling": {"percent": "much"}}, "share of the estimate is a percent from 0 to 200"),
        ({"ceiling": {"percent": 85}}, "“85” is not"),
        ({"ceiling": {"tax": "-1"}}, "The tax is a percent from 0 to 90"),
        ({"floor": {"fee": "100"}}, "The fee is a percent from 0 to 90"),
        ({"floor": {"fee": "1/0"}}, "“1/0” is not"),
        ({"floor": {"shipping": -5}}, "The shipping is an amount of whole cents"),
        ({"floor": {"shipping": True}}, "“True” is not"),
    ],
)
def test_a_rule_that_cannot_be_meant_is_told(rule, said):
    with pytest.raises(BadRule, match=said):
        read(rule)
