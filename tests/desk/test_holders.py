"""What stands in the window of a holder that has no photo."""

import pytest

from exergue.coins import denominations
from exergue.site.desk import holders


@pytest.mark.parametrize(
    "denom, face",
    [("half-cent", "½¢"), ("quarter-eagle", "$2½"), ("ca-five-cents", "5¢"), ("ca-silver-dollar", "$1"), ("gb-penny", ""), ("gb-sovereign", ""), ("", "")],
)
def test_the_face_stands_in_cents_and_dollars_where_the_money_of_the_country_does(denom, face):
    assert holders.face(denom) == face


def test_only_known_denominations_are_given_a_colour():
    for keys in holders.METALS.values():
        assert keys <= denominations.ALL.keys()
    assert [holders.metal(key) for key in ("gb-penny", "gb-shilling", "gb-sovereign", "zorkmid")] == ["copper", "silver", "gold", ""]
