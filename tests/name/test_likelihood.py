"""How likely an answer is if the coin is of a type."""

import math

import pytest

pytestmark = pytest.mark.browser


def test_the_tail_of_the_normal_distribution_is_pythons(module):
    points = [x / 7 for x in range(-40, 60)]
    assert module("name/normal", "given.map(it.erfc)", points) == pytest.approx([math.erfc(x) for x in points], rel=2e-7)


def test_stated_values_share_what_error_leaves(module):
    row = module("name/likelihood", "[...it.choiceRow(['a', 'b', 'c', 'd'], ['a', 'b'], 0.1)]")
    assert row == pytest.approx([0.45, 0.45, 0.05, 0.05])


@pytest.mark.parametrize("stated", [[], ["a", "b", "c", "d"]])
def test_a_type_that_shows_everything_or_nothing_says_nothing(module, stated):
    assert module("name/likelihood", "[...it.choiceRow(['a', 'b', 'c', 'd'], given, 0.1)]", stated) == [0.25] * 4


@pytest.mark.parametrize("text, digits", [
    ("18?7", ["1", "8", None, "7"]), ("1807", ["1", "8", "0", "7"]), (" 18-7 ", ["1", "8", None, "7"]), ("18", ["1", "8", None, None]), ("x8x4", [None, "8", None, "4"]),
])  # fmt: skip
def test_dates_with_digits_that_cannot_be_read(module, text, digits):
    assert module("name/likelihood", "it.readDate(given)", text) == {"digits": digits}


@pytest.mark.parametrize("text", ["", "18o7", "18077", "????", "MDCC"])
def test_a_date_that_is_none_gets_a_sentence(module, text):
    assert module("name/likelihood", "it.readDate(given)", text)["problem"].endswith(".")


def test_readings_of_a_date_add_up_to_one(module):
    everything = "Array.from({length: 10000}, (_, n) => it.digitsGiven([...String(n).padStart(4, '0')], 1807, 0.03)).reduce((a, b) => a + b)"
    assert module("name/likelihood", everything) == pytest.approx(1)
    assert module("name/likelihood", "it.digitsGiven(['1', '8', '0', '7'], 1807, 0.03)") == pytest.approx(0.97)
    assert module("name/likelihood", "it.digitsGiven(['1', '8', null, '7'], 1807, 0)") == 1


INTEGRAL = "Array.from({length: given.steps}, (_, i) => given.low + (i + 0.5) * given.step).reduce((sum, x) => sum + %s * given.step, 0)"


@pytest.mark.parametrize("density, low, high", [
    ("it.sizeGiven(x, 0.5, [22, 24.5], 0.05)", 8, 45), ("it.sizeGiven(x, 0.5, [19.05, 19.05], 0.05)", 8, 45), ("it.gravityGiven(x, 0.1, [10.26, 10.36], 0.05)", 2, 22),
    ("it.weightGiven(x, 0.01, {grams: 6.74, sd: 0.05}, 0.05, 0.02)", 0.2, 60), ("it.weightGiven(x, 0.05, {grams: 26.73, sd: 0.056}, 0.002, 0.02)", 0.2, 60),
])  # fmt: skip
def test_densities_of_measures_add_up_to_one(module, density, low, high):
    step = 0.002
    given = {"low": low, "step": step, "steps": round((high - low) / step)}
    assert module("name/likelihood", INTEGRAL % density, given) == pytest.approx(1, abs=2e-3)


def test_wear_takes_weight_and_never_adds(module):
    weigh = "given.map((g) => it.weightGiven(g, 0.01, {grams: 6.74, sd: 0.03}, 0.05, 0.02))"
    worn, full, over = module("name/likelihood", weigh, [6.40, 6.72, 7.08])
    assert worn > 20 * over and full > worn
    assert module("name/likelihood", "[65, 45, 20, 8, 4, 1].map(it.wear)") == sorted(module("name/likelihood", "[65, 45, 20, 8, 4, 1].map(it.wear)"))
