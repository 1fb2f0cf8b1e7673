"""A book on paper: what an import asks of a book, answered from plain values."""

from dataclasses import dataclass, field
from datetime import date

import pytest

from exergue.coins import catalogue
from exergue.records import intake
from exergue.records.intake.present import Evidences

CATALOGUE = catalogue.load()


@dataclass
class Paper:
    currency: str = "USD"
    today: date = date(2026, 6, 30)
    held: dict = field(default_factory=dict)
    held_certificates: dict = field(default_factory=dict)
    held_wants: dict = field(default_factory=dict)
    held_shows: dict = field(default_factory=dict)
    held_evidence: Evidences = field(default_factory=Evidences)
    files: dict = field(default_factory=dict)

    def catalogue(self):
        return CATALOGUE

    def coins(self, ids):
        return {key: self.held[key] for key in ids if key in self.held}

    def certificates(self):
        return self.held_certificates

    def wants(self):
        return self.held_wants

    def shows(self):
        return self.held_shows

    def evidence(self):
        return self.held_evidence

    def taken_before(self, digest):
        return self.files.get(digest)


@pytest.fixture
def paper():
    return Paper()


@pytest.fixture
def read(paper):
    """Read lines of CSV (a text, or bytes) against the book on paper."""

    def reading(text, **answers):
        return intake.read(text if isinstance(text, bytes) else text.encode(), paper, **answers)

    return reading


@pytest.fixture
def row(read):
    """Read a file of one row, given as {column: cell}; its Row."""

    def reading(cells, **answers):
        lines = [",".join(f'"{str(text).replace(chr(34), chr(34) * 2)}"' for text in part) for part in (cells, cells.values())]
        return read("\r\n".join(lines), **answers).rows[0]

    return reading
