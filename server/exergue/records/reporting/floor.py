"""The close of a show as a report."""

from ...reports import show as view
from ...reports.model import Report
from ...shows.stories import KINDS
from ..show_close import Done
from . import named


def close_of_show(done: Done, subtitle: str) -> Report:
    """What `show_close.done` found, with coins in words."""
    words = named.coins()

    def said(coin: str) -> str:
        one = named.named(words, coin)
        return ", ".join(filter(None, (one.said, one.grade, one.id)))

    differences = [
        (said(one.coin), KINDS[one.kind], one.story, "explains itself" if one.explained else one.settled if one.settled is not None else "open")
        for one in (done.counted.differences if done.counted else ())
    ]
    best = [(which, said(one.coin), one.gain) for which, one in (("Best", done.best), ("Worst", done.worst)) if one]
    return view.report(
        done.close, subtitle, differences=differences, best=best if done.best != done.worst else best[:1],
        wants=[(one["title"], said(one["coin"]), one["cost"]) for one in done.wants], ways=done.ways, expenses=done.expenses,
        budget=None if done.show.budget is None else (done.show.budget, done.spent),
    )  # fmt: skip
