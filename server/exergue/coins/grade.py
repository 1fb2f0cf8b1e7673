"""One grade: its one way of being written, and where it stands on the ladder.

Written: step or strike, number, plus, designations, details with the problem, net grade, as in
"VF-20", "VF", "MS-64+ RB", "PF-65 DCAM", "AU-50 Details (cleaned)", "VF-30 Details (porous) net F-12".
"""

import re
from dataclasses import dataclass
from functools import total_ordering

from exergue.coins.ladder import MARK_ORDER, MARKS, STEP_OF, STEPS, STRIKES, TOP, BadGrade, check_number

PROBLEM_LENGTH = 60
_PROBLEM = re.compile(r"[^\W_](?:[^()_\n]*[^\s()_])?", re.UNICODE)


@total_ordering
@dataclass(frozen=True)
class Grade:
    """One grade. Made by `parse` or `make`, which check it. Ordered by where it stands on the ladder."""

    prefix: str  # a step (VF, MS) or a strike (PF, SP)
    sharpness: int  # the number that wear alone gives, 1 to 70
    stated: bool = True  # False: the number was not written ("VF"), and the lowest of the step stands in
    plus: bool = False
    marks: tuple[str, ...] = ()
    details: bool = False
    problem: str = ""
    net: "Grade | None" = None  # the lower grade at which a troubled coin is taken

    @property
    def number(self) -> int:
        """The number that counts, 1 to 70: the net grade's where there is one."""
        return self.net.number if self.net else self.sharpness

    @property
    def highest(self) -> int:
        """The highest number the grade may mean: 35 for "VF", 20 for "VF-20"."""
        if self.net:
            return self.net.highest
        if self.stated:
            return self.sharpness
        return STEPS[self.prefix].numbers[-1] if self.prefix in STEPS else TOP

    @property
    def is_proof(self) -> bool:
        return self.prefix == "PF"

    @property
    def impaired(self) -> bool:
        """A proof or specimen that has seen wear or handling."""
        return self.prefix in STRIKES and self.sharpness < STRIKES[self.prefix].sound_from

    @property
    def name(self) -> str:
        """In words: "Very Fine 20", "Mint State 64, red-brown", "About Uncirculated details (cleaned)"."""
        rung = STEPS.get(self.prefix) or STRIKES[self.prefix]
        text = rung.name + (f" {self.sharpness}" if self.stated else "") + (" plus" if self.plus else "")
        text += ", impaired" if self.impaired else ""
        text += "".join(f", {MARKS[mark].name}" for mark in self.marks)
        text += " details" if self.details else ""
        text += f" ({self.problem})" if self.problem else ""
        return text + (f", net {self.net.name}" if self.net else "")

    def __str__(self) -> str:
        text = self.prefix + (f"-{self.sharpness}" if self.stated else "") + ("+" if self.plus else "")
        text += "".join(f" {mark}" for mark in self.marks)
        text += " Details" if self.details else ""
        text += f" ({self.problem})" if self.problem else ""
        return text + (f" net {self.net}" if self.net else "")

    @property
    def order(self) -> tuple:
        """Sort key: number, then straight above details, plus above none, proof last, then designations."""
        strikes = list(STRIKES)
        strike = 1 + strikes.index(self.prefix) if self.prefix in strikes else 0
        marks = tuple(MARK_ORDER[mark] for mark in self.marks)
        return (self.number, not (self.details or self.net), self.plus, strike, self.stated, marks, str(self))

    def __lt__(self, other: object) -> bool:
        return self.order < other.order if isinstance(other, Grade) else NotImplemented


def make(
    prefix: str,
    number: int | None = None,
    *,
    plus: bool = False,
    marks: tuple[str, ...] = (),
    details: bool = False,
    problem: str = "",
    net: Grade | None = None,
) -> Grade:
    """A checked grade. Without `number` the lowest of the step stands in. Raises BadGrade."""
    if prefix not in STEPS and prefix not in STRIKES:
        raise BadGrade(f"“{prefix}” is no step of the ladder.")
    lowest = STEPS[prefix].numbers[0] if prefix in STEPS else STRIKES[prefix].sound_from
    value = lowest if number is None else number
    check_number(prefix, value)
    if plus and value == TOP:
        raise BadGrade(f"{TOP} is the top of the ladder and takes no plus.")
    grade = Grade(prefix, value, number is not None, plus, _marks(prefix, marks), details, problem, net)
    if problem and not details:
        raise BadGrade(f"A problem ({problem}) makes {prefix}-{value} a details grade.")
    if problem and (len(problem) > PROBLEM_LENGTH or not _PROBLEM.fullmatch(problem)):
        raise BadGrade(f"Name the problem in at most {PROBLEM_LENGTH} characters, without brackets.")
    if net and (net.net or net.details or net.number >= value):
        raise BadGrade(f"The net grade must be a plain one below {prefix}-{value}.")
    return grade


def _marks(prefix: str, marks: tuple[str, ...]) -> tuple[str, ...]:
    taken: dict[str, str] = {}
    for key in marks:
        mark = MARKS[key]
        if mark.on and prefix not in mark.on:
            raise BadGrade(f"{key} ({mark.name}) is not said of {prefix}, only of {', '.join(mark.on)}.")
        if taken.setdefault(mark.group, key) != key:
            raise BadGrade(f"{taken[mark.group]} and {key} cannot both be true of one coin.")
    return tuple(sorted(taken.values(), key=MARK_ORDER.__getitem__))


def ladder(strike: str = "") -> list[Grade]:
    """Every plain grade from 1 to 70, lowest first; with strike "PF" or "SP", those written with it."""
    return [make(strike or STEP_OF[number].key, number) for number in sorted(STEP_OF)]

