"""A file, read against the book: kind, columns, and each row's fate. And taking it."""

import hashlib

from . import coin_rows, dates, list_rows
from .cells import Cells, Situation
from .draft import NEW, REFUSED, SKIPPED, Column, Draft, FileRefused, Message, Question, Row
from .present import BookView
from .sheet import Sheet, clean, headers, is_totals, plain_header, read_sheet

READERS = {
    "coins": coin_rows.read,
    "wants": list_rows.read_want,
    "evidence": list_rows.read_evidence,
    "shows": list_rows.read_show,
}
_DAYS = {"purchase_date", "sold_date", "date", "starts", "ends"}


def read(
    data: bytes, view: BookView, kind: str | None = None, day_first: bool | None = None, undated: str | None = None
) -> Draft:
    """What would happen if this CSV file were taken now. Changes nothing. Raises FileRefused.

    `kind`: coins, wants, evidence (past sales) or shows; found from the columns if None. `day_first` and
    `undated` (YYYY-MM-DD, for purchases without a day) answer the draft's questions.
    """
    sheet = read_sheet(data)
    kind = kind or find_kind(sheet)
    if kind not in READERS:
        raise FileRefused(f"“{kind}” is no kind of file; known are {', '.join(READERS)}.")
    columns = match_columns(sheet.header[1], kind)
    needs = headers()[kind]["needs"]
    if not set(needs) & set(columns):
        raise FileRefused(f"For {headers()[kind]['name'].lower()}, a column must say {_either(needs, kind)}.")
    if day_first is None:
        day_first = _leaning(sheet, columns)
    situation = Situation(view, columns, day_first, _day(undated, view))
    if kind == "coins" and "id" in columns:
        at = columns["id"][0]
        situation.held = view.coins([coin_rows.parse_id(clean(cells[at])) for _, cells in sheet.rows if at < len(cells)])
    header = [plain_header(name) for name in sheet.header[1]]
    rows = [_row(situation, header, line, cells, READERS[kind]) for line, cells in sheet.rows]
    draft = Draft(
        kind=kind,
        kind_name=headers()[kind]["name"],
        columns=_listed(sheet.header[1], columns),
        rows=rows,
        digest=hashlib.sha256(data).hexdigest(),
        encoding=sheet.encoding,
        delimiter=sheet.delimiter,
        questions=_questions(situation),
    )
    draft.remarks = _remarks(draft, view)
    return draft


def confirm(book, draft: Draft, filename: str) -> list:
    """Take the rows that can be taken, in one transaction headed by an `import` fact; its verdicts.

    Raises FileRefused if there is nothing to take, and the book's Refused, leaving nothing, if it refuses a fact.
    """
    facts = draft.facts()
    if not facts:
        raise FileRefused("There is nothing in this file to bring in.")
    name = filename.replace("\\", "/").rpartition("/")[2].strip()[-200:] or "file.csv"
    rows = sum(bool(row.facts) for row in draft.rows)
    return book.act_all([("import", {"file": name, "digest": draft.digest, "rows": rows}), *facts])


def find_kind(sheet: Sheet) -> str:
    """The kind of file whose words fit the most columns; the words that tell it from the others count double."""
    scores = {}
    for kind, about in headers().items():
        found = match_columns(sheet.header[1], kind)
        if set(about["needs"]) & set(found):
            scores[kind] = len(found) + len(set(about["tells"]) & set(found))
    if not scores:
        raise FileRefused("The columns do not say what this file holds; choose what it is, or name the columns.")
    return max(scores, key=scores.get)  # the first of equals, in the order of headers.toml


def match_columns(header: list[str], kind: str) -> dict[str, tuple[int, str]]:
    """Field → (index, name) of its column. The plainest word for a field wins, then the earlier column."""
    words = [plain_header(name) for name in header]
    wishes = sorted(
        (said.index(word), at, field)
        for field, said in headers()[kind]["columns"].items()
        for at, word in enumerate(words)
        if word in said
    )
    found: dict[str, tuple[int, str]] = {}
    used: set[int] = set()
    for _, at, field in wishes:
        if field not in found and at not in used:
            found[field] = (at, " ".join(header[at].split()))
            used.add(at)
    return found


def _row(situation: Situation, header: list[str], line: int, cells: list[str], reader) -> Row:
    row = Row(line)
    if plain_header(cells[0]) == header[0] and [plain_header(cell) for cell in cells] == header:
        return _skip(row, "The header again; left out.")
    if is_totals(cells):
        return _skip(row, "A row of totals; left out.")
    if any(clean(cell) for cell in cells[len(header) :]):
        row.messages.append(Message("error", line, "", "There are more cells than columns; a comma may need quotes."))
        row.fate = REFUSED
        row.title = clean(cells[0])
        return row
    reader(Cells(situation, row, cells))
    if row.fate == REFUSED:
        row.facts = []
    return row


def _skip(row: Row, why: str) -> Row:
    row.fate = SKIPPED
    row.messages.append(Message("info", row.line, "", why))
    return row


def _leaning(sheet: Sheet, columns: dict) -> bool | None:
    at = [columns[name][0] for name in _DAYS & set(columns)]
    return dates.leaning(clean(cells[i]) for _, cells in sheet.rows for i in at if i < len(cells))


def _day(text: str | None, view: BookView) -> str | None:
    try:
        return dates.parse(text, view.today, None) if text else None
    except dates.BadDate as problem:
        raise FileRefused(f"The day for undated purchases: {problem}") from None


def _listed(header: list[str], columns: dict) -> list[Column]:
    fields = {at: field for field, (at, _) in columns.items()}
    return [Column(" ".join(name.split()), fields.get(at)) for at, name in enumerate(header)]


def _questions(situation: Situation) -> list[Question]:
    questions = []
    if "day_first" in situation.asked:
        questions.append(Question(
            "day_first", "Dates such as 03/04/2021 can be read two ways. How does this file write them?",
            ((False, "Month first: March 4"), (True, "Day first: 3 April")),
        ))  # fmt: skip
    if "undated" in situation.asked:
        questions.append(Question("undated", "Some coins have a cost but no day of purchase. Which day stands for it?"))
    return questions


def _remarks(draft: Draft, view: BookView) -> list[str]:
    remarks = []
    before = view.taken_before(draft.digest)
    if before is not None:
        twice = " Its coins without an ID would come in a second time." if draft.counts[NEW] else ""
        remarks.append(f"This very file was brought in before, as “{before}”.{twice}")
    unread = [column.name or "(no name)" for column in draft.columns if column.field is None]
    if unread:
        remarks.append(f"Not read: {', '.join(unread)}.")
    return remarks


def _either(fields: list[str], kind: str) -> str:
    return " or ".join(headers()[kind]["columns"][field][0] for field in fields)
