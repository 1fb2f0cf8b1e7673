"""Folding: how each kind of fact changes the tables. Same facts in the same order, same tables."""

from . import cash, coins, deals, decide, edits, elsewhere, floor, lists, receipts, returns, selling, trades, voids
from .entry import Entry, Outcome

PARTS = (coins, edits, deals, cash, selling, returns, trades, elsewhere, voids, decide, lists, floor, receipts)
FOLDS = {kind: fold for part in PARTS for kind, fold in part.FOLDS.items()}

__all__ = ["FOLDS", "Entry", "Outcome"]
