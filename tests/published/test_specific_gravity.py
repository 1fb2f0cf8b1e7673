"""Specific gravity as the phone computes it, in Chromium, against published figures and the `uncertainties` library."""

import math
from fractions import Fraction

import pytest
from support.modules import served_modules
from uncertainties import ufloat

from exergue.coins import metal

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    yield from served_modules(tmp_path_factory, browser)


@pytest.fixture(scope="module")
def gravity(module):
    return lambda **given: module("name/gravity", "it.gravity(given)", given)


# kg/m³, made with the formula of Tanaka et al., Metrologia 38 (2001), 301–309; IAPWS-95 differs by less than 0.0007.
WATER = {4: 999.9749, 15: 999.1026, 16: 998.9459, 17: 998.7778, 18: 998.5984, 19: 998.4079, 20: 998.2067, 21: 997.9950, 22: 997.7730,
         23: 997.5408, 24: 997.2988, 25: 997.0470, 26: 996.7857, 27: 996.5151, 28: 996.2353, 29: 995.9465, 30: 995.6488}  # fmt: skip
IAPWS = {20: 998.2072, 25: 997.0476, 30: 995.6495}


def test_water_density(module):
    found = module("name/gravity", "given.map(it.waterDensity)", list(WATER))
    assert found == pytest.approx(list(WATER.values()), abs=1e-4)
    assert module("name/gravity", "given.map(it.waterDensity)", list(IAPWS)) == pytest.approx(list(IAPWS.values()), abs=7e-4 + 1e-4)


def test_an_ancient_coin(gravity):
    """OpenStax, College Physics, Archimedes' principle: 8.630 g in air, 7.800 g in water of 1.000 g/cm³: 10.4."""
    at_4 = gravity(dry=8.630, wet=7.800, celsius=3.983035)
    assert round(at_4["simple"], 1) == 10.4 and at_4["simple"] == pytest.approx(10.3976, abs=5e-4)
    at_20 = gravity(dry=8.630, wet=7.800, celsius=20)
    assert at_20["simple"] == pytest.approx(10.3789, abs=1e-4)
    assert at_20["density"] == pytest.approx(10.3677, abs=1e-4)  # with the term for air of a balance maker's density kit


def test_german_twenty_marks(gravity):
    """7.965 and 7.502 g at 21 °C, .900 gold with copper: inside the usual range; worked by hand."""
    found = gravity(dry=7.965, wet=7.502, celsius=21, resolution=0.001)
    assert found["simple"] == pytest.approx(17.1685, abs=1e-4) and found["density"] == pytest.approx(17.1491, abs=1e-4)


@pytest.mark.parametrize("dry, wet, shown", [(8.80, 6.7, 4.19), (6.40, 5.90, 12.8)])
def test_two_more_readings_in_water_of_1(gravity, dry, wet, shown):
    assert gravity(dry=dry, wet=wet, celsius=3.983035)["simple"] == pytest.approx(shown, abs=5e-3)


@pytest.mark.parametrize("resolution, scatter, u", [(0.01, 0, 0.08430), (0.001, 0, 0.00843), (1e-9, 0.01, 0.292)])
def test_what_a_balance_can_tell(gravity, resolution, scatter, u):
    """5.00 g and 4.52 g at 20 °C; JCGM 100:2008, 4.3.7, and `uncertainties`, without air as the published figure."""
    found = gravity(dry=5.00, wet=4.52, celsius=20, resolution=resolution, scatter=scatter, air=0, celsiusOff=0)
    assert found["simple"] == pytest.approx(10.3980, abs=1e-4)
    assert found["u"] == pytest.approx(u, rel=2e-3)
    reading = math.hypot(resolution / math.sqrt(12), scatter)
    dry, wet = ufloat(5.00, reading), ufloat(4.52, reading)
    assert found["u"] == pytest.approx((dry / (dry - wet) * 0.9982067).std_dev, rel=1e-6)


