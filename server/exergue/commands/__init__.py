"""What `exergue` can do, one module a command.

Each has `HELP` (one line), `arguments(parser)` and `run(args) -> int | None` (the exit code; none is 0).
A module imports the heavy parts inside `run`, so that `--help` answers at once.
"""


class Wrong(Exception):
    """The user asked for something that cannot be done; the message says why in one sentence."""
