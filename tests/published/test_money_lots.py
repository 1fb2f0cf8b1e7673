"""Lots against beancount's booking (a general double-entry library): first in first out, and specific choice (STRICT).

Thousands of random histories of one lot each, with parts that leave and more pieces than there are: both must refuse the
same sales, and agree to the cent on each gain and on what is left. Where a cost does not divide, the odd cents lie on the
pieces that leave first; beancount is told so by two lots of one day.
"""

import random
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from beancount import loader
from beancount.core import data

from exergue.money.books import Books
from exergue.money.events import BadEntry, In, Out, Purchase, Ticket
from exergue.records import books, proof
from exergue.records.book import Book
from tests.records.conftest import Phone

HISTORIES = 2_000
FIRST = date(2020, 1, 1)


def history(draw: random.Random, specific: bool) -> list:
    """Purchases on days of their own, and sales, of the one coin record LOT."""
    events, here = [], []
    for n in range(draw.randint(4, 10)):
        head = {"id": f"f{n}", "date": FIRST + timedelta(days=draw.randint(1, 60) + 90 * n), "order": n}
        if not here or draw.random() < 0.45:
            pieces = draw.randint(1, 40)
            cents = draw.randint(0, 50_000) * pieces if specific else draw.randint(pieces, 500_000)
            events.append(Purchase(**head, bought=(In("LOT", pieces),), costs=({"what": "price", "cents": cents},)))
            here.append(events[-1])
        else:
            named = draw.choice([None, draw.choice(here).id]) if specific else None
            line = Out("LOT", draw.randint(1, 30), of=named)
            events.append(Ticket(**head, sold=(line,), price=line.pieces * draw.randint(1, 90_000)))
    # A lot of one piece is a single coin here, to which no pieces are added: begin with two.
    first = events[0]
    if first.bought[0].pieces == 1:
        events[0] = replace(first, bought=(In("LOT", 2),), costs=({"what": "price", "cents": 6},))
    return events


def dollars(cents: int) -> str:
    return f"{Decimal(cents) / 100:.2f} USD"


def plain(name: str, events: list, booking: str) -> str:
    """The history in beancount's language."""
    text = [f'2019-01-01 open Assets:{name} "{booking}"']
    days = {event.id: event.date for event in events}
    for event in events:
        text.append(f'{event.date} * "{name}" "{event.id}"')
        if isinstance(event, Purchase):
            pieces, cents = event.bought[0].pieces, event.costs[0]["cents"]
            each, odd = divmod(cents, pieces)
            if odd:
                text.append(f"  Assets:{name}  {odd} PIECE {{{dollars(each + 1)}}}")
            text.append(f"  Assets:{name}  {pieces - odd} PIECE {{{dollars(each)}}}")
            text.append("  Assets:Cash")
        else:
            line = event.sold[0]
            which = days[line.of].isoformat() if line.of else ""
            text.append(f"  Assets:{name}  -{line.pieces} PIECE {{{which}}}")
            text.append(f"  Assets:Cash  {dollars(event.price)}")
            text.append("  Income:Gains")
    return "\n".join(text)


def by_beancount(histories: list[list], booking: str) -> list[tuple[dict, dict]]:
    """For each history, the gain of each sale that was booked, and what is left: {(day of purchase, cents a piece): pieces}."""
    text = "2019-01-01 open Assets:Cash\n2019-01-01 open Income:Gains\n"
    text += "\n".join(plain(f"L{n}", events, booking) for n, events in enumerate(histories))
    entries, errors, _ = loader.load_string(text)
    found = [({}, {}) for _ in histories]
    for entry in entries:
        if not isinstance(entry, data.Transaction):
            continue
        gains, left = found[int(entry.payee[1:])]
        for posting in entry.postings:
            if posting.account == "Income:Gains":
                gains[entry.narration] = -int(posting.units.number * 100)
            elif posting.cost:
                key = posting.cost.date, int(posting.cost.number * 100)
                left[key] = left.get(key, 0) + int(posting.units.number)
        if any(posting.cost and posting.units.number < 0 for posting in entry.postings):
            gains.setdefault(entry.narration, 0)  # a gain of nothing has no posting
    told = {error.message.split('"')[0].strip() for error in errors}
    # The last is its word for pieces of which none is left.
    assert told <= {"Not enough lots to reduce", "No position matches", "Ambiguous matches for",
                    "Too many missing numbers for currency group 'USD'"}  # fmt: skip
    return [(gains, {key: pieces for key, pieces in left.items() if pieces}) for gains, left in found]


def by_the_books(events: list, method: str) -> tuple[dict, dict]:
    books, gains = Books(lots=method, held="investment"), {}
    for event in events:
        try:
            books.take(event)
        except BadEntry:
            assert isinstance(event, Ticket)
            continue
        if isinstance(event, Ticket):
            gains[event.id] = sum(each.gain for each in books.gains() if each.fact == event.id)
    left = {}
    for unit in books.records["LOT"].units:
        while True:
            part = unit.split_off(1)
            key = part.came, part.cents
            left[key] = left.get(key, 0) + 1
            if part is unit:
                break
    return gains, left


@pytest.mark.parametrize(("booking", "method"), [("FIFO", "fifo"), ("STRICT", "specific")])
def test_lots_are_booked_as_beancount_books_them(booking, method):
    draw = random.Random(1793)
    histories = [history(draw, method == "specific") for _ in range(HISTORIES)]
    theirs = by_beancount(histories, booking)
    refused = 0
    for events, expected in zip(histories, theirs, strict=True):
        assert by_the_books(events, method) == expected
        refused += sum(isinstance(event, Ticket) for event in events) - len(expected[0])
    assert HISTORIES // 10 < refused < 3 * HISTORIES


def through_the_door(phone, lot: str, events: list) -> dict:
    """The same history as entries of a book: a lot that is topped up, and sales of some of it. The gain of each sale that stands."""
    facts, first = {}, True
    for event in events:
        day = {"date": event.date.isoformat()}
        if isinstance(event, Purchase):
            about = {"set": {"title": "x"} if first else {}, "pieces": event.bought[0].pieces}
            verdict = phone.say("purchase", bought=[{"coin": lot, **about}], costs=list(event.costs), **day)
            assert verdict.verdict == "applied"
            first = False
        else:
            line = event.sold[0]
            named = {"of": facts[line.of]} if line.of else {}
            verdict = phone.say("ticket", sold=[{"coin": lot, "pieces": line.pieces, **named}], price=event.price, **day)
        facts[event.id] = verdict.fact
    moves = {move["fact"]: move for move in phone.book.card("coin", lot)["own"].get("moves", [])}
    standing = {event.id: moves[facts[event.id]]["gain"] for event in events if isinstance(event, Ticket) and facts[event.id] in moves}
    return standing


@pytest.mark.parametrize(("booking", "method"), [("FIFO", "fifo"), ("STRICT", "specific")])
def test_a_lots_card_says_the_gains_that_beancount_books(tmp_path, booking, method):
    """The whole way, from the entry to the card, for fewer histories: a sale of more than there is waits, and has no gain."""
    draw = random.Random(1794)
    histories = [history(draw, method == "specific") for _ in range(150)]
    theirs = by_beancount(histories, booking)
    book = Book.create(tmp_path / "book")
    with book.connected():
        book.act("setting", {"key": "lots", "value": method})
        phone = Phone(book, "Anna's phone")
        for events, (gains, left) in zip(histories, theirs, strict=True):
            lot = phone.new_id()
            assert through_the_door(phone, lot, events) == gains
            assert book.card("coin", lot)["left"] == sum(left.values())
        assert proof.differences(books.build(book)) == []
