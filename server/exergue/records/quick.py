"""Fixed SQL for the few statements that run for every fact: building them anew each time costs most of it.

Plain SQL that SQLite and PostgreSQL both take, `?` for a value.
"""

from functools import cache

from .tables import Fact, JSONText


@cache
def _ready(sql: str, mark: str) -> str:
    return sql if mark == "?" else sql.replace("?", mark)


def run(sql: str, *values):
    """Execute, returning the cursor."""
    db = Fact._meta.database
    return db.execute_sql(_ready(sql, db.param), values)


def rows(sql: str, *values) -> list[tuple]:
    return run(sql, *values).fetchall()


def row(sql: str, *values) -> tuple | None:
    return run(sql, *values).fetchone()


def there(sql: str, *values) -> bool:
    return run(sql, *values).fetchone() is not None


@cache
def _insert(table) -> tuple[str, list]:
    fields = table._meta.sorted_fields
    names = ", ".join(f'"{field.column_name}"' for field in fields)
    return f'insert into "{table._meta.table_name}" ({names}) values ({", ".join("?" * len(fields))})', fields


def insert(table, **given) -> None:
    """Insert one row; what is not given takes the field's default."""
    sql, fields = _insert(table)
    values = []
    for field in fields:
        value = given.pop(field.name) if field.name in given else _default(field)
        values.append(field.db_value(value) if isinstance(field, JSONText) else value)
    assert not given, f"{table.__name__} has no {', '.join(given)}"
    run(sql, *values)


def _default(field):
    return field.default() if callable(field.default) else field.default
