"""Walk one whole show day on a fresh demo book, without a browser, over the HTTP API that phones use.

Prints the close of show, and ends with exit code 1 where desk, phone, stock or cash disagree.
"""

HELP = "walk a whole show day on a demo book and print its close"


def arguments(parser) -> None:
    parser.add_argument("--json", action="store_true", help="print the close as JSON, for programs")


def run(args) -> int:
    from exergue import rehearse

    return rehearse.run(as_json=args.json)
