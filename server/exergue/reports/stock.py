"""The stock list: what is owned, at cost and at estimate."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from .model import Column, Report, Section
from .words import counted, known_sum

COLUMNS = (
    Column("coin", "ID"), Column("title", "Coin"), Column("grade", "Grade"), Column("where", "Where"),
    Column("since", "Since", "date"), Column("pieces", "Pieces", "int"), Column("cost", "Cost", "money"),
    Column("estimate", "Estimate", "money"), Column("rests_on", "Estimate rests on"),
)  # fmt: skip


@dataclass(frozen=True)
class Stock:
    """One coin or lot. `cost` and `estimate` are for all its pieces, in minor units; None where not known.

    `held` is stock, investment or personal; `rests_on` says from what the estimate follows ("7 sales since 2024").
    `theirs`: somebody else's coin that is only with us; it is in no total of ours.
    """

    coin: str
    title: str
    grade: str = ""
    place: str = ""
    state: str = "in stock"
    held: str = "stock"
    since: date | None = None
    pieces: int = 1
    cost: int | None = None
    estimate: int | None = None
    rests_on: str = ""
    theirs: bool = False


def report(coins: Iterable[Stock], on: date) -> Report:
    """What is owned on a day, apart by how it is held; others' coins last."""
    ours: dict[str, list[Stock]] = {"stock": [], "investment": [], "personal": []}
    theirs = []
    for coin in coins:
        (theirs if coin.theirs else ours.setdefault(coin.held, [])).append(coin)
    names = {"stock": "Stock for sale", "investment": "Held as an investment", "personal": "Held for oneself"}
    sections = [_section(names.get(held, held), part) for held, part in ours.items() if part]
    if len(sections) > 1:
        everything = [coin for part in ours.values() for coin in part]
        sections.append(Section("All that is owned", [], [_total("All together", everything)]))
    if theirs:
        note = "With you on memo or consignment: in your case, not in your stock, and in no total."
        sections.append(Section("Coins of others", [_row(coin) for coin in theirs], note=note))
    owned = [coin for part in ours.values() for coin in part]
    return Report(
        title="Stock list",
        subtitle=f"{on.isoformat()} · {counted(sum(coin.pieces for coin in owned), 'coin')} owned",
        columns=COLUMNS,
        sections=sections or [Section("Stock", [])],
        notes=_notes(owned),
    )


def _section(heading: str, coins: list[Stock]) -> Section:
    return Section(heading, [_row(coin) for coin in coins], [_total("Total", coins)])


def _total(name: str, coins: list[Stock]) -> dict:
    return {
        "title": name,
        "pieces": sum(coin.pieces for coin in coins),
        "cost": known_sum(coin.cost for coin in coins),
        "estimate": known_sum(coin.estimate for coin in coins),
    }


def _row(coin: Stock) -> dict:
    where = ", ".join(filter(None, (coin.place, "" if coin.state == "in stock" else coin.state)))
    return {**vars(coin), "where": where, "rests_on": coin.rests_on if coin.estimate is not None else "no evidence"}


def _notes(coins: list[Stock]) -> list[str]:
    found = []
    if unknown := sum(coin.cost is None for coin in coins):
        found.append(f"{counted(unknown, 'entry', 'entries')} without a known cost: left out of the cost, not taken as zero.")
    if silent := sum(coin.estimate is None for coin in coins):
        found.append(f"{counted(silent, 'entry', 'entries')} without evidence: left out of the estimate, not taken as zero.")
    if len(found) or any(coin.estimate is not None for coin in coins):
        found.append("An estimate follows from recorded sales alone. It is no appraisal and no offer.")
    return found
