"""The check character of coin IDs, against the standard's own examples and an independent implementation."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from exergue.labels import ids


@pytest.mark.parametrize(
    ("body", "check"),
    [
        ("G123498654321", "H"),  # donation number of the ISBT 128 standard, its example; from memory
        ("G123489654321", "Y"),  # the same with two digits swapped, computed with python-stdnum
        ("1234567890", "J"),  # computed with python-stdnum
        ("0001", "*"),  # computed with python-stdnum: the 37th symbol
    ],
)
def test_examples_of_iso_7064_mod_37_2(body, check):
    assert ids.check_character(body) == check


@given(st.text(alphabet="0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=20))
def test_check_characters_agree_with_python_stdnum(body):
    assert ids.check_character(body) == mod_37_2.calc_check_digit(body)


def test_every_single_slip_and_every_neighbour_swap_of_random_ids_is_refused():
    """What ISO/IEC 7064 claims for MOD 37-2 (from memory), tried for every slip and swap of 40 IDs."""
    draw = random.Random(7064)
    for _ in range(40):
        coin = ids.new_id(draw.choice)
        assert mod_37_2.is_valid(coin)
        wrong = [coin[:at] + other + coin[at + 1 :] for at in range(ids.LENGTH) for other in ids.ALPHABET]
        wrong += [coin[:at] + coin[at + 1] + coin[at] + coin[at + 2 :] for at in range(ids.LENGTH - 1)]
        for text in set(wrong) - {coin}:
            assert not mod_37_2.is_valid(text)
            with pytest.raises(ids.BadLabel, match="slip"):
                ids.parse(text)


def test_the_alphabet_and_the_look_alikes_are_crockfords_base_32():
    """Douglas Crockford, Base 32: I, L, O and U are left out; o reads as 0, i and l as 1. From memory."""
    assert ids.ALPHABET == "".join(one for one in "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ" if one not in "ILOU")
    coin = next(one for one in (ids.new_id(random.Random(at).choice) for at in range(999)) if "0" in one and "1" in one)
    assert {ids.parse(coin.replace("0", o).replace("1", i)) for o in "oO" for i in "iIlL"} == {coin}
