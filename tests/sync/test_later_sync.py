"""A later sync costs what changed, whatever the size of the book: counted in SQLite's own steps, not in time."""

import random

from exergue.labels.ids import new_id
from exergue.records.tables import database
from exergue.sync import protocol


def add(book, draw, count):
    book.act_all([("coin.add", {"coin": new_id(draw), "set": {"title": "A token"}}) for _ in range(count)])


def steps(role, cursor):
    """Steps of SQLite's machine that finding the changed cards takes."""
    taken = []
    connection = database.connection()
    connection.set_progress_handler(lambda: taken.append(1), 1)
    try:
        page, more = protocol.changed(role, cursor)
    finally:
        connection.set_progress_handler(None, 0)
    assert not more
    return len(taken), len(page)


def test_a_later_sync_reads_what_changed_and_no_more(book):
    draw = random.Random(7).choice

    def after(role, many):
        add(book, draw, many)
        cursor = book.seq
        add(book, draw, 5)
        return steps(role, cursor)

    for role in ("owner", "helper"):
        small, large = after(role, 30), after(role, 600)
        assert small == large and small[1] == 5
