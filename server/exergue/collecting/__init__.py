"""Sets and wants. Pure."""
