"""Bringing in CSV files as users have them.

`read` looks and tells each row's fate; nothing is changed. `confirm` takes the rows that can be taken,
in one transaction.
"""

from .draft import Draft, FileRefused, Message, Row
from .present import BookView, OfBook
from .reader import confirm, read

__all__ = ["BookView", "Draft", "FileRefused", "Message", "OfBook", "Row", "confirm", "read"]
