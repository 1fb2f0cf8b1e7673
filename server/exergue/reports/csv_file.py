"""A report as CSV (RFC 4180). First one table of all rows; after an empty line the totals, the caution and the notes."""

import csv
import io

from . import model
from .cells import filed
from .formulas import guard
from .model import Report, Section


def to_csv(report: Report, currency: str) -> str:
    """The report as CSV text with CRLF line ends; encode it as "utf-8-sig", so that spreadsheets see it. No photos.

    Sections of the same columns are one table; where there is more than one section, the first column names it.
    Sections with columns of their own follow as tables of their own.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    named = len(report.sections) > 1
    tables: dict[tuple, list[Section]] = {}
    for section in report.sections:
        tables.setdefault(tuple(report.columns_of(section)), []).append(section)
    for at, (columns, sections) in enumerate(tables.items()):
        if at:
            writer.writerow([])
        kept = [column for column in columns if column.kind != model.PHOTO]
        writer.writerow((["Section"] if named else []) + [guard(column.heading) for column in kept])
        for section in sections:
            writer.writerows(_lines(section, section.rows, kept, named, currency))
        sums = [section for section in sections if section.totals]
        if sums:
            writer.writerow([])
            for section in sums:
                writer.writerows(_lines(section, section.totals, kept, named, currency))
    remarks = [report.caution, *(section.note for section in report.sections), *report.notes]
    remarks = [guard(remark) for remark in remarks if remark]
    if remarks:
        writer.writerow([])
        writer.writerows([remark] for remark in remarks)
    return out.getvalue()


def _lines(section, rows, columns, named, currency):
    first = [guard(section.heading)] if named else []
    pairs = [(column.key, column.kind) for column in columns]
    for row in rows:
        yield first + [filed(row.get(key), kind, currency) for key, kind in pairs]
