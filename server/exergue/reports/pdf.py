"""A report printed as a PDF: paper and ink, hairlines, one accent; text that can be searched.

Letter or A4, upright or across as the columns need; headings come again on every page, rows keep together, long texts
are wrapped and never cut.
"""

from . import model
from .cells import shown
from .columns import Table, measured
from .face import REGULAR, face
from .flow import MARGIN, Flow
from .model import BadReport, Report

PAPERS = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}  # points
SIZES = (8.5, 8.0, 7.5, 7.0, 6.5)
LACKING = "Letters that the printed face lacks stand as “?”; the CSV file of this report has them."


def write_pdf(report: Report, currency: str, paper: str = "letter") -> bytes:
    """The report as a PDF on `paper` "letter" or "a4"; amounts in `currency`. Raises BadReport for another paper."""
    if paper not in PAPERS:
        raise BadReport(f"“{paper}” is not a paper known here; choose {' or '.join(PAPERS)}.")
    columns = [tuple(report.columns_of(section)) for section in report.sections]
    texts = [
        (_printed(kept, section.rows, currency), _printed(kept, section.totals, currency))
        for kept, section in zip(columns, report.sections, strict=True)
    ]
    tables = _measured(columns, texts)
    size, page = _chosen(PAPERS[paper], list(tables.values()))
    sets = {kept: table.arranged(size, MARGIN, page[0] - 2 * MARGIN) for kept, table in tables.items()}
    flow = Flow(report.title, size, page)
    flow.head(report, currency)
    for section, (rows, totals), kept in zip(report.sections, texts, columns, strict=True):
        flow.section(section, rows, totals, sets[kept])
    notes = [*report.notes, *([LACKING] if _lacking(report, columns, texts) else [])]
    if notes:
        flow.notes(notes)
    return flow.done()


def _printed(columns, rows, currency: str) -> list[dict]:
    """The printed cells of rows, by key; a photo stays what it is."""
    pairs = [(column.key, column.kind) for column in columns]
    return [
        {key: row.get(key) if kind == model.PHOTO else shown(row.get(key), kind, currency) for key, kind in pairs}
        for row in rows
    ]


def _measured(columns, texts) -> dict[tuple, Table]:
    """Sections of the same columns are measured as one, so that they stand under one another."""
    groups: dict[tuple, tuple[list, list]] = {}
    for kept, (rows, totals) in zip(columns, texts, strict=True):
        both = groups.setdefault(kept, ([], []))
        both[0].extend(rows)
        both[1].extend(totals)
    return {kept: measured(kept, *both) for kept, both in groups.items()}


def _chosen(paper: tuple[float, float], tables: list[Table]) -> tuple[float, tuple[float, float]]:
    """Type size and page: upright where it is comfortable, else across, else in smaller type."""
    across = (paper[1], paper[0])
    for test, tries in (
        (Table.comfortable, [(SIZES[0], paper), (SIZES[0], across), (SIZES[1], across)]),
        (Table.fits, [(size, across) for size in SIZES]),
    ):
        for size, page in tries:
            if all(test(table, size, page[0] - 2 * MARGIN) for table in tables):
                return size, page
    return SIZES[-1], across


def _lacking(report: Report, columns, texts) -> bool:
    """Whether a letter of the report is not in the face."""
    one = face(REGULAR)
    said = [report.title, report.subtitle, *(section.heading for section in report.sections)]
    for kept, both in zip(columns, texts, strict=True):
        keys = [column.key for column in kept if column.kind == model.TEXT]
        said += (row[key] for rows in both for row in rows for key in keys)
    return any(one.lacks(text) for text in said)
