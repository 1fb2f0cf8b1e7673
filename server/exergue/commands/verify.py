"""Check a book: fold its whole journal again, compare with its tables, prove its accounts, and look for each photo's file.

The accounts must balance, hold every coin at its cost, and say of each coin what its card says.

Nothing is changed. The exit code is 1 where anything disagrees.
"""

import sys

from exergue.commands import options

HELP = "check that a book's tables follow from its journal"


def arguments(parser) -> None:
    options.book(parser)


def run(args) -> int:
    from exergue.records import proof, refold

    book = options.opened(args)
    with book.connected():
        differing, remarks = proof.prove(book)
        problems = refold.verify() + differing + lost_photos(book)
        entries = book.seq
    for remark in remarks:
        print(remark)
    for problem in problems:
        print(problem, file=sys.stderr)
    if problems:
        return 1
    print(f"The book agrees with its journal, up to entry {entries:,}.")
    return 0


def lost_photos(book) -> list[str]:
    """A sentence for each photo that came in and whose files are gone."""
    from exergue.records import photos
    from exergue.records.tables import PhotoFile

    kept = [row.photo for row in PhotoFile.select(PhotoFile.photo)]
    return [f"Photo {photo} is missing from {book.photos}." for photo in kept
            if not all(photos.path(book.photos, photo, size).is_file() for size in photos.EDGES)]  # fmt: skip
