"""Put a backup into a folder that holds no book yet.

Phones notice that the book was restored, and offer again what they entered since the backup.
"""

from pathlib import Path

from exergue.commands import options

HELP = "put a backup back into an empty folder"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("--from", dest="source", type=Path, required=True, metavar="FILE", help="the backup's zip")


def run(args) -> None:
    from exergue.records.backup import restore

    manifest = restore(args.source, args.book)
    print(f"{args.book} is back as of entry {manifest['seq']:,}. Phones will offer what they entered since.")
