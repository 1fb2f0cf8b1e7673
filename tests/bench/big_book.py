"""A big invented book, the same for the same seed: purchases and notes, entered through the book's one door.

`python tests/bench/big_book.py FOLDER COUNT` makes one below FOLDER and prints where; `made(folder, count)` makes it
once for this count and the code that shapes it, and uses it again.
"""

import hashlib
import random
import shutil
import sys
import time
from pathlib import Path

from exergue import records
from exergue.labels.ids import new_id
from exergue.records.book import Book
from exergue.records.knowledge import catalogue

SEED = 1793
CHUNK = 2000  # facts in one transaction
COSTS = ("fee", "tax", "shipping")
WORDS = ("even brown", "light wear on the high points", "old collection", "tiny rim nick", "from an estate",
         "sharp date", "weak centre", "good edge", "compare with the other", "ask for a second look")  # fmt: skip
GRADES = ("G-4", "VG-8", "F-12", "VF-20", "VF-30", "EF-40", "EF-45", "AU-50", "AU-55", "MS-62", "MS-64")


def made(folder: Path, count: int) -> Path:
    """The folder of a book with `count` coins; made anew where it is not whole."""
    book = Path(folder) / f"book-{count}-{code_hash()}"
    done = book / "made"
    if not done.exists():
        shutil.rmtree(book, ignore_errors=True)
        make(book, count)
        done.write_text(str(count))
    return book


def code_hash() -> str:
    """Of what decides how the book on disk looks."""
    shaping = [Path(__file__)] + [Path(records.__file__).with_name(name) for name in ("tables.py", "cards.py", "kinds.toml")]
    return hashlib.sha256(b"".join(path.read_bytes() for path in shaping)).hexdigest()[:8]


def make(folder: Path, count: int) -> None:
    draw = random.Random(SEED)
    book = Book.create(folder, name="A big book")
    types = sorted(catalogue().types.items())
    began = time.perf_counter()
    with book.connected():
        for start in range(0, count, CHUNK):
            acts = []
            for _ in range(min(CHUNK, count - start)):
                key = new_id(draw.choice)
                acts.append(("purchase", purchase(draw, key, types)))
                if draw.random() < 0.25:
                    acts.append(("note", {"coin": key, "text": ", ".join(draw.sample(WORDS, 2)).capitalize() + "."}))
            book.act_all(acts)
    print(f"{count:,} coins entered in {time.perf_counter() - began:.1f} s", file=sys.stderr)


def purchase(draw: random.Random, key: str, types) -> dict:
    name, about = draw.choice(types)
    price = draw.randrange(500, 250_000)
    said = {
        "denom": about.denomination, "type": name, "year": draw.choice(about.years), "grade": draw.choice(GRADES),
        "place": f"Case {draw.randrange(1, 9)}, row {draw.randrange(1, 13)}", "ask": price * 3 // 2, "floor": price * 6 // 5,
    }  # fmt: skip
    costs = [{"what": "price", "cents": price}]
    costs += [{"what": what, "cents": draw.randrange(100, 4_000)} for what in COSTS if draw.random() < 0.5]
    return {"bought": [{"coin": key, "set": said}], "costs": costs, "from": f"Dealer {draw.randrange(400)}",
            "date": f"20{draw.randrange(10, 26)}-{draw.randrange(1, 13):02}-{draw.randrange(1, 29):02}",
            "payment": draw.choice(("cash", "check", "card"))}  # fmt: skip


if __name__ == "__main__":
    print(made(Path(sys.argv[1]), int(sys.argv[2])))
