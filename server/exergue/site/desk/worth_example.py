"""The arithmetic of one made-up coin beside the settings of worth, by the figures that stand in the form."""

from dataclasses import dataclass

from ...money import assumed, rule
from ...money.sales import Row

YEARS = (0, 1, 5, 10, 20)
ESTIMATE = Row(0, low=80_00, mid=100_00, high=130_00)
COST, METAL = 60_00, 12_00  # cents
PRICE = 100_00


@dataclass(frozen=True)
class Example:
    """`ages`: [(years ago, so much of a sale of today, as text)]; `with_fee`: cents that a price of 100.00 without the
    buyer's fee counts as; `ceiling` and `floor`: rule.Answer."""

    ages: list[tuple[int, str]]
    with_fee: int
    ceiling: rule.Answer
    floor: rule.Answer


def of(worth: dict) -> Example:
    """The example by the setting `worth`. Raises BadAssumption, BadRule."""
    said = rule.read({part: worth[part] for part in rule.DEFAULT if part in worth})
    usual = assumed.read({name: value for name, value in worth.items() if name not in rule.DEFAULT})
    ages = [(years, f"{0.5 ** (years * 365.25 / usual.half_life_days):.2f}") for years in YEARS]
    return Example(ages, int(PRICE * usual.fee), rule.ceiling(ESTIMATE, said), rule.floor_of(ESTIMATE, COST, METAL, said))
