"""List the stock at cost: what is owned, where it is, what it cost all-in and what is asked.

Coins in stock, on memo, on consignment and at grading are counted as owned, unless --state names another.
"""

import csv
import sys

from exergue.commands import options

HELP = "list the stock at cost, as a table or as CSV"
OWNED = ("in stock", "on memo", "on consignment", "at grading")
STATES = (*OWNED, "sold", "traded", "returned", "missing")
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
        coins = [coin for state in ([args.state] if args.state else OWNED) for coin in held(state, args.place)]
    if args.csv:
        write_csv(coins, currency)
    else:
        write_table(coins, currency)


def held(state: str, place: str) -> list[dict]:
    from exergue.records import reading

    ids = reading.coin_ids(state=state, place=place)
    return [coin for start in range(0, len(ids), 500) for coin in reading.coins(ids[start : start + 500])]


def line(coin: dict, amount) -> tuple[str, ...]:
    """One coin's cells in the order of COLUMNS; `amount` writes cents, None as nothing."""
    from exergue.labels import ids

    cost = coin["own"]["cost"] if coin.get("own") else None
    return (ids.show(coin["id"]), coin["title"], coin["dateText"], coin["grade"], coin["state"], coin["place"],
            amount(cost), amount(coin["ask"]))  # fmt: skip


def write_table(coins: list[dict], currency: str) -> None:
    from exergue.money import cents

    def amount(value: int | None) -> str:
        return "" if value is None else cents.show(value, currency)

    lines = [COLUMNS, *(line(coin, amount) for coin in coins)]
    wide = [max(len(cells[i]) for cells in lines) for i in range(len(COLUMNS))]
    for cells in lines:
        columns = (f"{cell:>{w}}" if name in RIGHT else f"{cell:<{w}}" for cell, w, name in zip(cells, wide, COLUMNS))
        print("  ".join(columns).rstrip())
    costs = [coin["own"]["cost"] for coin in coins if coin["own"]["cost"] is not None]
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
