"""The book on disk: an append-only journal of facts, folded into tables."""
