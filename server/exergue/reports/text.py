"""A report as plain text, for a terminal."""

from . import model
from .cells import ALIGNED, shown
from .model import Report


def to_text(report: Report, currency: str) -> str:
    """The report as lines; figures stand to the right, photos are left out."""
    out = [report.title, report.subtitle, ""]
    if report.caution:
        out += [report.caution, ""]
    for section in report.sections:
        columns = [column for column in report.columns_of(section) if column.kind != model.PHOTO]
        lines = [[column.heading for column in columns]]
        for row in (*section.rows, *section.totals):
            lines.append([shown(row.get(column.key), column.kind, currency).replace("\n", ", ") for column in columns])
        wide = [max(len(cells[at]) for cells in lines) for at in range(len(columns))]
        out += [text for text in (section.heading, section.note) if text]
        for cells in lines:
            set_ = [f"{cell:>{w}}" if column.kind in ALIGNED else f"{cell:<{w}}"
                    for cell, w, column in zip(cells, wide, columns, strict=True)]  # fmt: skip
            out.append("  ".join(set_).rstrip())
        out.append("")
    return "\n".join([*out, *report.notes]).rstrip("\n") + "\n"
