"""Bring in a CSV file: coins, wants, past sales or shows; which of them it is shows in its columns.

First it tells each row's fate and every slip, by row and column. Nothing changes until you say yes; then all rows
that can be taken are taken in one go, or none.
"""

import sys
from pathlib import Path

from exergue.commands import Wrong, options

HELP = "bring in a CSV file, after showing what would become of each row"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("file", type=Path, help="the CSV file")
    parser.add_argument("--kind", choices=("coins", "wants", "evidence", "shows"),
                        help="what it lists, where the columns do not say (evidence: past sales)")  # fmt: skip
    order = parser.add_mutually_exclusive_group()
    order.add_argument("--day-first", action="store_true", default=None, help="03/04/2021 is 3 April")
    order.add_argument("--month-first", dest="day_first", action="store_false", default=None,
                       help="03/04/2021 is March 4")  # fmt: skip
    parser.add_argument("--undated", metavar="YYYY-MM-DD", help="the day for purchases that have a cost but no day")
    parser.add_argument("--yes", action="store_true", help="take what can be taken without asking")


def run(args) -> int:
    from exergue.records import intake

    book = options.opened(args)
    data = args.file.read_bytes()
    with book.connected():
        try:
            draft = intake.read(data, intake.OfBook(book), args.kind, args.day_first, args.undated)
            tell(args.file.name, draft)
            if not agreed(args, draft):
                print("Nothing was brought in.")
                return 1
            verdicts = intake.confirm(book, draft, args.file.name)
        except intake.FileRefused as refusal:
            raise Wrong(f"{args.file.name}: {refusal}") from refusal
    print(f"Brought in, with {len(verdicts):,} entries in the journal.")
    return 0


def tell(name: str, draft) -> None:
    for row in draft.rows:
        for message in row.messages:
            print(f"{message.level.capitalize()}: {message}", file=sys.stderr)
    for line in (*draft.remarks, *(question.text for question in draft.questions)):
        print(line, file=sys.stderr)
    counts = draft.counts
    said = [f"{counts[fate]:,} {word}" for fate, word in WORDS.items() if counts[fate]]
    print(f"{name}, {draft.kind_name.lower()}: {', '.join(said) or 'no rows'}.")


WORDS = {
    "new": "new",
    "change": "with changes",
    "same": "the same as the book has",
    "refused": "that cannot be taken",
    "skipped": "left out",
    "warned": "taken with a warning",
}


def agreed(args, draft) -> bool:
    """Whether to take it: said with --yes, or at the terminal. An open question is no yes."""
    if not draft.facts():
        return False
    if open_questions := [ANSWERED_BY[question.key] for question in draft.questions]:
        raise Wrong(f"{args.file.name}: answer first, with {' and '.join(open_questions)}.")
    if args.yes:
        return True
    if not sys.stdin.isatty():
        raise Wrong("Nobody is there to say yes; add --yes to bring the file in.")
    return input("Bring this in? [y/N] ").strip().lower() in ("y", "yes")


ANSWERED_BY = {"day_first": "--day-first or --month-first", "undated": "--undated YYYY-MM-DD"}
