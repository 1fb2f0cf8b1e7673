"""IDs: what is forgiven, what is caught."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.labels import ids

an_id = st.integers(0, 2**32).map(lambda seed: ids.new_id(random.Random(seed).choice))
places = st.integers(0, ids.LENGTH - 1)


@given(an_id)
def test_a_new_id_reads_back_from_every_way_it_is_shown(coin):
    assert len(coin) == ids.LENGTH and set(coin) <= set(ids.ALPHABET)
    ways = [coin, coin.lower(), ids.show(coin), f" {ids.show(coin).lower()} ", f"{coin[:3]} {coin[3:]}"]
    ways += [ids.address("https://exergue.example", coin), f"http://192.168.1.20:8443/c/{coin.lower()}/?from=label"]
    ways += [f"/c/{coin}", f"c/{coin}", f"coins.example/c/{coin}#top", coin.replace("0", "O").replace("1", "l")]
    assert {ids.parse(way) for way in ways} == {coin}


@given(an_id, places, st.sampled_from(ids.ALPHABET))
def test_every_single_slip_is_caught(coin, place, other):
    slipped = coin[:place] + other + coin[place + 1 :]
    if slipped != coin:
        with pytest.raises(ids.BadLabel):
            ids.parse(slipped)


@given(an_id, st.integers(0, ids.LENGTH - 2))
def test_every_swap_of_neighbours_is_caught(coin, place):
    swapped = coin[:place] + coin[place + 1] + coin[place] + coin[place + 2 :]
    if swapped != coin:
        with pytest.raises(ids.BadLabel):
            ids.parse(swapped)


@given(st.text(max_size=60))
def test_any_text_is_an_id_or_a_clear_refusal(text):
    try:
        assert len(ids.parse(text)) == ids.LENGTH
    except ids.BadLabel as error:
        assert str(error).endswith(".")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "has 10 characters; this has 0"),
        ("7K3M9QX2B", "this has 9"),
        ("7K3M9QX2BU", "“U”"),
        ("https://exergue.example/desk/coins", "not a coin label"),
        ("https://exergue.example/abc/7K3M9QX2B4", "not a coin label"),
        ("abc/7K3M9QX2B4", "not a coin label"),
    ],
)
def test_a_refusal_says_why(text, says):
    with pytest.raises(ids.BadLabel, match=says):
        ids.parse(text)


def test_new_ids_do_not_repeat():
    draw = random.Random(3).choice
    assert len({ids.new_id(draw) for _ in range(5000)}) == 5000


def test_the_address_stays_in_the_symbols_alphanumeric_mode():
    assert ids.address("https://exergue.example/", "7K3M9QX2B4") == "HTTPS://EXERGUE.EXAMPLE/C/7K3M9QX2B4"


def test_labels_typed_in_a_row_are_each_read_once_and_a_slip_is_named():
    one, other = ids.new_id(), ids.new_id()
    assert ids.parse_all(f" {one}, {ids.show(other).lower()}\n{one} ") == ([one, other], [])
    assert ids.parse_all(f"{one} 7K3M9") == ([one], ["“7K3M9”: A coin ID has 10 characters; this has 5."])
    assert ids.parse_all(" ,\n") == ([], [])
