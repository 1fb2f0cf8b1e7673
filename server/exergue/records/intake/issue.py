"""A coin's date as collectors write it: "1793", "1893-S", "1853 Arrows", "1942/1", "1801 (3 over 1)", "ND"."""

import re
from typing import NamedTuple

NO_DATE = {"nd", "no date", "n d", "undated", "none", "dateless"}
_MINTS = {
    "p": "P", "d": "D", "s": "S", "o": "O", "cc": "CC", "c": "C", "w": "W",
    "philadelphia": "", "phila": "", "philly": "", "denver": "D", "san francisco": "S", "sf": "S",
    "new orleans": "O", "carson city": "CC", "charlotte": "C", "dahlonega": "D", "west point": "W",
    "none": "", "no mm": "", "no mint mark": "", "no mintmark": "", "plain": "", "n/a": "", "-": "", "\u2014": "",
}  # fmt: skip
_FORM = re.compile(
    r"(?:c\.? ?|ca\.? ?|\()?(\d{4})\)?(?:\.0+)?"  # 1793, 1793.0
    r"(?P<over>/\d{1,4})?"  # 1942/1, 1802/1801
    r"(?: ?[-\u2010-\u2015 ] ?(?P<mint>cc|[pdsocw])(?![a-z])| ?(?P<tight>cc|[pdsocw])(?![a-z]))?"
    r"(?P<over2>/\d{1,4})?"
    r"[ ,;:-]*(?P<rest>.*)",
    re.IGNORECASE | re.DOTALL,
)


class BadIssue(ValueError):
    """The text is no date of a coin; the message says why in one sentence."""


class Issue(NamedTuple):
    year: int | None
    mint: str
    variety: str  # what was written after date and mint: "1942/1", "Arrows"


def parse(text: str) -> Issue:
    """Year, mint mark and variety. An overdate is kept as the variety, under the later year. Raises BadIssue."""
    plain = text.strip()
    if plain.lower().rstrip(".").replace(".", "") in NO_DATE:
        return Issue(None, "", "")
    grouped = re.fullmatch(r"1,(\d{3})(?:\.0+)?", plain)  # 1,893: a spreadsheet put a thousands mark in
    match = _FORM.fullmatch("1" + grouped[1] if grouped else plain)
    if not match:
        if re.fullmatch(r"\d{1,2}-[A-Za-z]{3}|[A-Za-z]{3}-\d{2,4}", plain):
            raise BadIssue(f"“{plain}” is what a spreadsheet makes of a number; write the coin's year, such as 1893.")
        raise BadIssue(f"“{plain}” has no year of four digits, such as 1893; write “no date” if the coin has none.")
    year = int(match[1])
    if not 1500 <= year <= 2100:
        raise BadIssue(f"“{plain}”: {year} is no year of a coin here.")
    over = match["over"] or match["over2"] or ""
    varieties = [f"{year}{over}" if over else "", match["rest"].strip(" ()")]
    return Issue(year, (match["mint"] or match["tight"] or "").upper(), ", ".join(filter(None, varieties)))


def mint(text: str) -> str:
    """A mint mark of a cell: "S", "San Francisco" → "S"; "none" → "". Raises BadIssue."""
    plain = text.strip().lower().rstrip(".").removesuffix(" mint").strip()
    if plain in _MINTS:
        return _MINTS[plain]
    if re.fullmatch(r"[a-z]{1,4}", plain):
        return plain.upper()
    raise BadIssue(f"“{text}” is no mint mark; write P, D, S, O, CC, C or W, or leave it empty for none.")


def drop_early_p(year: int | None, mark: str) -> str:
    """No U.S. coin carried a P before the five cents of 1942: such a P says Philadelphia, without a mark.

    Common practice, no source.
    """
    return "" if mark == "P" and year is not None and year < 1942 else mark
