"""The command line: `exergue COMMAND …`. Errors that a user can mend are one line on stderr and exit code 1."""

import argparse
import importlib
import os
import sys
from collections.abc import Sequence

from exergue import __version__

COMMANDS = ("demo", "new", "serve", "pair", "import", "labels", "report", "backup", "restore", "verify", "rehearse")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # sums of a few hundred numbers: threads of numpy would only wait for each other
ABOUT = "An offline show-floor companion for people who collect, deal and trade coins."


def module(name: str):
    """The module of command `name`; `import` is a Python word, so its module is `import_`."""
    return importlib.import_module(f"exergue.commands.{'import_' if name == 'import' else name}")


def parser() -> argparse.ArgumentParser:
    top = argparse.ArgumentParser(prog="exergue", description=ABOUT)
    top.add_argument("--version", action="version", version=f"exergue {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", dest="command", required=True)
    for name in COMMANDS:
        command = module(name)
        one = commands.add_parser(name, help=command.HELP, description=command.__doc__,
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
        command.arguments(one)
        one.set_defaults(run=command.run)
    return top


def main(argv: Sequence[str] | None = None) -> int:
    for stream in (sys.stdout, sys.stderr):  # a terminal of another encoding loses a letter, not the command
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    args = parser().parse_args(argv)
    try:
        return args.run(args) or 0
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:  # the reader of a pipe (`| head`) has enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as error:
        if os.environ.get("EXERGUE_TRACEBACK") or not isinstance(error, expected()):
            raise
        print(f"exergue: {sentence(error)}", file=sys.stderr)
        return 1


def expected() -> tuple[type[Exception], ...]:
    """The errors that tell a user what to mend; any other is a fault of the program and keeps its traceback."""
    from exergue.commands import Wrong
    from exergue.labels.formats import BadFormat
    from exergue.labels.ids import BadLabel
    from exergue.labels.symbol import BadSymbol
    from exergue.money.cents import BadAmount
    from exergue.records.book import BookError
    from exergue.records.verdicts import JournalError, Refused

    return (Wrong, BookError, Refused, JournalError, BadLabel, BadFormat, BadSymbol, BadAmount, OSError)


def sentence(error: Exception) -> str:
    """One line for `error`: for the system's own errors the file and what the system says of it."""
    if isinstance(error, OSError) and error.strerror:
        return f"{error.filename}: {error.strerror}" if error.filename else error.strerror
    return " ".join(str(error).split())
