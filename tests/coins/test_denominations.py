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


def test_stand_in_order_of_face_and_a_half_cent_is_half_a_cent():
    faces = [d.cents for d in sorted(denominations.ALL.values(), key=lambda d: d.order)]
    assert faces == sorted(faces)
    assert denominations.get("half-cent").cents == Fraction(1, 2)


def test_an_unknown_key_is_an_error():
    with pytest.raises(KeyError):
        denominations.get("groat")
