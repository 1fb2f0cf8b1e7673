"""Options that several commands share."""

import argparse
from pathlib import Path


def book(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--book", required=True, type=Path, metavar="DIR", help="folder of the book")


def listening(parser: argparse.ArgumentParser) -> None:
    """Where and how a book is served."""
    parser.add_argument("--port", type=int, metavar="N", help="port to listen on (2646, which spells COIN)")
    parser.add_argument("--host", metavar="ADDRESS", help="address to listen on (127.0.0.1; with --lan every one)")
    parser.add_argument("--lan", action="store_true",
                        help="serve phones on this network, over HTTPS under the book's own certificate authority")
    parser.add_argument("--base-address", metavar="URL",
                        help="what phones call this desk when it stands behind a reverse proxy, "
                             "such as https://coins.example (or base_address in book.toml)")
    parser.add_argument("--proxy-hops", type=int, metavar="N",
                        help="how many reverse proxies stand in front and may be believed (with --base-address)")


def opened(args: argparse.Namespace):
    """The book that `--book` names. Raises BookError."""
    from exergue.records.book import Book

    return Book.open(args.book)
