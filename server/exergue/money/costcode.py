"""The cost code on a label: what the dealer paid, in letters that only the dealer can read.

A keyword of ten different letters stands for 1 2 3 4 5 6 7 8 9 0, and one more letter says "the same
digit again", so that doubled digits give nothing away. Common practice, no source. It hides a figure
from a glance across the table; it is no secret from anybody who collects a few labels.
"""

import re

from .cents import currency

DIGITS = "1234567890"


class BadCode(ValueError):
    """The keyword, or a code, does not work; the message says why in one sentence."""


class Code:
    """A cost code. Raises BadCode if the keyword or the repeat letter does not work."""

    def __init__(self, keyword: str, repeat: str = "X", with_cents: bool = False, code: str = "USD"):
        self.keyword, self.repeat = _letters(keyword), _letters(repeat)
        self.with_cents = with_cents
        self.digits = currency(code).digits
        if len(self.keyword) != 10:
            raise BadCode(f"A cost code's keyword has ten letters; this has {len(self.keyword)}.")
        for letter in self.keyword:
            if self.keyword.count(letter) > 1:
                raise BadCode(f"The keyword needs ten different letters; “{letter}” comes twice.")
        if len(self.repeat) != 1:
            raise BadCode("Give one letter that says “the same digit again”.")
        if self.repeat in self.keyword:
            raise BadCode(f"The repeat letter “{self.repeat}” is in the keyword; choose another.")
        self._write = dict(zip(DIGITS, self.keyword, strict=True))
        self._read = {letter: digit for digit, letter in self._write.items()}

    def write(self, cents: int) -> str:
        """Minor units (0 or more) as letters: whole units rounded half up, or "BLA.CK" with cents."""
        if cents < 0:
            raise BadCode("A cost below zero cannot be written as a code.")
        unit = 10**self.digits
        if self.with_cents and self.digits:
            whole, rest = divmod(cents, unit)
            figure = f"{whole}.{rest:0{self.digits}d}"
        else:
            figure = str((2 * cents + unit) // (2 * unit))
        out, before = [], ""
        for digit in figure:
            if digit == ".":
                out.append(digit)
                continue
            out.append(self.repeat if digit == before else self._write[digit])
            before = digit
        return "".join(out)

    def read(self, text: str) -> int:
        """Minor units of a code, with or without cents after a point. Raises BadCode."""
        plain = re.sub(r"\s", "", text).upper()
        figure = ""
        for letter in plain:
            if letter == ".":
                figure += letter
            elif letter == self.repeat and figure.strip("."):
                figure += figure.replace(".", "")[-1]
            elif letter in self._read:
                figure += self._read[letter]
            else:
                raise BadCode(f"“{letter}” cannot stand there in this cost code.")
        whole, point, rest = figure.partition(".")
        if not whole or (point and len(rest) != self.digits) or "." in rest:
            raise BadCode(f"“{text.strip()}” is not a whole cost code.")
        return int(whole + rest.ljust(self.digits, "0"))


def _letters(text: str) -> str:
    plain = re.sub(r"\s", "", text).upper()
    if not re.fullmatch(r"[A-Z]*", plain):
        raise BadCode("A cost code is made of the letters A to Z only.")
    return plain
