"""Years as the catalogue writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.coins import years


@given(st.sets(st.integers(years.EARLIEST, years.LATEST), min_size=1, max_size=40))
def test_years_that_are_shown_read_back(some):
    assert years.parse(years.show(some)) == tuple(sorted(some))


def test_runs_are_drawn_together():
    assert years.show([1800, 1802, 1803, 1804]) == "1800, 1802–1804"


@pytest.mark.parametrize("text", ["", "abc", "1808-1800", "12", "1800,1800", "1800-1802, 1801", "99999", "1800-"])
def test_what_is_no_list_of_years_is_refused(text):
    with pytest.raises(ValueError):
        years.parse(text)
