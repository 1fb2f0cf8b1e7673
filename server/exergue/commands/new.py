"""Start an empty book in a new folder."""

from exergue.commands import options

HELP = "start an empty book"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("--name", required=True, help='what to call it, such as "My coins"')
    parser.add_argument("--currency", default="USD", metavar="CODE", help="its one currency, ISO 4217 (USD)")


def run(args) -> None:
    from exergue.records.book import Book

    Book.create(args.book, name=args.name, currency=args.currency.upper())
    print(f"“{args.name}” is ready in {args.book}. Next: exergue serve --book {args.book}")
