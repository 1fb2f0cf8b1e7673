"""Schema steps, in order. Each runs in one transaction with the line that records it."""

from .journal import meta, set_meta
from .store import write
from .tables import ALL, FOLDED, Card, CardSum, Fact


def first() -> None:
    """Version 1: every table."""
    Fact._meta.database.create_tables(ALL, safe=False)


def indexes() -> None:
    """Version 2: the coin that a fact made, and the sales of a show, are found without reading all."""
    for name, column in (("coin", "made_by"), ("sale", "show")):
        Fact._meta.database.execute_sql(f'create index if not exists "{name}_{column}" on "{name}" ("{column}")')


def anew() -> None:
    """From version 3 on, where tables change: folded ones are made anew; the fold that follows fills them again."""
    database = Fact._meta.database
    tables = [table for table in FOLDED if table not in (Card, CardSum)]  # cards keep their numbers
    database.drop_tables(tables, safe=True)
    database.create_tables(tables)
    set_meta("fold", "")


# Since 3: money; the show floor; sets; the day from which an entry counts, and lots of several purchases; receipts, values of gifts,
# wants by the coin that fills them.
STEPS = [first, indexes, anew, anew, anew, anew, anew]
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
