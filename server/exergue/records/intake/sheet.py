"""Bytes of a CSV file → rows of cells: encoding, delimiter, where the header is, what is no data row."""

import csv
import io
import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from ...reports.formulas import unguard
from .draft import FileRefused

MOST_ROWS = 100_000
MOST_BYTES = 40_000_000
_DELIMITERS = ",;\t|"
_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f\u200b\ufeff]+")
_TOTALS = re.compile(r"(grand |sub ?)?totals?\b.*|sums?|average|count", re.IGNORECASE)


@dataclass
class Sheet:
    """`header`: (row number, cells). `rows`: (row number, cells) that hold something."""

    header: tuple[int, list[str]]
    rows: list[tuple[int, list[str]]]
    encoding: str
    delimiter: str


@cache
def headers() -> dict:
    """headers.toml: kinds of file and the words for their columns."""
    return tomllib.loads(files(__package__).joinpath("headers.toml").read_text("utf-8"))


def plain_header(text: str) -> str:
    """A column's name without case, signs or units: "Buyer's fee ($)" → "buyers fee"."""
    text = re.sub(r"\([^)]*\)", " ", text) if re.sub(r"\([^)]*\)", "", text).strip() else text
    text = text.lower().replace("'", "").replace("\u2019", "").replace("&", " ").replace("#", " no ")
    return " ".join(re.findall(r"[^\W_]+", text)) or ("no" if "#" in text else "")


@cache
def known_words() -> frozenset[str]:
    return frozenset(
        word for kind in headers().values() for words in kind["columns"].values() for word in words
    )


def read_sheet(data: bytes) -> Sheet:
    """Rows of a CSV file. Raises FileRefused with one sentence where it is none."""
    if data[:4] == b"PK\x03\x04" or data[:4] == b"\xd0\xcf\x11\xe0":
        raise FileRefused("This is a spreadsheet's own file; save it as CSV in the spreadsheet and bring that.")
    if len(data) > MOST_BYTES:
        raise FileRefused(f"The file is larger than {MOST_BYTES // 1_000_000} MB; split it.")
    text, encoding = decode(data)
    if not text.strip():
        raise FileRefused("The file is empty.")
    if "\0" in text:
        raise FileRefused("This is no text file; save the sheet as CSV and bring that.")
    text, delimiter = _declared(text) or (text, sniff(text))
    try:
        csv.field_size_limit(1_000_000)
        rows = [(n, [cell.strip("\ufeff") for cell in row])
                for n, row in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter), 1)]  # fmt: skip
    except csv.Error as problem:
        raise FileRefused(f"The file cannot be read as CSV: {problem}.") from None
    filled = [(n, row) for n, row in rows if any(clean(cell) for cell in row)]
    if len(filled) > MOST_ROWS + 1:
        raise FileRefused(f"The file has more than {MOST_ROWS:,} rows; split it.")
    at = _header(filled)
    return Sheet(filled[at], filled[at + 1 :], encoding, delimiter)


def decode(data: bytes) -> tuple[str, str]:
    """Text and the encoding it was in: UTF-8 with or without mark, UTF-16, else Windows-1252."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encodings = ["utf-16"]
    elif data[:200].count(0) * 3 > len(data[:200]):
        encodings = ["utf-16-le" if data[1:2] == b"\0" else "utf-16-be"]
    elif data[:3] == b"\xef\xbb\xbf":
        encodings = ["utf-8-sig"]
    else:
        encodings = ["utf-8", "cp1252", "latin-1"]
    for encoding in encodings:
        try:
            return data.decode(encoding), encoding
        except UnicodeDecodeError:
            continue
    raise FileRefused("The file's letters cannot be read; save it as CSV in UTF-8.")


def _declared(text: str) -> tuple[str, str] | None:
    """A first line `sep=;` as some spreadsheets write it; kept as an empty row, so row numbers stay right."""
    match = re.match(r"sep=(.)\r?\n", text)
    return (text[match.end() - 1 :], match[1]) if match else None


def sniff(text: str) -> str:
    """The delimiter that gives the most known column names in one of the first rows."""
    start = text[:20_000]
    best, score = ",", 0
    for delimiter in _DELIMITERS:
        for row in list(csv.reader(io.StringIO(start, newline=""), delimiter=delimiter))[:15]:
            hits = len({plain_header(cell) for cell in row} & known_words())
            if (hits, len(row)) > (score, 1) and hits > score:
                best, score = delimiter, hits
    return best


def _header(rows: list[tuple[int, list[str]]]) -> int:
    """Index of the header: the row of the first 15 with the most known names."""
    hits = [len({plain_header(cell) for cell in row} & known_words()) for _, row in rows[:15]]
    if not hits or max(hits) < 2:
        raise FileRefused(
            "No row of names was found above the columns; the first row should say Denomination, Date, Grade and so on."
        )
    return hits.index(max(hits))


def clean(cell: str) -> str:
    """A cell without surrounding and doubled spaces, and without the apostrophe that keeps a spreadsheet calm."""
    return "\n".join(_SPACES.sub(" ", line).strip() for line in unguard(cell).splitlines()).strip()


def flat(text: str) -> str:
    """The text on one line with single spaces: two texts of one flat form say the same."""
    return " ".join(_SPACES.sub(" ", text).split())


def is_totals(cells: list[str]) -> bool:
    """A row that a spreadsheet added up: "Total" before nothing but figures."""
    filled = [clean(cell) for cell in cells if clean(cell)]
    if not filled:
        return False
    words = [cell for cell in filled if re.search(r"[^\W\d_]", cell)]
    return bool(words) and all(_TOTALS.fullmatch(word.rstrip(":")) for word in words) or _only_money(filled, cells)


def _only_money(filled: list[str], cells: list[str]) -> bool:
    """Figures with a currency mark or decimals and nothing else, far to the right."""
    first = next(i for i, cell in enumerate(cells) if clean(cell))
    return first >= 3 and all(re.fullmatch(r"[$€£]? ?[\d ,.]+", cell) for cell in filled)
