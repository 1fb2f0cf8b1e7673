"""What is printed: identity numbers, QR symbols, label formats and their pages."""

from exergue.labels.label import Label

__all__ = ["Label"]
