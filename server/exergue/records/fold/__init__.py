"""Folding: how each kind of fact changes the tables. Same facts in the same order, same tables."""

from . import coins, deals, decide, lists, voids
from .entry import Entry, Outcome

FOLDS = {**coins.FOLDS, **deals.FOLDS, **voids.FOLDS, **decide.FOLDS, **lists.FOLDS}

__all__ = ["FOLDS", "Entry", "Outcome"]
