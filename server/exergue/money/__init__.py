"""Exact money: cents, shares, cost codes; the books of a history of events, and their journal; what a coin is worth from evidence. Pure."""
