"""Making and opening a book; many writers at once."""

import threading

import pytest

from exergue.records import devices, journal, migrations, quick, refold
from exergue.records.book import FILE, Book, BookError
from exergue.records.tables import Card, Fact
from tests.records.conftest import Phone


def test_a_book_is_never_made_over_another(book):
    with pytest.raises(BookError, match="already a book"):
        Book.create(book.folder)


def test_where_there_is_no_book_none_is_made_by_opening(tmp_path):
    with pytest.raises(BookError, match="no book"):
        Book.open(tmp_path)
    assert not (tmp_path / FILE).exists()


def test_a_book_of_a_newer_version_is_left_alone(book):
    journal.set_meta("schema", str(migrations.VERSION + 1))
    with pytest.raises(BookError, match="newer"):
        Book.open(book.folder)
    assert migrations.version() == migrations.VERSION + 1


def test_a_step_that_fails_leaves_the_version_before(book, monkeypatch):
    def broken():
        journal.set_meta("half", "done")
        raise RuntimeError("power cut")

    monkeypatch.setattr(migrations, "STEPS", [*migrations.STEPS, broken])
    monkeypatch.setattr(migrations, "VERSION", migrations.VERSION + 1)
    with pytest.raises(RuntimeError):
        migrations.migrate()
    assert migrations.version() == migrations.VERSION - 1 and journal.meta("half") is None


def test_a_file_that_is_no_database_is_told_in_a_sentence(tmp_path):
    (tmp_path / FILE).write_bytes(b"these are not the tables you are looking for" * 100)
    with pytest.raises(BookError, match="not a book"):
        Book.open(tmp_path)


def test_eight_phones_that_write_at_once_all_get_in(book):
    phones = [Phone(book, f"phone {i}") for i in range(8)]
    errors = []

    def work(phone):
        try:
            with book.connected():
                for i in range(15):
                    phone.say("want.add", want=f"01890000-0000-7000-8{phones.index(phone)}00-0000000000{i:02}", set={})
        except Exception as error:  # told below, in the test's own thread
            errors.append(error)

    threads = [threading.Thread(target=work, args=(phone,)) for phone in phones]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert errors == []
    assert Fact.select().where(Fact.kind == "want.add", Fact.verdict == "applied").count() == 120
    assert refold.verify() == [] and {d.next_n for d in devices.listing()} == {16}


def test_a_book_of_the_first_version_gets_its_indexes(book, anna):
    fresh = indexes()
    assert {"coin_made_by", "sale_show"} <= fresh
    for name in ("coin_made_by", "sale_show"):
        quick.run(f'drop index "{name}"')
    journal.set_meta("schema", "1")
    Book.open(book.folder)
    assert indexes() == fresh and journal.meta("schema") == str(migrations.VERSION)


def test_a_book_from_before_the_facts_of_money_keeps_its_coins_and_the_numbers_of_its_cards(book, anna):
    coin, _ = anna.buy()
    anna.sell(coin)
    other, _ = anna.buy()
    before = {(card.kind, card.id): (card.seq, card.open, card.own) for card in Card.select()}
    for table in ("deal", "move", "added", "sale"):
        quick.run(f'drop table "{table}"')
    quick.run("""create table sale (fact text primary key, coin text, price integer, costs text, party text, date text, show text,
                 payment text, note text, state_before text, live integer)""")
    for column in ("pieces", "left", "held", "theirs", "cost_left"):
        quick.run(f'alter table coin drop column "{column}"')
    journal.set_meta("schema", "2")
    Book.open(book.folder)
    after = {(card.kind, card.id): (card.seq, card.open, card.own) for card in Card.select()}
    assert after == before and book.card("coin", coin)["state"] == "sold" and refold.verify() == []


def indexes():
    return {name for (name,) in quick.rows("select name from sqlite_master where type = 'index'")}
