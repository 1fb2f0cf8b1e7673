"""Make the demo book on first use and serve it. Its dealer, coins and prices are invented.

The book is kept, with whatever you do to it; `--fresh` starts it over.
"""

from pathlib import Path

from exergue.commands import demo_book, options

HELP = "make the demo book on first use and serve it"


def arguments(parser) -> None:
    parser.add_argument("--folder", type=Path, metavar="DIR", help="where the demo book lives (your data folder)")
    parser.add_argument("--fresh", action="store_true", help="put the old demo book aside and make a new one")
    options.listening(parser)


def run(args) -> None:
    from exergue.serving import desk, plan

    folder = args.folder or demo_book.usual_folder()
    book = demo_book.ready(folder, fresh=args.fresh)
    desk.run(book, plan.Wish.of(args), demo=True)
