"""The close of the rehearsed show: from the desk's book on one side, from the phone's own tally on the other."""

from ..money import cents
from ..money.margin import percent
from ..records import reading
from ..shows import close as shows


def closing(day) -> shows.Close:
    """The close from the book's rows; counted is what the phone says is in its boxes and its cash tin."""
    show = day.show["id"]
    cost = {card["id"]: card["own"]["cost"] for card in reading.coins([s["coin"] for s in reading.sales(show)])}
    held = [card for card in day.phone.of("coin") if card["state"] == "in stock"]
    opening_cash = day.show["own"]["float"] or 0
    close = shows.close(
        day.show["name"],
        opening_pieces=day.opening[0],
        opening_cost=day.opening[1],
        cash_float=opening_cash,
        bought=[shows.Bought(len(p["coins"]), p["total"], p["payment"]) for p in reading.purchases(show)],
        sold=[
            shows.Sold(s["price"], cost[s["coin"]], sum(c["cents"] for c in s["costs"]), s["payment"])
            for s in reading.sales(show)
        ],
        counted_pieces=len(held),
        counted_cash=opening_cash + day.taken - day.spent,
    )
    day.check(close.agrees, "stock and cash agree at the close")
    at_cost = sum(card["own"]["cost"] or 0 for card in held)
    total = next(row for row in close.stock if row.mark == "total")
    day.check(total.cents == at_cost, "the stock at cost is the sum of the coins' costs")
    return close


def table(day, close: shows.Close | None) -> str:
    """The steps and the close as plain text."""
    lines = [*day.steps, ""] + (figures(close) if close else [])
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
