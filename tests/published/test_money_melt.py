"""Melt values worked by hand from statutory contents. Statutes from memory except 31 U.S.C. 5112(a)(7), which was read."""

from datetime import date

import pytest

from exergue.coins import catalogue
from exergue.money import melt

SPOT = {"silver": melt.Spot(3000, date(2026, 6, 30)), "gold": melt.Spot(400_000, date(2026, 6, 30))}


@pytest.mark.parametrize(
    ("law", "grams", "alloy", "ounces", "cents"),
    [
        ("Feb 12, 1873: half dollar", "12.5", "silver-900", 0.36170, 1085),  # 0.361696 × 30.00
        ("same: dime", "2.5", "silver-900", 0.07234, 217),
        ("Pub. L. 89-81 (1965): half dollar", "11.5", "silver-400-clad", 0.14789, 444),
        ("wartime law of 1942: five cents", "5", "silver-350-wartime", 0.05626, 169),
        ("Mar 3, 1849: double eagle", "33.43623756", "gold-900", 0.96750, 387_000),  # 464.4 of 480 grains
        ("7 germinal XI: 20 francs", "200/31", "gold-900", 0.18668, 74_673),
    ],
)
def test_a_coin_of_that_law(law, grams, alloy, ounces, cents):
    worth = melt.of_piece(grams, alloy, SPOT)
    assert float(sum(worth.ounces.values())) == pytest.approx(ounces, abs=1e-5)
    assert worth.cents == cents


def test_a_catalogued_dollar_of_1837s_law_holds_371_and_a_quarter_grains():
    """371.25 ÷ 480 × 30.00 = 23.203 (Act of January 18, 1837, § 9)."""
    types = catalogue.load().types.values()
    dollars = [t for t in types if t.denomination == "dollar" and t.composition == "silver-900" and 1871 in t.years]
    assert dollars and {melt.of_type(t, SPOT, 1871).cents for t in dollars} == {2320}
