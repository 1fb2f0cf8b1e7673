"""Print labels to a PDF at true scale, and read every one of them back before it counts.

Choose coins by ID, or with --place or --all; or print --blank labels with IDs that no coin has yet.
Print at 100 %, without “fit to page”. --calibration makes a page of rulers that shows whether the printer does.
"""

from pathlib import Path

from exergue.commands import Wrong, options

HELP = "print labels, blank labels or a calibration page to a PDF"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("coins", nargs="*", metavar="ID", help="coins by their IDs")
    parser.add_argument("--place", default="", help="every coin in stock in this box, case or row")
    parser.add_argument("--all", action="store_true", help="every coin in stock")
    parser.add_argument("--blank", type=int, metavar="N", help="N labels for coins that are yet to be bought")
    parser.add_argument("--calibration", action="store_true", help="rulers and sample symbols instead of labels")
    parser.add_argument("--format", default="letter-30", metavar="KEY", help="format (letter-30); “?” lists them")
    parser.add_argument("--dpi", type=int, default=600, help="the printer's dots an inch: 203, 300 or 600 (600)")
    parser.add_argument("--start", type=int, default=1, metavar="N", help="first unused place of the first sheet (1)")
    parser.add_argument("--show", metavar="ask,code", help="asking price and cost code (as the book is set)")
    parser.add_argument("--address", metavar="URL", help="what labels lead to (the book's label address)")
    parser.add_argument("--to", type=Path, default=Path("labels.pdf"), metavar="FILE", help="the PDF (labels.pdf)")


def run(args) -> None:
    from exergue.labels import calibration, sheet
    from exergue.site import labelling

    book = options.opened(args)
    known = labelling.known_formats(book.folder)
    if args.format == "?":
        print("\n".join(f"{key:<16} {form.name}" for key, form in known.items()))
        return
    if args.format not in known:
        raise Wrong(f"There is no label format “{args.format}”; --format '?' lists those there are.")
    form = known[args.format]
    if args.calibration:
        calibration.page(form, args.dpi, args.to)
        print(f"{args.to}: print it at 100 % and lay a ruler on it.")
        return
    with book.connected():
        labels = blank(args, book) if args.blank is not None else of_coins(args, book)
        printed = sheet.print_pdf(labels, form, args.dpi, args.start, args.to)
        sure(args.to, labels, args.dpi)
        if args.blank is not None:  # an ID counts once it is on paper
            book.act("labels.blank", {"ids": [label.id for label in labels]})
    print(f"{args.to}: {printed.labels:,} labels on {printed.pages:,} {'pages' if printed.pages > 1 else 'page'}; "
          "each was read back. Print at 100 %.")  # fmt: skip


def of_coins(args, book) -> list:
    from exergue.records import reading
    from exergue.site import labelling

    settings = book.settings()
    chosen = found(args)
    cards = reading.coins(chosen)
    if missing := set(chosen) - {card["id"] for card in cards}:
        raise Wrong(f"No coin of this book has the ID {', '.join(sorted(missing))}.")
    shows = settings["label_shows"] if args.show is None else [part.strip() for part in args.show.split(",") if part]
    if wrong := set(shows) - set(labelling.SHOWS):
        raise Wrong(f"--show takes {' and '.join(labelling.SHOWS)}, not {', '.join(sorted(wrong))}.")
    return [labelling.label(card, base(args, book), settings, shows) for card in cards]


def found(args) -> list[str]:
    """IDs of the chosen coins. Raises Wrong where none are."""
    from exergue.labels import ids
    from exergue.records import reading

    if sum(map(bool, (args.coins, args.place, args.all))) != 1:
        raise Wrong("Choose the coins one way: by their IDs, with --place, or with --all.")
    chosen = [ids.parse(text) for text in args.coins] or reading.coin_ids(state="in stock", place=args.place)
    if not chosen:
        raise Wrong(f"Nothing in stock is in “{args.place}”." if args.place else "Nothing is in stock.")
    return list(dict.fromkeys(chosen))


def blank(args, book) -> list:
    from exergue.labels import Label, ids

    if args.coins or args.place or args.all:
        raise Wrong("Blank labels belong to no coin yet; leave the coins out.")
    if not 1 <= args.blank <= 1000:
        raise Wrong("Print between 1 and 1,000 blank labels at a time.")
    return [Label.for_later(ids.new_id(), base(args, book)) for _ in range(args.blank)]


def base(args, book) -> str:
    """What labels lead to. Raises Wrong where nobody said."""
    from exergue.serving import notice, settings

    written, served = settings.read(book.folder).base_address, notice.read(book.folder)
    address = args.address or book.setting("label_address") or written or served
    if not address:
        raise Wrong("Say what labels lead to with --address, such as https://coins.local:2646; "
                    "or set the book's label address at the desk.")  # fmt: skip
    return address


def sure(pdf: Path, labels: list, dpi: int) -> None:
    """Read the PDF as a phone would. Raises Wrong, and takes it away, where a label does not read."""
    from exergue.labels import readback

    verdict = readback.check(pdf, [label.id for label in labels], dpi)
    if not verdict.good:
        pdf.unlink()
        raise Wrong(verdict.sentence())
