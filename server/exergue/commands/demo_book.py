"""The demo book: made from the CSV files of sample_inventory, through the same door as any user's files."""

import os
import shutil
import sys
from pathlib import Path

from exergue import asset_dir

NAME = "Demo book"
FILES = ("shows.csv", "coins.csv", "wants.csv", "past_sales.csv")  # shows first: purchases and sales name them
SETS = {"denomination/half-cent": {"grade_from": "VF-20", "grade_to": "AU-58"}, "century/US/19": {}}  # templates, and what their slots ask for
TO_TRY = "coins_from_spreadsheet.csv"  # left for the user, to see what becomes of a messy file


def usual_folder() -> Path:
    """EXERGUE_DATA/demo, or `exergue/demo` in the data folder that the system gives each user."""
    if told := os.environ.get("EXERGUE_DATA"):
        return Path(told) / "demo"
    if sys.platform == "win32":
        home = Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    elif sys.platform == "darwin":
        home = Path.home() / "Library" / "Application Support"
    else:
        home = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
    return home / "exergue" / "demo"


def ready(folder: Path, *, fresh: bool = False):
    """The demo book in `folder`, made first where there is none; with `fresh` the old one is put aside."""
    from exergue.commands.clock import stamp
    from exergue.records.book import FILE, Book

    if fresh and folder.exists():
        aside = folder.with_name(f"{folder.name}-{stamp()}")
        folder.rename(aside)
        print(f"The old demo book is in {aside}.")
    if not (folder / FILE).exists():
        print("Making the demo book …", flush=True)
        make(folder)
    return Book.open(folder)


def make(folder: Path) -> None:
    """A new demo book in `folder`; made beside it and moved in whole, so that no half book is ever found."""
    from exergue.records.book import Book

    new = folder.with_name(folder.name + ".new")
    shutil.rmtree(new, ignore_errors=True)
    new.parent.mkdir(parents=True, exist_ok=True)
    fill(Book.create(new, name=NAME, currency="USD"))
    if folder.exists():  # an empty folder that the user made
        folder.rmdir()
    new.rename(folder)


def fill(book) -> None:
    """Bring the sample files into an empty book, and make sets from the catalogue as one does at the desk."""
    from exergue.collecting import templates
    from exergue.records import intake, knowledge
    from exergue.records.clock import now_ms
    from exergue.records.uuid7 import uuid7

    known = knowledge.catalogue()
    with book.connected():
        for name in FILES:
            data = (asset_dir("sample_inventory") / name).read_bytes()
            intake.confirm(book, intake.read(data, intake.OfBook(book)), name)
        for text, wish in SETS.items():
            template = templates.find(known, text)
            rows = [slot.row() for slot in templates.slots(known, template, **wish)]
            book.act("set.add", {"goal": uuid7(now_ms()), "set": {"name": template.title, "template": text, "slots": rows}})
