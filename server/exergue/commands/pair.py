"""Print a one-time code, and its QR symbol, that pairs one phone within ten minutes.

An owner's phone sees everything; a helper's sees no cost, no evidence and no accounts.
"""

from exergue.commands import options

HELP = "print a one-time code that pairs a phone"


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("--role", choices=("owner", "helper"), default="helper", help="what the phone may see (helper)")
    parser.add_argument("--label", default="phone", help='what to call it in the list of devices, such as "table"')
    parser.add_argument("--address", metavar="URL", help="the desk's address, as `exergue serve` shows it")


def run(args) -> None:
    from exergue.records import devices
    from exergue.serving import notice, settings, terminal

    book = options.opened(args)
    with book.connected():
        code = devices.new_code(args.role, args.label)
    print(f"Pairing code for one {args.role}'s phone, good once within ten minutes:\n\n    {code[:4]}-{code[4:]}\n")
    address = args.address or notice.read(book.folder) or settings.read(book.folder).base_address
    if address:
        link = f"{address.rstrip('/')}/#pair={code}"
        terminal.show(link)
        print(link)
    else:
        print("Type it in the app. With --address URL, or while the desk is served, a QR symbol stands here, too.")
