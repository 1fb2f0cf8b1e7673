"""Serve a book: the desk's pages and the phone app.

Without --lan only this computer can reach it, over plain HTTP. With --lan phones on the same network can,
over HTTPS; a page and a QR code take each phone through trusting the book's certificate authority.
"""

from exergue.commands import options

HELP = "serve a book to this computer, or with --lan to phones on this network"


def arguments(parser) -> None:
    options.book(parser)
    options.listening(parser)


def run(args) -> None:
    from exergue.serving import desk, plan

    desk.run(options.opened(args), plan.Wish.of(args))
