"""How long the card of a set takes to make again when a coin changes: 150 slots, a book of 20,000 coins. Prints milliseconds."""

import random
import tempfile
import time
from pathlib import Path

from exergue.collecting import templates
from exergue.labels import ids
from exergue.records import cards, goals, knowledge
from exergue.records.book import Book

SET, COINS, SLOTS = "01890000-0000-7000-8000-000000000003", 20_000, 150


def main() -> None:
    draw = random.Random(3)
    with tempfile.TemporaryDirectory() as folder:
        book = Book.create(Path(folder) / "book")
        with book.connected():
            known = knowledge.catalogue()
            slots = [slot for century in (18, 19, 20) for slot in templates.slots(known, templates.find(known, f"century/US/{century}"))]
            slots = list({slot.key: slot for slot in slots}.values())[:SLOTS]
            book.act("set.add", {"goal": SET, "set": {"name": "All", "slots": [slot.row() for slot in slots]}})
            types = [known.types[slot.types[0]] for slot in slots]

            def coin() -> tuple[str, dict]:
                t = draw.choice(types)
                grade = draw.choice(("G-4", "VG-8", "F-12", "VF-20", "EF-40", "AU-50", "MS-63"))
                return "coin.add", {"coin": ids.new_id(draw.choice), "set": {"type": t.key, "denom": t.denomination,
                                                                             "year": draw.choice(t.years), "grade": grade}}  # fmt: skip

            for _ in range(COINS // 1000):
                book.act_all([coin() for _ in range(1000)])
            begun = time.perf_counter()
            goals.card(SET)
            made = time.perf_counter()
            for _ in range(10):
                book.act_all([coin()])
            done = time.perf_counter()
            size = len(cards.lookup("goal", SET).open)
            print(f"{len(slots)} slots, {COINS:,} coins: {1000 * (made - begun):.0f} ms for the card ({size / 1000:.0f} kB), "
                  f"{100 * (done - made):.0f} ms for an entry of one coin")  # fmt: skip


if __name__ == "__main__":
    main()
