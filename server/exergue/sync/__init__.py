"""The protocol between desk and phones: facts up, cards down, redacted by role."""
