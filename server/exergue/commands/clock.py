"""The time of day for the names of files."""

import datetime


def stamp() -> str:
    """Local time as 2027-01-31-142500, which sorts and suits every file system."""
    return datetime.datetime.now().strftime("%Y-%m-%d-%H%M%S")
