"""Every grade is written one way and stands in one place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.coins import grades, ladder

WORDS = st.from_regex(r"[a-z][a-z0-9,.' -]{0,40}[a-z]", fullmatch=True).filter(
    lambda words: " ".join(words.split()) == words
)


@st.composite
def any_grade(draw):
    """Any grade that can be made, with designations, details and net grade."""
    prefix = draw(st.sampled_from([*ladder.STEPS, *ladder.STRIKES]))
    numbers = ladder.STEPS[prefix].all_numbers if prefix in ladder.STEPS else sorted(ladder.STEP_OF)
    number = draw(st.one_of(st.none(), st.sampled_from(list(numbers))))
    allowed = [m for m in ladder.MARKS.values() if not m.on or prefix in m.on]
    chosen = draw(st.lists(st.sampled_from(allowed), max_size=3, unique_by=lambda m: m.group))
    details = draw(st.booleans())
    problem = draw(st.one_of(st.just(""), st.sampled_from(ladder.PROBLEMS), WORDS)) if details else ""
    whole = grades.make(
        prefix, number, plus=draw(st.booleans()) and number != ladder.TOP, marks=tuple(m.key for m in chosen),
        details=details, problem=problem,
    )
    below = [g for g in grades.ladder() if g.number < whole.sharpness]
    net = draw(st.one_of(st.none(), st.sampled_from(below))) if below else None
    return grades.make(
        prefix, number, plus=whole.plus, marks=whole.marks, details=details, problem=problem, net=net
    )


@given(any_grade())
def test_reading_what_is_written_gives_the_same_grade(grade):
    assert grades.parse(str(grade)) == grade


@given(any_grade())
def test_case_and_spaces_do_not_matter(grade):
    assert grades.parse(f"  {str(grade).lower()} ") == grade


@given(any_grade(), any_grade())
def test_any_two_grades_have_one_order(one, other):
    assert (one < other) + (other < one) + (one == other) == 1


@given(st.text(max_size=40))
def test_any_text_is_a_grade_or_is_refused_with_a_sentence(text):
    try:
        grade = grades.parse(text)
    except grades.BadGrade as refused:
        assert str(refused).endswith(".") and "\n" not in str(refused).replace(text, "")
    else:
        assert grades.parse(str(grade)) == grade


def test_every_plain_grade_and_every_proof_reads_back():
    for grade in [*grades.ladder(), *grades.ladder("PF"), *grades.ladder("SP")]:
        assert grades.parse(str(grade)) == grade


def test_the_ladder_rises():
    numbers = [grade.number for grade in grades.ladder()]
    assert numbers == sorted(set(numbers)) and numbers[0] == 1 and numbers[-1] == 70


@pytest.mark.parametrize(
    "lower, higher",
    [
        ("VF-35", "EF-40"), ("AU-58", "MS-60"), ("MS-64", "MS-64+"), ("MS-64+", "MS-65"), ("AU Details (cleaned)", "AU-50"),
        ("MS-64 BN", "MS-64 RB"), ("MS-64 RB", "MS-64 RD"), ("VF-30 net F-12", "F-15"), ("MS-70", "PF-70"),
    ],
)
def test_stands_below(lower, higher):
    assert grades.parse(lower) < grades.parse(higher)
