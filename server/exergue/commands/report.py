"""List the stock at cost: what is owned, where it is, what it cost all-in and what is asked.

Coins in stock, on memo, on consignment, at grading and away are counted as owned, unless --state names another.
Coins of others, with us on memo or consignment, are not listed; a lot counts with what is left of it.
"""

import csv
import sys

from exergue.commands import options
from exergue.records.states import HELD, STATES

HELP = "list the stock at cost, as a table or as CSV"
COLUMNS = ("ID", "Coin", "Date", "Grade", "State", "Place", "Cost", "Ask")
RIGHT = ("Cost", "Ask")


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("--state", choices=STATES, help="coins in this state alone")
    parser.add_argument("--place", default="", help="coins in this box, case or row alone")
    parser.add_argument("--csv", action="store_true", help="write CSV instead of a table")


def run(args) -> None:
    book = options.opened(args)
    with book.connected():
        currency = book.setting("currency")
        coins = [coin for state in ([args.state] if args.state else HELD) for coin in held(state, args.place)]
    if args.csv:
        write_csv(coins, currency)
    else:
        write_table(coins, currency)


def held(state: str, place: str) -> list[dict]:
    from exergue.records import reading

    ids = reading.coin_ids(state=state, place=place)
    cards = [coin for start in range(0, len(ids), 500) for coin in reading.coins(ids[start : start + 500])]
    return [coin for coin in cards if not coin.get("theirs")]


def cost(coin: dict) -> int | None:
    """What is left of it cost, in cents; None: not known."""
    return coin["own"].get("cost_left", coin["own"]["cost"])


def line(coin: dict, amount) -> tuple[str, ...]:
    """One coin's cells in the order of COLUMNS; `amount` writes cents, None as nothing."""
    from exergue.labels import ids

    lot = f" ({coin['left']} of {coin['pieces']} pieces)" if "left" in coin else ""
    return (ids.show(coin["id"]), coin["title"] + lot, coin["dateText"], coin["grade"], coin["state"], coin["place"],
            amount(cost(coin)), amount(coin["ask"]))  # fmt: skip


def write_table(coins: list[dict], currency: str) -> None:
    from exergue.money import cents

    def amount(value: int | None) -> str:
        return "" if value is None else cents.show(value, currency)

    lines = [COLUMNS, *(line(coin, amount) for coin in coins)]
    wide = [max(len(cells[i]) for cells in lines) for i in range(len(COLUMNS))]
    for cells in lines:
        columns = (f"{cell:>{w}}" if name in RIGHT else f"{cell:<{w}}" for cell, w, name in zip(cells, wide, COLUMNS))
        print("  ".join(columns).rstrip())
    costs = [known for known in map(cost, coins) if known is not None]
    print(f"\n{len(coins):,} coins, {cents.show(sum(costs), currency)} at cost" + unknown(len(coins) - len(costs)))


def unknown(count: int) -> str:
    return f"; {count:,} without a known cost." if count else "."


def write_csv(coins: list[dict], currency: str) -> None:
    from exergue.money import cents
    from exergue.reports.formulas import guard

    def amount(value: int | None) -> str:
        return "" if value is None else cents.plain(value, currency)

    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(COLUMNS)
    for coin in coins:
        *words, cost, ask = line(coin, amount)
        out.writerow([*map(guard, words), cost, ask])
