"""What an entry comes to, coin by coin: as it stands in the book, or as it would stand once it is made.

Nothing is worked out here: the figures are read from the tables, after the entry was folded (for a look: and before it is
taken back), so that a look shows what will stand, to the cent.
"""

from ...money import margin, shares
from ...records.tables import Added, Bought, Move, Purchase
from ...records.verdicts import CONTESTED
from .. import here
from . import words
from .deal_words import LINES
from .showing import money

LOOKED = ("purchase", "ticket", "return", "trade", "cost", "acquired")  # entries that are looked over before they are recorded


def once_made(kind: str, body: dict) -> dict:
    """`of` an entry that is not made yet, and `warning`: what would have to be decided. Raises Refused."""
    with here.book().tried(kind, body) as verdict:
        warning = f"{verdict.message} Both would be kept, for you to decide under Needs a look." if verdict.verdict == CONTESTED else ""
        return of(kind, verdict.fact, body) | {"warning": warning}


def of(kind: str, fact: str, body: dict) -> dict:
    """{tables: [{title, heads, rows: [{coin, name, cells}], totals}], sums: [(what, cents)], due: cents or None, payments}."""
    tables = [table for table in TABLES[kind](fact, body) if table["rows"]] if kind in TABLES else []
    sums, due = SUMS[kind](body) if kind in SUMS else ([], None)
    return {"tables": tables, "sums": sums, "due": due, "payments": body.get("payments") or []}


def _table(title: str, columns: dict[str, list], coins: list[str], adds=()) -> dict:
    """A table of coins; `columns` {head: cents of each coin, or None where not known}. `adds`: heads that have a sum."""
    rows = []
    for at, coin in enumerate(coins):
        card = here.book().card("coin", coin)
        cells = [column[at] if isinstance(column[at], str) else _said(column[at]) for column in columns.values()]
        rows.append({"coin": coin if card else None, "id": coin, "name": words.coin_line(card or {}), "cells": cells})
    totals = []
    if len(coins) > 1:
        totals = [money(sum(columns[head])) if head in adds and None not in columns[head] else "" for head in columns]
    return {"title": title, "heads": list(columns), "rows": rows, "totals": totals if any(totals) else []}


def _said(amount: int | None) -> str:
    return "not known" if amount is None else f"−{money(-amount)}" if amount < 0 else money(amount)


def _kinds(lines: list[dict]) -> list[str]:
    found = {line["what"] for line in lines}
    return [what for what in LINES if what in found]


def _by_kind(each: list[list[dict]]) -> dict[str, list[int]]:
    """{cost in words: what each coin bears of it}."""
    return {LINES[what]: [sum(line["cents"] for line in lines if line["what"] == what) for lines in each]
            for what in _kinds([line for lines in each for line in lines])}  # fmt: skip


def _came(fact: str, body: dict, title: str = "What each coin costs, all in") -> list[dict]:
    rows = list(Bought.select().where(Bought.purchase == fact).order_by(Bought.coin))
    order = {row["coin"]: at for at, row in enumerate(body.get("bought") or body.get("coins") or body.get("in") or [])}
    rows.sort(key=lambda row: order.get(row.coin_id, 0))
    parts = _by_kind([row.costs for row in rows])
    columns = (parts if len(parts) > 1 else {}) | {"All in": [row.total for row in rows]}
    if any(row.since for row in rows):
        columns |= {"Held since": [words.showing.day(row.since or body["date"]) for row in rows]}
    return [_table(title, columns, [row.coin_id for row in rows], [*parts, "All in"])]


def _acquired(fact: str, body: dict) -> list[dict]:
    return _came(fact, body, "What each coin counts as having cost")


def _gain(coin: str, fact: str) -> int | None:
    own = (here.book().card("coin", coin) or {}).get("own") or {}
    lines = [*own.get("moves", []), *([own["sale"]] if own.get("sale") else [])]
    return next((line.get("gain") for line in lines if line["fact"] == fact), None)


def _went(fact: str, title: str, what: str) -> list[dict]:
    """Coins that go for money or value: what each fetches, cost, and leaves."""
    rows = list(Move.select().where(Move.fact == fact, Move.step == "out").order_by(Move.coin))
    prices, costs = [row.cents for row in rows], [row.costs for row in rows]
    gains = [_gain(row.coin_id, fact) for row in rows]
    basis = [None if gain is None else price - charge - gain for price, charge, gain in zip(prices, costs, gains, strict=True)]
    ratios = [None if one is None else margin.margin(price, one + charge) for price, one, charge in zip(prices, basis, costs, strict=True)]
    columns = _pieces(rows) | {what: prices} | ({"Costs of selling": costs} if any(costs) else {})
    columns |= {"Cost, all in": basis, "Gain or loss": gains, "Margin": [f"{margin.percent(one, 1)} %".replace("-", "−") if one is not None else "" for one in ratios]}
    return [_table(title, columns, [row.coin_id for row in rows], [what, "Costs of selling", "Cost, all in", "Gain or loss"])]


