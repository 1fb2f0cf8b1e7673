"""Grades: reading them, making them, and the ladder they stand on.

parse(text) -> Grade, make(prefix, number, …) -> Grade, ladder() -> [Grade…]; str(grade) is its one written form.
"""

from exergue.coins.grade import Grade, ladder, make
from exergue.coins.ladder import BadGrade
from exergue.coins.read_grade import parse

__all__ = ["BadGrade", "Grade", "ladder", "make", "parse"]
