"""Print a report; without a name, list the stock at cost: what is owned, where it is, its cost all-in and what is asked.

gains (of a year), dealer, sales-tax, cash, insurance and estate are reports of the accounts: a table of text, --csv, or
--pdf FILE (`stock --pdf FILE`, too). They are no advice on tax: a licensed preparer decides.

In the list of stock, coins in stock, on memo, on consignment, at grading and away are counted as owned, unless --state names another.
Coins of others, with us on memo or consignment, are not listed; a lot counts with what is left of it.
"""

import csv
import datetime
import sys
from pathlib import Path

from exergue.commands import Wrong, options
from exergue.records.states import HELD, STATES

HELP = "print a report: the stock at cost, gains of a year, sales tax …"
NAMES = ("stock", "gains", "dealer", "sales-tax", "cash", "insurance", "estate")
COLUMNS = ("ID", "Coin", "Date", "Grade", "State", "Place", "Cost", "Ask")
RIGHT = ("Cost", "Ask")


def arguments(parser) -> None:
    options.book(parser)
    parser.add_argument("name", nargs="?", choices=NAMES, default="stock", help="which report (stock)")
    parser.add_argument("--year", type=int, metavar="YYYY", help="the year of the report (this year)")
    parser.add_argument("--from", dest="first", type=day, metavar="YYYY-MM-DD", help="its first day")
    parser.add_argument("--to", dest="last", type=day, metavar="YYYY-MM-DD", help="its last day")
    parser.add_argument("--pdf", type=Path, metavar="FILE", help="write a PDF")
    parser.add_argument("--state", choices=STATES, help="coins in this state alone")
    parser.add_argument("--place", default="", help="coins in this box, case or row alone")
    parser.add_argument("--csv", action="store_true", help="write CSV instead of a table")


def day(text: str) -> datetime.date:
    return datetime.date.fromisoformat(text)


def run(args) -> None:
    if args.name == "stock" and not args.pdf:
        return stock(args)
    if args.state or args.place:
        raise Wrong("--state and --place are for the list of stock alone.")
    return of_accounts(args)


def of_accounts(args) -> None:
    from exergue.records import reporting
    from exergue.reports.csv_file import to_csv
    from exergue.reports.pdf import write_pdf
    from exergue.reports.text import to_text

    today = datetime.date.today()
    try:
        first, last = reporting.days(today, args.year, args.first, args.last)
        book = options.opened(args)
        with book.connected():
            currency = book.setting("currency")
            made = reporting.report(book, args.name, today, first, last)
    except reporting.BadPeriod as problem:
        raise Wrong(str(problem)) from problem
    if args.pdf:
        args.pdf.write_bytes(write_pdf(made, currency))
        print(f"{args.pdf}: {made.title}, {made.subtitle}.")
    if args.csv:
        sys.stdout.write(to_csv(made, currency).replace("\r\n", "\n"))
    elif not args.pdf:
        sys.stdout.write(to_text(made, currency))


def stock(args) -> None:
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
