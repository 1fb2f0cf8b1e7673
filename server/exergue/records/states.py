"""The states of a coin, in the trade's words."""

HELD = ("in stock", "on memo", "on consignment", "at grading", "away")  # ours, or with us, wherever it is now
STATES = (*HELD, "sold", "traded", "returned", "missing")
