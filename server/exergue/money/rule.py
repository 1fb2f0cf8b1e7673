"""The most to pay for a want, and the least to take for a coin, by the owner's own rule (rule.toml has the form).

Every answer is arithmetic that can be shown: lines [{what, cents}] that add up to it exactly. A ceiling is
rounded down to the cent, a floor up, and each fee and tax as it would be charged, half up.
"""

import tomllib
from dataclasses import dataclass
from fractions import Fraction
from importlib import resources
from math import ceil, floor

from .sales import Row

DEFAULT = tomllib.loads((resources.files("exergue.money") / "rule.toml").read_text(encoding="utf-8"))
_SIDES = ("low", "mid", "high")
_WORDS = {
    "percent": "The share of the estimate", "margin": "The margin over cost", "melt": "The share of the metal's worth",
    "fee": "The fee", "tax": "The tax", "shipping": "The shipping", "other": "The other cost",
}  # fmt: skip
_MOST = {"percent": 200, "margin": 1000, "melt": 200, "fee": 90, "tax": 90}
_LARGEST = 10**12  # cents


class BadRule(ValueError):
    """The rule cannot be used; the message says why in one sentence."""


@dataclass(frozen=True)
class Answer:
    """`cents`, None where nothing can be said; `lines` [{what, cents}] that add up to it; `why`: one sentence."""

    cents: int | None
    lines: tuple[dict, ...]
    why: str


def read(rule: dict) -> dict:
    """The rule with what it does not say from the default, checked. Raises BadRule."""
    if unknown := sorted(set(rule) - set(DEFAULT)):
        raise BadRule(f"“{unknown[0]}” is no part of a rule; there are ceiling and floor.")
    found = {}
    for name, usual in DEFAULT.items():
        given = rule.get(name, {})
        if not isinstance(given, dict):
            raise BadRule(f"The rule of the {name} is a table, such as of = \"mid\", percent = \"85\".")
        if unknown := sorted(set(given) - set(usual)):
            raise BadRule(f"“{unknown[0]}” is nothing that the rule of a {name} knows; there are {', '.join(usual)}.")
        found[name] = usual | given
        for key, value in found[name].items():
            _check(key, value)
    return found


def ceiling(row: Row, rule: dict) -> Answer:
    """The most to pay as price, so that price, fee, tax and the rest stay within the share of the estimate. Never below 0.

    `rule`: as `read` gives it.
    """
    said = rule["ceiling"]
    if row.mid is None:
        return Answer(None, (), "No evidence, so no ceiling.")
    start = getattr(row, said["of"])
    share = floor(start * _part(said["percent"]))
    spare = max(share - said["shipping"] - said["other"], 0)
    lines = [_line(f"estimate, {said['of']}", start), _line(f"to {said['percent']} % of it", share - start)]
    lines += [_line("shipping", -said["shipping"]), _line("other costs", -said["other"])]
    if short := spare - (share - said["shipping"] - said["other"]):
        return Answer(0, _shown([*lines, _line("nothing is left", short)]), "The costs alone take all that the rule allows.")
    price = floor(spare / ((1 + _part(said["fee"])) * (1 + _part(said["tax"])))) + 2
    while sum(_charged(price, said)) + price > spare:  # a cent or two: fees are rounded
        price -= 1
    fee, tax = _charged(price, said)
    lines += [_line(f"fee of {said['fee']} %", -fee), _line(f"tax of {said['tax']} %", -tax)]
    lines.append(_line("rounding", price - (spare - fee - tax)))
    return Answer(price, _shown(lines), f"{said['percent']} % of the {said['of']} estimate, less what comes on top of the price.")


def floor_of(row: Row, cost: int | None, melt: int | None, rule: dict) -> Answer:
    """The least to take as price: the greatest of cost with margin, share of the estimate and share of the metal's worth,
    raised by what selling costs. `cost`, `melt`: cents, None unknown. `rule`: as `read` gives it."""
    said, margin, share, metal = rule["floor"], *(rule["floor"][key] for key in ("margin", "percent", "melt"))
    ways = [  # what it starts from, cents, part of it, the step in words, the reason in words
        ("cost", cost, 1 + _part(margin), f"margin of {margin} %", f"{margin} % on top of the cost"),
        (f"estimate, {said['of']}", getattr(row, said["of"]), _part(share), f"to {share} % of it",
         f"{share} % of the {said['of']} estimate"),
        ("metal", melt, _part(metal), f"to {metal} % of it", f"{metal} % of the metal's worth"),
    ]  # fmt: skip
    known = [way for way in ways if way[1] is not None]
    if not known:
        return Answer(None, (), "Neither cost nor evidence nor metal, so no floor.")
    what, start, part, step, why = max(known, key=lambda way: ceil(way[1] * way[2]))
    kept = ceil(start * part)
    wanted = kept + said["shipping"]
    price = ceil(wanted / (1 - _part(said["fee"])))
    while price and price - 1 - _half_up((price - 1) * _part(said["fee"])) >= wanted:  # fees are rounded
        price -= 1
    while price - _half_up(price * _part(said["fee"])) < wanted:
        price += 1
    fee = _half_up(price * _part(said["fee"]))
    lines = [_line(what, start), _line(step, kept - start), _line("shipping", said["shipping"])]
    lines += [_line(f"fee of {said['fee']} %", fee), _line("rounding", price - fee - wanted)]
    return Answer(price, _shown(lines), f"{why[0].upper()}{why[1:]}, the most of what the rule asks, and what selling costs.")


def _charged(price: int, said: dict) -> tuple[int, int]:
    fee = _half_up(price * _part(said["fee"]))
    return fee, _half_up((price + fee) * _part(said["tax"]))


def _half_up(exact: Fraction) -> int:
    return floor(exact + Fraction(1, 2))


def _part(percent: str) -> Fraction:
    return Fraction(percent) / 100


def _line(what: str, cents: int) -> dict:
    return {"what": what, "cents": cents}


def _shown(lines: list[dict]) -> tuple[dict, ...]:
    """The first line and all that change something."""
    return tuple(line for at, line in enumerate(lines) if not at or line["cents"])


def _check(key: str, value) -> None:
    if key == "of":
        if value not in _SIDES:
            raise BadRule(f"A rule starts from the low, mid or high estimate; “{value}” is none of these.")
    elif key in _MOST:
        try:
            exact = Fraction(value) if isinstance(value, str) and "/" not in value else None
        except ValueError:
            exact = None
        if exact is None or not 0 <= exact <= _MOST[key]:
            raise BadRule(f"{_WORDS[key]} is a percent from 0 to {_MOST[key]}, such as 10 or 7.5; “{value}” is not.")
    elif type(value) is not int or not 0 <= value <= _LARGEST:
        raise BadRule(f"{_WORDS[key]} is an amount of whole cents, 0 or more; “{value}” is not.")
