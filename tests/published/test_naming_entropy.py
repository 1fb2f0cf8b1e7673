"""Naming a coin asks what tells most: the phone's arithmetic of information, in Chromium, against a textbook and scikit-learn.

T. M. Mitchell, Machine Learning (1997), table 3.2 and chapters 3 and 6: gains 0.246, 0.151, 0.048, 0.029 (the book cuts
and does not round) and the naive Bayes example; from memory, redone here by hand and by scikit-learn. The noisy and the
equal cases are worked by hand.
"""

import math
import random
from collections import Counter

import pytest
from sklearn.metrics import mutual_info_score
from sklearn.naive_bayes import CategoricalNB
from support.modules import served_modules

pytestmark = pytest.mark.browser

# outlook, temperature, humidity, wind, play (Mitchell, table 3.2)
DAYS = [row.split() for row in """S hot high weak no;S hot high strong no;O hot high weak yes;R mild high weak yes
R cool normal weak yes;R cool normal strong no;O cool normal strong yes;S mild high weak no;S cool normal weak yes
R mild normal weak yes;S mild normal strong yes;O mild high strong yes;O hot normal weak yes;R mild high strong no""".replace("\n", ";").split(";")]  # fmt: skip
OUTLOOK, TEMPERATURE, HUMIDITY, WIND, PLAY = range(5)


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    yield from served_modules(tmp_path_factory, browser)


@pytest.fixture(scope="module")
def information(module):
    """Bits that an answer is expected to tell: of shares of members and P(answer | member) by rows."""
    def ask(shares, rows):
        given = {"shares": shares, "table": [x for row in rows for x in row], "columns": len(rows[0])}
        return module("name/entropy", "it.information(Float64Array.from(given.shares), Float64Array.from(given.table), given.columns)", given)
    return ask


def after(module, shares, rows, answer):
    given = {"shares": shares, "table": [x for row in rows for x in row], "columns": len(rows[0]), "answer": answer}
    return module("name/posterior", "[...it.after(Float64Array.from(given.shares), Float64Array.from(given.table), given.columns, given.answer)]", given)


def counted(column):
    """Shares of play yes and no, and the shares of the column's values in each."""
    values = sorted({day[column] for day in DAYS})
    of = {play: Counter(day[column] for day in DAYS if day[PLAY] == play) for play in ("yes", "no")}
    total = {play: sum(of[play].values()) for play in of}
    return [total[play] / 14 for play in of], [[of[play][value] / total[play] for value in values] for play in of]


def test_the_entropy_of_nine_days_in_fourteen(module):
    assert module("name/entropy", "it.entropy(given)", [9 / 14, 5 / 14]) == pytest.approx(0.940286, abs=1e-6)


@pytest.mark.parametrize("column, gain", [(OUTLOOK, 0.246750), (HUMIDITY, 0.151836), (WIND, 0.048127), (TEMPERATURE, 0.029223)])
def test_gains_of_the_days_to_play(information, column, gain):
    found = information(*counted(column))["gain"]
    assert found == pytest.approx(gain, abs=1e-6)
    expected = mutual_info_score([day[column] for day in DAYS], [day[PLAY] for day in DAYS]) / math.log(2)
    assert found == pytest.approx(expected, abs=1e-12)


def test_naive_bayes_of_a_sunny_cool_humid_windy_day(module):
    """Mitchell, chapter 6: P(no) = 0.0205714 ÷ (0.0205714 + 0.0052910) = 0.795417."""
    shares = counted(OUTLOOK)[0]
    for column, value in ((OUTLOOK, "S"), (TEMPERATURE, "cool"), (HUMIDITY, "high"), (WIND, "strong")):
        rows = counted(column)[1]
        shares = after(module, shares, rows, sorted({day[column] for day in DAYS}).index(value))
    assert shares[1] == pytest.approx(0.795417, abs=1e-6)
    coded = [[sorted({d[c] for d in DAYS}).index(day[c]) for c in range(4)] for day in DAYS]
    judge = CategoricalNB(alpha=1e-10).fit(coded, [day[PLAY] for day in DAYS])
    asked = [[sorted({d[c] for d in DAYS}).index(v) for c, v in enumerate(("S", "cool", "high", "strong"))]]
    assert shares[1] == pytest.approx(judge.predict_proba(asked)[0][0], abs=1e-6)


