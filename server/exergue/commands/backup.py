"""Copy a book into one zip: its journal, its photos, its own catalogue and settings.

The desk may go on serving meanwhile. The copy is read again and compared before it counts. It holds neither the
private certificate authority nor passwords for phones: keep BOOK/authority apart if phones are to trust on.
"""

from pathlib import Path

from exergue.commands import options

HELP = "copy a book, photos included, into one checked zip"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("--to", type=Path, metavar="FILE", help="the zip to write (BOOK/backups/DATE-TIME.zip)")


def run(args) -> None:
    from exergue.commands.clock import stamp
    from exergue.records.backup import backup

    book = options.opened(args)
    target = args.to or book.folder / "backups" / f"{stamp()}.zip"
    with book.connected():
        manifest = backup(book, target)
    print(f"{target}: {len(manifest['files'])} files, up to entry {manifest['seq']:,}; read again and the same.")
