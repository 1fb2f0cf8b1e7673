"""A label's texts, in letters that can be printed, and the rhythm in which they are set.

Sizes are in units of the label's own type size; steps are from baseline to baseline.
"""

from exergue.labels import faces, ids
from exergue.labels.label import Label

REGULAR, SEMIBOLD, BOLD = 400, 600, 700
GAP = 0.7  # ems between two texts of a line
ID_EMS = 6.2  # no ID is wider
HEAD = 1.5  # size of date and grade
PAIR = 0.72  # of its size that a line of two texts keeps before the right one alone gives way
GRADE = 1.1  # size of a grade on its own line
GRADE_STEP, TITLE_STEP, LEADING, FOOT_STEP = 1.35, 1.3, 1.12, 1.4
TAIL = 0.17  # under the last baseline: Q, $ and brackets reach below it


class Words:
    """What a label says."""

    def __init__(self, label: Label):
        self.id = ids.show(label.id)
        self.title, self.date, self.grade = map(faces.printable, (label.title, label.date, label.grade))
        self.ask, self.code = faces.printable(label.ask), faces.printable(label.code)
        self.blank = label.blank

    @property
    def head(self) -> tuple[str, str]:
        """Date and grade, left and right; a grade without date stands at the left."""
        return (self.date, self.grade) if self.date else (self.grade, "")

    def crowd(self, room: float) -> bool:
        """Whether date and grade are too wide for one line of `room` ems, be both or the grade alone made smaller."""
        date, grade = faces.ems(self.date, BOLD), faces.ems(self.grade, BOLD)
        return bool(date and grade) and min(PAIR * (date + GAP + grade), date + GAP + 0.62 * grade) > room