@pytest.mark.parametrize("p, wrong, gain", [
    (0.5, 0, 1.0), (0.5, 0.05, 0.713603), (0.5, 0.1, 0.531004), (0.5, 0.11, 0.500084), (0.3, 0.1, 0.455823), (0.25, 0.05, 0.562151),
])  # fmt: skip
def test_a_noisy_yes_or_no(information, p, wrong, gain):
    """Gain h(p(1−ε) + (1−p)ε) − h(ε), by hand."""
    assert information([p, 1 - p], [[1 - wrong, wrong], [wrong, 1 - wrong]])["gain"] == pytest.approx(gain, abs=1e-6)


def test_four_types_and_the_better_of_two_questions(module, information):
    """Shares .4, .3, .2, .1; a question true of the first and third tells more than one of the first and second; by hand."""
    shares, yes, no = [0.4, 0.3, 0.2, 0.1], [0.9, 0.1], [0.1, 0.9]
    assert module("name/entropy", "it.entropy(given)", shares) == pytest.approx(1.846439, abs=1e-6)
    first = information(shares, [yes, no, yes, no])["gain"]
    assert first == pytest.approx(0.512458, abs=1e-6)
    assert information(shares, [yes, yes, no, no])["gain"] == pytest.approx(0.455823, abs=1e-6)
    assert after(module, shares, [yes, no, yes, no], 0) == pytest.approx([0.620690, 0.051724, 0.310345, 0.017241], abs=1e-6)
    assert after(module, shares, [yes, no, yes, no], 1) == pytest.approx([0.095238, 0.642857, 0.047619, 0.214286], abs=1e-6)


@pytest.mark.parametrize("parts, gain", [
    ((4, 4), 1), ((2, 6), 0.811278), ((1, 7), 0.543564), ((3, 3, 2), 1.561278), ((2, 2, 2, 2), 2), ((4, 3, 2), 1.530493), ((5, 2, 1), 1.298795),
])  # fmt: skip
def test_equal_types_parted_by_sure_answers(information, parts, gain):
    rows = [[float(a == b) for b in range(len(parts))] for a, size in enumerate(parts) for _ in range(size)]
    assert information([1 / sum(parts)] * sum(parts), rows)["gain"] == pytest.approx(gain, abs=1e-6)


def test_a_member_that_is_like_the_others_but_for_a_part(module, information):
    """Written out in full as a row of its own, it tells the same."""
    shares, rows, other = [0.5, 0.3, 0.2], [[0.9, 0.05, 0.05], [0.1, 0.8, 0.1], [0.2, 0.2, 0.6]], {"share": 0.25, "differs": 0.4}
    rest = [share * 0.75 for share in shares]
    mean = [sum(p * row[a] for p, row in zip(shares, rows, strict=True)) for a in range(3)]
    written = information([*rest, 0.25], [*rows, [0.6 * m + 0.4 / 3 for m in mean]])
    given = {"shares": rest, "table": [x for row in rows for x in row], "other": other}
    found = module("name/entropy", "it.information(Float64Array.from(given.shares), Float64Array.from(given.table), 3, undefined, null, given.other)", given)
    assert found == pytest.approx(written)


def test_random_counts_agree_with_scikit_learn(information):
    draw = random.Random(1997)
    for _ in range(20):
        pairs = [(draw.randrange(5), draw.randrange(4)) for _ in range(200)]
        of = [Counter(answer for member, answer in pairs if member == m) for m in range(5)]
        sizes = [sum(one.values()) for one in of]
        rows = [[one[a] / size for a in range(4)] for one, size in zip(of, sizes, strict=True)]
        expected = mutual_info_score(*zip(*pairs, strict=True)) / math.log(2)
        assert information([size / 200 for size in sizes], rows)["gain"] == pytest.approx(expected, abs=1e-12)
