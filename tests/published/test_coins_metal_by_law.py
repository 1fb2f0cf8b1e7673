"""Pure metal in coins of several laws. Statutes from memory except 31 U.S.C. 5112, which was read; tolerance 0.00001."""

from fractions import Fraction

import pytest

from exergue.coins import metal

NEAR = Fraction(1, 100_000)


def of(weight, unit="g"):
    return metal.grams(weight) if unit == "gr" else metal.exact(weight)


def test_a_grain_and_a_troy_ounce():
    """International yard and pound agreement of 1959: pound of 0.45359237 kg and 7,000 grains."""
    assert metal.GRAMS_IN_GRAIN == Fraction("453.59237") / 7000
    assert metal.GRAMS_IN_OUNCE == Fraction("31.1034768")


@pytest.mark.parametrize(
    "law, weight, unit, alloy, what, grams, ounces",
    [
        ("Feb 12, 1873, § 15: two halves, four quarters, ten dimes", "25", "g", "silver-900", "silver", "22.5", "0.72339"),
        ("same: half dollar", "12.5", "g", "silver-900", "silver", "11.25", "0.36170"),
        ("same: dime", "2.5", "g", "silver-900", "silver", "2.25", "0.07234"),
        ("Jan 18, 1837: dollar", "412.5", "gr", "silver-900", "silver", "24.05660", "0.77344"),
        ("Apr 2, 1792, § 9: dollar", "416", "gr", "silver-1792", "silver", "24.05660", "0.77344"),
        ("Mar 3, 1849: double eagle", "516", "gr", "gold-900", "gold", "30.09261", "0.96750"),
        ("Jan 18, 1837: eagle", "258", "gr", "gold-900", "gold", "15.04631", "0.48375"),
        ("Pub. L. 89-81 (1965): half dollar", "11.5", "g", "silver-400-clad", "silver", "4.6", "0.14789"),
        ("wartime law of 1942: five cents", "5", "g", "silver-350-wartime", "silver", "1.75", "0.05626"),
        ("German laws of 1871 and 1873: 20 marks", "7.96495", "g", "gold-900", "gold", "7.16846", "0.23047"),
        ("July 9, 1873: 5 marks", "27.77778", "g", "silver-900", "silver", "25", "0.80377"),
        ("7 germinal XI: 20 francs", "6.45161", "g", "gold-900", "gold", "5.80645", "0.18668"),
    ],
)
def test_pure_metal_in_a_coin_of_that_law(law, weight, unit, alloy, what, grams, ounces):
    fine = metal.content(of(weight, unit), metal.ALLOYS[alloy])[what]
    assert abs(fine - Fraction(grams)) <= NEAR
    assert abs(metal.troy_ounces(fine) - Fraction(ounces)) <= NEAR


def test_the_dollars_of_1792_and_1837_hold_the_same_silver_to_the_grain():
    """371¼ grains in both, as each act says in words."""
    for weight, alloy in (("416", "silver-1792"), ("412.5", "silver-900")):
        assert metal.pure(weight, metal.ALLOYS[alloy].fineness("silver")) == Fraction("371.25")


def test_the_eagle_of_1834_holds_232_grains():
    """Act of June 28, 1834: 258 grains, 232 of them pure (from memory)."""
    assert metal.pure("258", metal.ALLOYS["gold-1834"].fineness("gold")) == 232


@pytest.mark.parametrize("grams, face", [("11.34", "0.50"), ("5.67", "0.25"), ("2.268", "0.10")])
def test_present_clad_coins_weigh_alike_by_face(grams, face):
    """31 U.S.C. 5112(a)(2)–(4): 22.68 g for each dollar of face."""
    assert metal.exact(grams) / metal.exact(face) == Fraction("22.68")


@pytest.mark.parametrize(
    "grams, ounces", [("33.931", "1.00000"), ("16.966", "0.50001"), ("8.483", "0.25001"), ("3.393", "0.10000")]
)
def test_bullion_coins_of_the_statute(grams, ounces):
    """31 U.S.C. 5112(a)(7)–(10): weights as rounded in the law, eleven twelfths fine."""
    fine = metal.pure(grams, "11/12")
    assert abs(metal.troy_ounces(fine) - Fraction(ounces)) <= NEAR


@pytest.mark.parametrize("ounces_a_dollar, cents", [("0.715", 214_500), (None, 217_018)])
def test_a_hundred_dollars_face_at_thirty_dollars_an_ounce(ounces_a_dollar, cents):
    """Trade practice counts 0.715 ozt a dollar for worn silver (common practice, no source); struck, 0.72339."""
    a_dollar = metal.exact(ounces_a_dollar) * metal.GRAMS_IN_OUNCE if ounces_a_dollar else metal.pure("25", "9/10")
    assert metal.melt(100 * a_dollar, 3000) == cents
