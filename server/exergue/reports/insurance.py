"""The insurance schedule: every coin with its pictures and the value at which it is to be insured."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from .model import Column, Report, Section
from .words import counted, known_sum

CAUTION = (
    "A list for your insurer, no appraisal. Values rest on what is named beside them; ask your insurer which proof of"
    " value the policy needs, and keep a copy away from the coins."
)


@dataclass(frozen=True)
class Insured:
    """One coin or lot. Amounts in minor units for all its pieces; `value` None: none is known.

    `obverse` and `reverse` are the bytes of a picture or a path to it; `identity` what tells it apart: certificate,
    weight, marks.
    """

    coin: str
    title: str
    grade: str = ""
    identity: str = ""
    place: str = ""
    pieces: int = 1
    cost: int | None = None
    value: int | None = None
    rests_on: str = ""
    obverse: bytes | Path | str | None = None
    reverse: bytes | Path | str | None = None


def report(coins: Iterable[Insured], on: date, owner: str = "", policy: str = "") -> Report:
    """Coins by value, the dearest first; those without a value last."""
    coins = sorted(coins, key=lambda coin: (coin.value is None, -(coin.value or 0), coin.title))
    sides = (Column("obverse", "Obverse", "photo"), Column("reverse", "Reverse", "photo"))
    columns = [side for side in sides if any(getattr(coin, side.key) for coin in coins)]
    columns += [
        Column("coin", "ID"), Column("what", "Coin"), Column("place", "Place"), Column("pieces", "Pieces", "int"),
        Column("cost", "Cost", "money"), Column("value", "Insured value", "money"), Column("rests_on", "Value rests on"),
    ]  # fmt: skip
    rows = [_row(coin) for coin in coins]
    total = {
        "what": "Total",
        "pieces": sum(coin.pieces for coin in coins),
        "cost": known_sum(coin.cost for coin in coins),
        "value": known_sum(coin.value for coin in coins),
    }
    silent = sum(coin.value is None for coin in coins)
    return Report(
        title="Insurance schedule",
        subtitle=" · ".join(filter(None, (owner, policy, on.isoformat(), counted(total["pieces"], "coin")))),
        columns=columns,
        sections=[Section("", rows, [total] if rows else [])],
        caution=CAUTION,
        notes=[f"{counted(silent, 'entry', 'entries')} without a value: in the list, in no total."] if silent else [],
    )


def _row(coin: Insured) -> dict:
    what = "\n".join(filter(None, (coin.title, coin.grade, coin.identity)))
    return {**vars(coin), "what": what, "rests_on": "not valued" if coin.value is None else coin.rests_on}