def test_air_and_thermometer_propagate_as_uncertainties_says(gravity):
    found = gravity(dry=26.73, wet=24.14, celsius=22, resolution=0.01, celsiusOff=1)
    step = 0.01 / math.sqrt(12)
    dry, wet, celsius = ufloat(26.73, step), ufloat(24.14, step), ufloat(22, 1 / math.sqrt(3))
    water = 0.99997495 * (1 - (celsius - 3.983035) ** 2 * (celsius + 301.797) / (522528.9 * (celsius + 69.34881)))
    density = dry / (dry - wet) * (water - 0.0012) + 0.0012
    assert found["density"] == pytest.approx(density.nominal_value, abs=1e-9)
    assert found["u"] == pytest.approx(density.std_dev, rel=1e-4)
    assert found["expanded"] == pytest.approx(2 * found["u"])


# g/cm³ without change of volume, by hand from handbook densities of the metals; tolerance 0.001.
IDEAL = {"silver-900": 10.3139, "silver-1792": 10.3008, "silver-400-clad": 9.5151, "gold-900": 17.3032, "gold-1792": 17.6068,
         "copper": 8.9600, "bronze": 8.8583, "brass-95": 8.8468, "copper-nickel-25": 8.9449}  # fmt: skip


@pytest.mark.parametrize("alloy, ideal", IDEAL.items())
def test_ideal_densities(alloy, ideal):
    assert float(metal.ideal_density(metal.ALLOYS[alloy].parts)) == pytest.approx(ideal, abs=1e-3)


def test_sterling_and_a_jewellers_alloy():
    """.925 silver 10.3574, by hand; gold 583, silver 104, copper 313: 13.33 in a published how-to, tolerance 0.005 and the metals' own."""
    of = {name: Fraction(part) for name, part in (("silver", "0.925"), ("copper", "0.075"))}
    assert float(metal.ideal_density(of)) == pytest.approx(10.3574, abs=1e-3)
    of = {name: Fraction(part) for name, part in (("gold", "0.583"), ("silver", "0.104"), ("copper", "0.313"))}
    assert float(metal.ideal_density(of)) == pytest.approx(13.33, abs=0.01)


@pytest.mark.parametrize("alloy", metal.ALLOYS.values(), ids=lambda alloy: alloy.key)
def test_usual_densities_lie_about_the_ideal(alloy):
    least, greatest = alloy.density
    ideal = metal.ideal_density(alloy.parts)
    wide = Fraction("0.7") if alloy.parts.get("gold", 0) > Fraction(1, 2) else Fraction("0.25")
    assert least <= ideal <= greatest and greatest - least <= wide


def test_silver_and_cupronickel_are_told_apart_by_a_hundredth_of_a_gram(module):
    """Published conclusion of the same example: .900 and .925 silver are not told apart, silver and cupronickel are."""
    alloys = {key: {"name": a.name, "density": [float(x) for x in a.density]} for key, a in metal.ALLOYS.items()}
    alloys["sterling"] = {"name": "sterling", "density": [10.31, 10.41]}
    found = module("name/gravity", "it.compareAlloys(it.gravity(given.readings), given.alloys)", {"readings": {"dry": 5.00, "wet": 4.52}, "alloys": alloys})
    verdicts = {one["key"]: one["verdict"] for one in found}
    assert verdicts["silver-900"] == verdicts["sterling"] == "fits" and verdicts["copper-nickel-25"] == verdicts["gold-900"] == "no"
    assert [one["away"] for one in found] == sorted(one["away"] for one in found)


@pytest.mark.parametrize("given, says", [
    ({"dry": 5.0, "wet": 5.0}, "lighter in water"), ({"dry": 5.0, "wet": 6.1}, "lighter in water"), ({"dry": 0, "wet": 1}, "dry coin"),
    ({"dry": 5.0, "wet": 0}, "in water"), ({"dry": 5.0, "wet": 4.5, "celsius": 60}, "0 and 40"), ({"dry": 5.0, "wet": 4.99}, "finer scale"),
    ({"dry": 5.0, "wet": 4.5, "resolution": 0}, "step of the scale"),
])  # fmt: skip
def test_readings_that_cannot_be_get_a_sentence(gravity, given, says):
    problem = gravity(**given)["problem"]
    assert says in problem and problem.endswith((".", "?"))
