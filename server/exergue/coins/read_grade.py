"""Reading a grade as collectors type it."""

import re

from exergue.coins import spelling
from exergue.coins.grade import Grade, make
from exergue.coins.ladder import ADJECTIVES, MARKS, PROBLEMS, STEP_OF, STEPS, STRIKES, BadGrade

_RUNGS = spelling.phrases(
    {said: key for key, rung in (STEPS | STRIKES).items() for said in (key.lower(), *rung.said)}
)
_MARKS = spelling.phrases({said: key for key, mark in MARKS.items() for said in (key, *mark.said)})
_MARK_KEYS = spelling.phrases({key: key for key in MARKS})  # "red spots" after "details" is a problem, not RD
_ADJECTIVES = spelling.phrases({said: said for said in ADJECTIVES})
_PROBLEMS = spelling.phrases({said: said for said in PROBLEMS})
_BRACKETS = re.compile(r"\(([^()]*)\)")
_NET = re.compile(r"\bnet(?: of| to| grade)?\b[:\s]*")
_DETAILS = re.compile(r"\bdet(?:ail)?s?\b\.?")
_SEPARATORS = set("-.,;:/&")


def parse(text: str) -> Grade:
    """The grade in what a collector typed: "vf20", "xf 45", "Proof 65 RD", "AU details, cleaned". Raises BadGrade."""
    whole = spelling.plain(str(text))
    if not whole:
        raise BadGrade("The grade is empty.")
    if len(whole) > 200:
        raise BadGrade("That is too long for a grade.")
    bracketed = _BRACKETS.findall(whole)
    bare = " ".join(_BRACKETS.sub(" \x02 ", whole).split())
    if bare.count("\x02") > 1 or "(" in bare or ")" in bare:
        raise BadGrade(f"The brackets in “{text}” cannot be read as a grade.")
    net = None
    parts = _NET.split(bare)
    if len(parts) > 2:
        raise BadGrade(f"“{text}” names more than one net grade.")
    if len(parts) == 2:
        if "\x02" in parts[1]:
            raise BadGrade(f"In “{text}” the problem must come before the net grade.")
        bare, net = parts[0], parse(parts[1])
    return _Reader(str(text), bare, bracketed[0] if bracketed else None, net).grade()


class _Reader:
    """Goes once over the words of a grade and gathers its parts."""

    def __init__(self, typed: str, bare: str, bracketed: str | None, net: Grade | None):
        self.typed, self.net, self.bracketed = typed, net, bracketed
        head, *tail = _DETAILS.split(bare, maxsplit=1)
        self.details = bool(tail)
        self.rung = self.number = self.adjective = None
        self.plus = False
        self.marks: list[str] = []
        self.problems: list[str] = []
        words = spelling.tokens(head.replace("\x02", " "))
        if not tail and bracketed is None and words[1:] and words[-1] == "-":
            raise BadGrade(f"The ladder has no minus (“{typed}”); give the step below, or a note.")
        rest = self._words([word for word in words if word not in _SEPARATORS])
        if rest:
            raise BadGrade(f"“{rest[0]}” in “{typed}” is not part of a grade; keep it in a note.")
        if tail:
            self._after_details(" ".join(tail[0].replace("\x02", " ").split()))
        if bracketed is not None:
            self._bracket(" ".join(bracketed.split()))

    def grade(self) -> Grade:
        prefix, number = self.rung, self.number
        if prefix is None:
            if number is None:
                raise BadGrade(f"“{self.typed}” names no grade.")
            if number not in STEP_OF:
                raise BadGrade(f"{number} is no step of the ladder from 1 to 70.")
            prefix = STEP_OF[number].key
        if self.adjective is not None:
            number = self._by_adjective(prefix, number)
        problem = ", ".join(dict.fromkeys(self.problems))
        return make(
            prefix, number, plus=self.plus, marks=tuple(self.marks),
            details=self.details or bool(problem), problem=problem, net=self.net,
        )

    def _words(self, words: list[str]) -> list[str]:
        """Takes known words from the front; gives back the rest from the first unknown one."""
        at = 0
        while at < len(words):
            length = self._take(words, at)
            if not length:
                return words[at:]
            at += length
        return []

    def _take(self, words: list[str], at: int) -> int:
        word = words[at]
        for known, keep in (
            (_PROBLEMS, self.problems.append), (_MARKS, self.marks.append),
            (_ADJECTIVES, self._keep_adjective), (_RUNGS, self._keep_rung),
        ):
            length, meaning = spelling.longest(words, at, known)
            if length:
                keep(meaning)
                return length
        if word.isdigit():
            self._keep_number(int(word))
        elif word == "+" or (word == "plus" and self.rung):
            self.plus = True
        else:
            return 0
        return 1

    def _keep_rung(self, key: str) -> None:
        if self.rung not in (None, key):
            self._two()
        self.rung = key

    def _keep_number(self, number: int) -> None:
        if self.number not in (None, number):
            self._two()
        self.number = number

    def _two(self) -> None:
        raise BadGrade(f"“{self.typed}” names two grades; keep the lower one and put the other in a note.")

    def _keep_adjective(self, said: str) -> None:
        self.adjective = said

    def _by_adjective(self, prefix: str, number: int | None) -> int:
        meant = ADJECTIVES[self.adjective].get(prefix)
        if number is None and meant is None:
            raise BadGrade(f"“{self.adjective}” has no settled meaning before {prefix}; give a number.")
        return meant if number is None else number

    def _after_details(self, rest: str) -> None:
        """Designations may still come; what follows them is the problem, in the writer's words."""
        rest = rest.strip(" -,:;./")
        while rest:
            words = spelling.tokens(rest)
            length, mark = spelling.longest(words, 0, _MARK_KEYS)
            if not length:
                break
            self.marks.append(mark)
            rest = re.sub(r"\s*".join(map(re.escape, words[:length])), "", rest, count=1).strip(" -,:;./")
        if rest:
            self.problems.append(rest)

    def _bracket(self, inside: str) -> None:
        known, _ = spelling.longest(spelling.tokens(inside), 0, _PROBLEMS)
        if inside and (self.details or known):
            self.problems.append(inside)
        elif inside:
            raise BadGrade(f"“({inside})” is not part of a grade; keep it in a note.")
