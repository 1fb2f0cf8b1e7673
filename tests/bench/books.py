"""Speed of the books: deals over many coins through the books, their journal, and its proof. Prints figures.

    python tests/bench/books.py [--coins 10000] [--deals 20000] [--runs 5]
"""

import argparse
import random
import time
from datetime import date, timedelta

from exergue.money.books import Books
from exergue.money.events import Cost, In, Out, Purchase, Return, Ticket, Trade, Void
from exergue.money.ledger import check

FIRST = date(2020, 1, 1)


def history(coins: int, deals: int, draw: random.Random) -> list:
    """About as a dealer works: bought by ones and by boxes, some lots; sold, traded, some returned; coins come again."""
    free, ours, past, found = [f"C{n:06d}" for n in range(coins)], [], [], []

    def paid(cents):
        return ({"what": "price", "cents": cents}, {"what": "fee", "cents": cents // 10}, {"what": "shipping", "cents": 1295})

    for n in range(deals):
        head = {"id": f"e{n:06d}", "date": FIRST + timedelta(days=n // 12), "order": n}
        chance = draw.random()
        if (chance < 0.45 and free) or not ours:
            taken = [free.pop(draw.randrange(len(free))) for _ in range(min(len(free), draw.choice((1, 1, 1, 2, 5))))]
            lines = tuple(In(coin, draw.choice((1, 1, 1, 1, 20)), draw.randrange(100, 90_000)) for coin in taken)
            found.append(Purchase(**head, bought=lines, costs=paid(draw.randrange(1_000, 500_000)), payment="cash"))
            ours += taken
        elif chance < 0.9:
            sold = [ours.pop(draw.randrange(len(ours))) for _ in range(min(len(ours), draw.choice((1, 1, 2, 3))))]
            lines = tuple(Out(coin, weight=draw.randrange(100, 90_000)) for coin in sold)
            found.append(Ticket(**head, sold=lines, price=draw.randrange(1_000, 400_000), tax=draw.randrange(500),
                                costs=({"what": "fee", "cents": 250},), payment="card"))  # fmt: skip
            past.append((head["id"], sold))
            free += sold
        elif chance < 0.95 and free:
            out, into = ours.pop(draw.randrange(len(ours))), free.pop(draw.randrange(len(free)))
            value, boot = draw.randrange(5_000, 90_000), draw.randrange(-2_000, 2_000)
            found.append(Trade(**head, out=(Out(out, value=value),), into=(In(into, value=value - boot),), boot=boot))
            free.append(out)
            ours.append(into)
        elif chance < 0.97 and past and set(past[-1][1]) <= set(free[-20:]):
            sale, sold = past.pop()
            found.append(Return(**head, of=sale, refund=0))
            free = [coin for coin in free if coin not in sold]
            ours += sold
        else:
            costs = ({"what": "grading", "cents": draw.randrange(1_000, 5_000)},)
            found.append(Cost(**head, coins=(Out(draw.choice(ours)),), costs=costs, payment="check"))
    return found


def timed(what, runs: int, text: str):
    wall, own = [], []
    for _ in range(runs):
        answer = None  # let go of the last one before the clock starts
        began, used = time.perf_counter(), time.process_time()
        answer = what()
        wall.append(1000 * (time.perf_counter() - began))
        own.append(1000 * (time.process_time() - used))
    middle = [sorted(times)[len(times) // 2] for times in (wall, own)]
    print(f"  {text:<44} {middle[0]:>8,.0f} ms   of the processor {middle[1]:,.0f}   best {min(wall):,.0f}")
    return answer


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--coins", type=int, default=10_000)
    asked.add_argument("--deals", type=int, default=20_000)
    asked.add_argument("--runs", type=int, default=5)
    args = asked.parse_args()
    events = history(args.coins, args.deals, random.Random(1))
    print(f"\n{len(events):,} deals over {args.coins:,} coins, median of {args.runs}:")
    books = timed(lambda: Books.of(events), args.runs, "books and journal")
    proof = timed(lambda: check(books), args.runs, "proof of the journal")
    assert proof.ok, proof.faults[:3]
    timed(books.stock, args.runs, "stock now")
    timed(lambda: books.stock(FIRST + timedelta(days=args.deals // 24)), args.runs, "stock half way back")
    timed(books.gains, args.runs, "gains")
    last = events[-1]
    timed(lambda: Books.of(events).take(Void(id="void", date=last.date, of=last.id)), 1, "books, and the last deal undone")
    print(f"  {len(books.disposals):,} disposals, {len(books.stock()):,} coins there, {proof.entries:,} entries of the journal")


if __name__ == "__main__":
    main()
