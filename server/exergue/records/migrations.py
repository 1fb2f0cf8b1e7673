"""Schema steps, in order. Each runs in one transaction with the line that records it."""

from .journal import meta, set_meta
from .store import write
from .tables import ALL, Coin, Fact, Purchase, Sale


def first() -> None:
    """Version 1: every table."""
    Fact._meta.database.create_tables(ALL, safe=False)


def indexes() -> None:
    """Version 2: the coin that a fact made, and the sales of a show, are found without reading all."""
    for table in (Coin, Sale):
        table._schema.create_indexes(safe=True)


def found_wants() -> None:
    """Version 3: a purchase names the want that it fills."""
    database = Purchase._meta.database
    if "want" not in {column.name for column in database.get_columns("purchase")}:
        database.execute_sql("alter table purchase add column want text")
    Purchase._schema.create_indexes(safe=True)


STEPS = [first, indexes, found_wants]
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
