"""Denominations as people write them."""

from fractions import Fraction

import pytest

from exergue.coins import denominations


@pytest.mark.parametrize(
    "typed, key",
    [
        ("1/2c", "half-cent"), ("½¢", "half-cent"), ("Half Cents", "half-cent"), ("half-cent", "half-cent"),
        ("Large Cent", "large-cent"), ("small cent", "small-cent"), ("H10c", "half-dime"), ("dime", "dime"),
        ("Nickel", "five-cents"), ("trime", "three-cents-silver"), ("quarter", "quarter"), ("50c", "half-dollar"),
        ("$2.50", "quarter-eagle"), ("$2 1/2", "quarter-eagle"), ("$20", "double-eagle"), ("Double Eagles", "double-eagle"),
    ],
)
def test_finds_what_is_meant(typed, key):
    assert denominations.find(typed).key == key


@pytest.mark.parametrize(
    "typed, year, key",
    [
        ("1c", 1802, "large-cent"), ("cent", 1909, "small-cent"), ("5c", 1871, None), ("5c", 1850, "half-dime"),
        ("3c", 1885, "three-cents-nickel"), ("$1", 1878, None), ("$1", 1921, "dollar"),
    ],
)
def test_a_year_tells_namesakes_apart_only_where_it_can(typed, year, key):
    found = denominations.find(typed, year)
    assert (found.key if found else None) == key


def test_never_guesses():
    assert denominations.find("1c") is None
    assert [d.key for d in denominations.candidates("1c")] == ["large-cent", "small-cent"]
    assert denominations.find("zorkmid") is None
    assert denominations.find("") is None


def test_no_name_of_its_own_leads_elsewhere():
    for each in denominations.ALL.values():
        assert denominations.find(each.key) is each
        assert denominations.find(each.name) is each
        assert denominations.find(each.plural) is each


def test_stand_in_order_of_face_in_each_country_and_a_half_cent_is_half_a_cent():
    in_order = sorted(denominations.ALL.values(), key=lambda d: d.order)
    for country in ("US", "GB", "CA"):
        faces = [d.cents for d in in_order if d.country == country]
        assert faces and faces == sorted(faces)
    assert denominations.get("half-cent").cents == Fraction(1, 2)


@pytest.mark.parametrize("typed", ["1c", "cent", "penny", "5c", "nickel", "20c", "dollar", "$1", "silver dollar", "one cent"])
def test_a_spelling_that_names_no_country_means_coins_of_the_united_states(typed):
    assert {d.country for d in denominations.candidates(typed)} == {"US"}


@pytest.mark.parametrize(
    "typed, year, key",
    [
        ("British penny", None, "gb-penny"), ("cartwheel penny", 1797, "gb-penny"), ("Shilling", 1902, "gb-shilling"),
        ("brass threepence", None, "gb-threepence"), ("sovereigns", None, "gb-sovereign"), ("Canada cent", 1859, "ca-large-cent"),
        ("Canadian cent", 1967, "ca-small-cent"), ("Canada 5 cents", 1921, "ca-five-cents"), ("Canada $1", 1935, "ca-silver-dollar"),
        ("Canada 20c", None, "ca-twenty-cents"), ("5 cents, Canada", None, "ca-five-cents"), ("UK shilling", None, "gb-shilling"), ("British copper twopence", None, "gb-twopence"), ("crown", None, None),
    ],
)
def test_coins_of_other_countries_are_found_by_names_that_say_so(typed, year, key):
    found = denominations.find(typed, year)
    assert (found.key if found else None) == key


def test_a_country_without_such_a_denomination_has_none_and_two_countries_name_neither():
    assert denominations.candidates("Canada dime") == []
    assert denominations.country_named("1858 Canada 20 cents") == "CA"
    assert denominations.country_named("half cent") is None
    assert denominations.country_named("British rule in Canada") is None


def test_a_penny_of_240_to_the_pound_is_five_twelfths_of_a_new_penny():
    assert denominations.get("gb-penny").cents * 240 == denominations.get("gb-sovereign").cents
    assert denominations.get("gb-shilling").cents * 20 == denominations.get("gb-sovereign").cents
    assert denominations.get("gb-threepence").cents == 3 * denominations.get("gb-penny").cents


def test_an_unknown_key_is_an_error():
    with pytest.raises(KeyError):
        denominations.get("groat")
