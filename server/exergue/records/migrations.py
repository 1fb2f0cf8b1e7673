"""Schema steps, in order. Each runs in one transaction with the line that records it."""

from .journal import meta, set_meta
from .store import write
from .tables import ALL, Fact


def first() -> None:
    """Version 1: every table."""
    Fact._meta.database.create_tables(ALL, safe=False)


STEPS = [first]
VERSION = len(STEPS)


def version() -> int:
    """Schema version of the open database; 0 for an empty one."""
    return int(meta("schema", "0")) if Fact._meta.database.table_exists("meta") else 0


def migrate() -> bool:
    """Bring the open database to VERSION. True if anything was done."""
    start = version()
    for number in range(start, VERSION):
        with write():
            STEPS[number]()
            set_meta("schema", str(number + 1))
    return start < VERSION
