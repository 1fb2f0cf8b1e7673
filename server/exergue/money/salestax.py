"""Sales tax: of an amount, within a price, and what was collected by place.

Rounding: carried to the third decimal, half up to the cent (Streamlined Sales and Use Tax Agreement, § 324; from
memory). Rates are text in per cent ("8.25"), amounts minor units; below zero for a return.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from .rounding import half_up

CAUTION = (
    "What is taxed, at which rate and when it is paid over is for the state and the place to say;"
    " ask them or a licensed preparer."
)
_RATE = re.compile(r"\d{1,3}(?:[.,]\d{1,6})?")


class BadTax(ValueError):
    """A rate or an exemption does not work; the message says why in one sentence."""


@dataclass(frozen=True)
class Exempt:
    """Why no tax was taken: the buyer's certificate number and the reason on it, such as resale."""

    certificate: str
    reason: str


@dataclass(frozen=True)
class Taxed:
    """One sale, or a return (amounts below zero): the price before tax, and the tax that was taken."""

    date: date
    place: str
    rate: str  # per cent
    net: int
    tax: int
    exempt: Exempt | None = None


@dataclass(frozen=True)
class Collected:
    """One place at one rate over a period; `off` is tax taken less tax at the rate, sale by sale."""

    place: str
    rate: str
    sales: int
    exempt: int
    taxable: int
    tax: int
    off: int
    count: int


def rate(text: str) -> Fraction:
    """A rate in per cent as a ratio: "8.25" → 33/400. Raises BadTax."""
    plain = text.strip().removesuffix("%").strip()
    if not plain.isascii() or not _RATE.fullmatch(plain):
        raise BadTax(f"“{text.strip()}” is not a tax rate; give per cent, such as 8.25.")
    ratio = Fraction(plain.replace(",", ".")) / 100
    if ratio > 1:
        raise BadTax(f"“{text.strip()}” is more than 100 per cent; give the rate in per cent, such as 8.25.")
    return ratio


def tax(amount: int, at: str) -> int:
    """The tax on `amount` at the rate `at`."""
    return half_up(amount * rate(at))


def tax_on_lines(amounts: Sequence[int], at: str, by: str) -> int:
    """The tax on a ticket `by` "item" (each line rounded by itself) or by "invoice". Keep to one of the two."""
    if by not in ("item", "invoice"):
        raise BadTax(f"Tax is worked out by item or by invoice, not by “{by}”.")
    return tax(sum(amounts), at) if by == "invoice" else sum(tax(amount, at) for amount in amounts)


def tax_within(total: int, at: str) -> tuple[int, int]:
    """(net, tax) of a price that has the tax in it; the two add up to it."""
    ratio = rate(at)
    inside = half_up(total * ratio / (1 + ratio))
    return total - inside, inside


def exemption(certificate: str, reason: str) -> Exempt:
    """The exemption of a sale. Raises BadTax where the number or the reason is missing."""
    if not certificate.strip():
        raise BadTax("A sale without tax needs the number of the buyer's exemption certificate.")
    if not reason.strip():
        raise BadTax("A sale without tax needs the reason on the certificate, such as resale.")
    return Exempt(certificate.strip(), reason.strip())


def collected(sales: Iterable[Taxed], first: date, last: date) -> list[Collected]:
    """Sums by place and rate over the days first … last, both included; places by name, rates from low to high."""
    if last < first:
        raise BadTax(f"The period ends on {last}, before it begins on {first}.")
    groups: dict[tuple[str, Fraction], list[Taxed]] = {}
    for sale in sales:
        if first <= sale.date <= last:
            groups.setdefault((sale.place.strip(), rate(sale.rate)), []).append(sale)
    order = sorted(groups, key=lambda key: (key[0].casefold(), key[0], key[1]))
    return [_summed(place, ratio, groups[place, ratio]) for place, ratio in order]


def _summed(place: str, ratio: Fraction, sales: list[Taxed]) -> Collected:
    whole = sum(sale.net for sale in sales)
    free = sum(sale.net for sale in sales if sale.exempt)
    taken = sum(sale.tax for sale in sales)
    due = sum(half_up(sale.net * ratio) for sale in sales if not sale.exempt)
    return Collected(place, written(ratio), whole, free, whole - free, taken, taken - due, len(sales))


def written(ratio: Fraction) -> str:
    """A ratio that `rate` gave, in per cent without idle zeros: "8.25"."""
    figure = f"{ratio * 100 * 10**6 // 1:07d}"
    return f"{figure[:-6]}.{figure[-6:]}".rstrip("0").rstrip(".")
