"""What part of a lot cost: first in, first out, and never a cent lost."""

from hypothesis import given
from hypothesis import strategies as st

from exergue.money.allocate import split
from exergue.money.lots import some


@given(cost=st.integers(0, 10**9), parts=st.lists(st.integers(1, 40), min_size=1, max_size=12))
def test_the_parts_of_a_lot_add_up_to_its_cost_however_it_is_sold(cost, parts):
    pieces, first, found = sum(parts), 0, []
    for count in parts:
        found.append(some(cost, pieces, first, count))
        first += count
    assert sum(found) == cost


@given(cost=st.integers(0, 10**6), pieces=st.integers(1, 60), data=st.data())
def test_a_part_is_the_sum_of_its_pieces_even_shares(cost, pieces, data):
    first = data.draw(st.integers(0, pieces - 1))
    count = data.draw(st.integers(1, pieces - first))
    assert some(cost, pieces, first, count) == sum(split(cost, [1] * pieces)[first : first + count])
