"""Reports on what is owned now: the stock list, the insurance schedule, the estate sheet."""

from ...reports import consignors as statement
from ...reports import estate as estate_sheet
from ...reports import insurance as schedule
from ...reports import stock as stock_list
from ...reports.model import Report
from .named import coins, named, pictures

UNSAID = (None, "")


def _place(account, coin: str, place: str) -> str:
    """Where it lies, or who has it."""
    out = account.books.records[coin].out
    if out is None:
        return place
    return " ".join(filter(None, ("at" if out.kind == "grading" else "on" if out.kind in ("memo", "consignment") else "away for", out.kind,
                                  f"with {out.party}" if out.party else "")))  # fmt: skip


def _since(day):
    return None if day.year == 1 else day  # put in alone: nobody said when it came


def stock(book, account, asked) -> Report:
    words, found = coins(), []
    for each in account.books.stock():
        coin, (worth, rests_on) = named(words, each.coin), asked.estimates.get(each.coin, UNSAID)
        found.append(stock_list.Stock(
            coin.id, coin.said, coin.grade, coin.place, each.state, each.held, _since(each.came), each.pieces, each.cost, worth, rests_on,
        ))  # fmt: skip
    for other in account.books.held_for_others():
        coin = named(words, other.coin)
        state = f"on {other.kind} from {other.party or 'somebody'}"
        found.append(stock_list.Stock(coin.id, coin.said, coin.grade, coin.place, state, since=other.date, pieces=coin.pieces, theirs=True))
    return stock_list.report(sorted(found, key=lambda one: (one.title, one.coin)), asked.today)


def insurance(book, account, asked) -> Report:
    """Where there is no estimate, a coin is listed at its cost, and says so."""
    words, shown, found = coins(), pictures(book), []
    for each in account.books.stock():
        coin, (worth, rests_on) = named(words, each.coin), asked.estimates.get(each.coin, UNSAID)
        if worth is None and each.cost is not None:
            worth, rests_on = each.cost, "what it cost; no estimate"
        sides = shown.get(each.coin, {})
        found.append(schedule.Insured(
            coin.id, coin.said, coin.grade, coin.identity, _place(account, each.coin, coin.place), each.pieces, each.cost, worth, rests_on,
            sides.get("obverse"), sides.get("reverse"),
        ))  # fmt: skip
    return schedule.report(found, asked.today)


def consignors(book, account, asked) -> Report:
    """Up to the last day asked for: what was owed before its first day is owed still."""
    words, found = coins(), []
    for each in account.books.owed:
        coin = named(words, each.coin) if each.coin else None
        found.append(statement.Line(each.party, each.date, each.about, coin.said if coin else "", coin.id if coin else "", each.cents))
    return statement.report(found, asked.last)


def estate(book, account, asked) -> Report:
    """Coins of others stand in a place of their own: heirs are to give them back."""
    words, found = coins(), []
    for each in account.books.stock():
        coin, (worth, rests_on) = named(words, each.coin), asked.estimates.get(each.coin, UNSAID)
        found.append(estate_sheet.Piece(
            coin.id, coin.said, coin.grade, coin.identity, _place(account, each.coin, coin.place), _since(each.came), each.pieces, each.cost,
            worth, worth, rests_on,
        ))  # fmt: skip
    for other in account.books.held_for_others():
        coin = named(words, other.coin)
        whose = f"belongs to {other.party or 'somebody else'}"
        found.append(estate_sheet.Piece(coin.id, coin.said, coin.grade, f"{whose}; lies in {coin.place or 'a place not noted'}",
                                        "Coins of others: to be given back", other.date, coin.pieces, expert=other.party))  # fmt: skip
    return estate_sheet.report(found, asked.today)
