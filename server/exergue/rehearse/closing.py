"""The close of the rehearsed show: from the desk's book on one side, from the phone's own tally on the other."""

from ..money import cents
from ..money.margin import percent
from ..records import show_close
from ..records.tables import Show
from ..shows import close as shows


def closing(day, book) -> show_close.Done:
    """The close from the book, held against what the phone has in its boxes and its cash tin."""
    done = show_close.done(book, Show.get_by_id(day.show["id"]), day.date, str)
    close = done.close
    held = [card for card in day.phone.of("coin") if card["state"] == "in stock"]
    day.check(close.agrees and not done.open, "stock and cash agree at the close")
    day.check(done.counted is not None and done.counted.seen == len(day.counted), "the count is the union of both phones' scans")
    day.check(close.expected_pieces == len(held), "the phone holds as many coins as the close expects")
    day.check(close.expected_cash == day.cash, "the cash is what the phone took and spent")
    day.check(done.expenses == [("food", -done.close.net + close.gross_profit)], "the expense is in the result")
    day.check(done.spent == day.spent, "what was spent on coins is what the phone spent")
    at_cost = sum(card["own"]["cost"] or 0 for card in held)
    total = next(row for row in close.stock if row.mark == "total")
    day.check(total.cents == at_cost, "the stock at cost is the sum of the coins' costs")
    return done


def as_json(done: show_close.Done) -> dict:
    """The close as plain values: its figures, the count, the drawer, payments by kind."""
    counted, drawer = done.counted, done.drawer
    return done.close.as_json() | {
        "closed": done.closed,
        "count": {"expected": counted.expected, "seen": counted.seen, "missing": counted.missing, "unexpected": counted.unexpected,
                  "open": len(counted.open)} if counted else None,
        "drawer": {"expected": drawer.expected, "counted": drawer.counted, "off": drawer.off} if drawer else None,
        "payments": [{"how": how, "in": came, "out": went} for how, came, went in done.ways],
        "expenses": [{"about": about, "cents": amount} for about, amount in done.expenses],
    }  # fmt: skip


def table(day, done: show_close.Done | None) -> str:
    """The steps and the close as plain text."""
    lines = [*day.steps, ""] + (figures(done.close) if done else [])
    return "\n".join([*lines, f"{day.checks} checks, {len(day.failures)} failed.", *day.failures])


def figures(close: shows.Close) -> list[str]:
    lines = [f"Close of show: {close.name} (invented data)"]
    for head, rows in (("Stock", close.stock), ("Cash", close.cash), ("Result", close.result)):
        lines += ["", head, "─" * 58]
        for row in rows:
            pieces = "" if row.pieces is None else f"{row.pieces:,}"
            money = "" if row.cents is None else cents.show(row.cents, "USD")
            mark = "!" if row.mark == "off" else " "
            lines.append(f"{mark} {row.label:<32}{pieces:>8}{money:>16}")
    return [*lines, "", f"Margin {percent(close.margin) or '–'} %, markup {percent(close.markup) or '–'} %."]