def _pieces(rows: list[Move]) -> dict[str, list[str]]:
    """{Pieces: of each coin} where a lot is among them; with the day of their purchase where that is named."""
    if all(row.coin.pieces == 1 for row in rows):
        return {}
    days = {deal.fact: words.showing.day(deal.date) for deal in Purchase.select().where(Purchase.fact.in_([row.of for row in rows if row.of]))}
    return {"Pieces": [f"{row.pieces} of {days[row.of]}" if row.of in days else str(row.pieces) for row in rows]}


def _ticket(fact: str, body: dict) -> list[dict]:
    return _went(fact, "Gain or loss of each coin", "Price")


def _sale(fact: str, body: dict) -> list[dict]:
    return _went(fact, "Gain or loss", "Price")


def _trade(fact: str, body: dict) -> list[dict]:
    return _went(fact, "What goes out", "Value") + _came(fact, body, "What comes in, at its value as cost")


def _return(fact: str, body: dict) -> list[dict]:
    rows = list(Move.select().where(Move.fact == fact).order_by(Move.coin))
    cards = [here.book().card("coin", row.coin_id) for row in rows]
    lots = any(card.get("pieces") for card in cards)
    many = {"Pieces": [words.showing.count(row.pieces, "piece") for row in rows]} if lots else {}
    columns = many | {"Refund": [row.cents for row in rows]} | ({"Costs of yours": [row.costs for row in rows]} if body.get("costs") else {})
    columns |= {"Cost, all in": [card["own"]["cost"] for card in cards], "Stands as": [card["state"] for card in cards]}
    return [_table("What comes back", columns, [row.coin_id for row in rows], ["Refund", "Costs of yours"])]


def _cost(fact: str, body: dict) -> list[dict]:
    order = {row["coin"]: at for at, row in enumerate(body["coins"])}
    rows = sorted(Added.select().where(Added.fact == fact), key=lambda row: order.get(row.coin_id, 0))
    after = [here.book().card("coin", row.coin_id)["own"]["cost"] for row in rows]
    before = [None if one is None else one - row.total for one, row in zip(after, rows, strict=True)]
    columns = {"Without it": before, "Its share": [row.total for row in rows], "All in": after}
    return [_table("What each coin bears", columns, [row.coin_id for row in rows], list(columns))]


def _memo(fact: str, body: dict) -> list[dict]:
    rows = body["coins"]
    who = "For its owner" if body["way"] == "in" else "Net to you"
    return [_table("Agreed", {who: [row["net"] for row in rows]}, [row["coin"] for row in rows], [who])]


TABLES = {"purchase": _came, "acquired": _acquired, "ticket": _ticket, "sale": _sale, "trade": _trade, "return": _return,
          "cost": _cost, "memo": _memo}  # fmt: skip


def _sum_of_sale(body: dict):
    tax, exempt = (body.get("tax") or {}).get("cents", 0), body.get("exempt")
    less = body.get("discount") or 0
    lines = [("Before the discount", body["price"] + less), ("Discount", -less)] if less else []
    lines += [("Price", body["price"])]
    if body.get("tax"):
        where = f", {body['tax']['place']}" if body["tax"].get("place") else ""
        lines.append((f"Sales tax, {body['tax']['rate']} %{where}" if body["tax"].get("rate") else "Sales tax", tax))
    elif exempt:
        lines.append(("Sales tax: exempt", 0))
    return lines, body["price"] + tax


def _sum_of_return(body: dict):
    tax = body.get("tax") or 0
    return [("Refund of the price", body["refund"])] + ([("Sales tax given back", tax)] if tax else []), body["refund"] + tax


def _sum_of_trade(body: dict):
    boot = body["boot"]
    what = "Boot, they pay you" if boot > 0 else "Boot, you pay them" if boot else "Even, no boot"
    out, come = (sum(row["value"] for row in body[side]) for side in ("out", "in"))
    return [("Value out", out), ("Value in", come), (what, abs(boot))], abs(boot) or None


def _sum_of_costs(body: dict):
    return [], shares.total(body["costs"])  # the table of coins has the lines


SUMS = {"purchase": _sum_of_costs, "cost": _sum_of_costs, "ticket": _sum_of_sale, "sale": _sum_of_sale, "return": _sum_of_return,
        "trade": _sum_of_trade}  # fmt: skip
