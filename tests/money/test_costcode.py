"""The cost code on a label. Keyword cipher with a repeat letter: common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.costcode import BadCode, Code

KEYWORDS = st.permutations("ABCDEFGHIJKLMNOPQRSTUVWXYZ").map(lambda letters: ("".join(letters[:10]), letters[10]))


def test_ten_letters_stand_for_one_to_nine_and_nought():
    code = Code("BLACKHORSE", "X")
    assert code.write(1234567890_00) == "BLACKHORSE"
    assert code.read("black horse") == 1234567890_00


def test_the_repeat_letter_hides_doubled_digits():
    code = Code("BLACKHORSE", "X")
    assert code.write(1100_00) == "BXEX"
    assert code.write(555_00) == "KXX"
    assert code.read("KXX") == code.read("KKK") == code.read("KXK") == 555_00


def test_whole_units_are_rounded_half_up_and_cents_can_be_kept():
    assert Code("BLACKHORSE").write(120050) == "BLEB"
    exact = Code("BLACKHORSE", with_cents=True)
    assert exact.write(120050) == "BLEX.KE"
    assert exact.read("BLEX.KE") == 120050
    assert exact.write(5) == "E.XK"


@given(KEYWORDS, st.integers(0, 10**9), st.booleans())
def test_what_is_written_is_read_back(letters, units, with_cents):
    code = Code(*letters, with_cents=with_cents)
    amount = units if with_cents else units * 100
    assert code.read(code.write(amount)) == amount


@given(KEYWORDS, st.integers(0, 10**9))
def test_no_letter_follows_itself_unless_it_is_the_repeat_letter(letters, units):
    written = Code(*letters).write(units * 100)
    for first, second in zip(written, written[1:], strict=False):
        assert first != second or second == letters[1]


@pytest.mark.parametrize(
    ("keyword", "repeat"),
    [("BLACKHORS", "X"), ("BLACKHORSES", "X"), ("BLACKBORSE", "X"), ("BLACKHORSE", "B"),
     ("BLACKHORSE", ""), ("BLACKHORSE", "XY"), ("BLACKH0RSE", "X"), ("BLÄCKHORSE", "X")],
)  # fmt: skip
def test_a_keyword_that_does_not_work_is_refused(keyword, repeat):
    with pytest.raises(BadCode):
        Code(keyword, repeat)


@pytest.mark.parametrize("text", ["", "X", "BZ", "B.", "B.L", "B.LAC", ".BL", "B.L.A"])
def test_a_text_that_is_no_code_is_refused(text):
    with pytest.raises(BadCode):
        Code("BLACKHORSE", "X").read(text)


def test_a_cost_below_zero_is_refused():
    with pytest.raises(BadCode):
        Code("BLACKHORSE").write(-1)
