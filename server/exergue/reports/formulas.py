"""Texts that a spreadsheet would run as a formula: marked on the way out, given back on the way in.

OWASP, "CSV Injection": an apostrophe in front of a cell that starts with one of these.
"""

STARTS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")  # the last four: full-width forms of the first four


def guard(text: str) -> str:
    """The text, with an apostrophe in front where a spreadsheet would run it or where `unguard` would take one off."""
    return "'" + text if text.startswith(STARTS) or _marked(text) else text


def unguard(text: str) -> str:
    """The inverse of guard."""
    return text[1:] if _marked(text) else text


def _marked(text: str) -> bool:
    return text[:1] == "'" and text[1:].startswith((*STARTS, "'"))
