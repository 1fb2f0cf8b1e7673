"""Gain or loss on one disposal: IRC 1001; gifts after IRC 1015, Treas. Reg. 1.1015-1 and 1.1015-4.

All money is in minor units. What is not known stays not known: it never becomes zero.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from . import rules
from .rounding import half_up


class BadGain(ValueError):
    """The figures do not go together; the message says why in one sentence."""


@dataclass(frozen=True)
class GiftBasis:
    """What decides the basis of a gift.

    `gift_tax_addition` is worked out already (`gift_tax_addition` below); `paid` is what the receiver paid (part
    gift, part sale); `added` is what was spent on the coin after the gift, such as grading.
    """

    donor_basis: int | None
    value_at_gift: int | None
    gift_tax_addition: int = 0
    paid: int = 0
    added: int = 0

    @property
    def for_gain(self) -> int | None:
        """The basis that a gain is reckoned from; None: not known. Of a part gift it is the greater of the two (Reg. 1.1015-4)."""
        return None if self.donor_basis is None else max(self.paid, self.donor_basis) + self.gift_tax_addition + self.added

    @property
    def for_loss(self) -> int | None:
        """The basis that a loss is reckoned from; None: not known. A price between the two is neither gain nor loss."""
        if self.for_gain is None or self.value_at_gift is None:
            return None
        return min(self.for_gain, self.value_at_gift + self.added)


@dataclass(frozen=True)
class Gain:
    """`gain` is below zero for a loss, None where it cannot be said; `note` says why in a sentence, or is empty."""

    basis_used: int | None
    gain: int | None
    note: str = ""
    donor_basis_used: bool = False  # then the donor's time of holding counts, too


def gain(proceeds: int, basis: int | None, gift: GiftBasis | None = None) -> Gain:
    """Proceeds (after the costs of selling) less the basis; a gift has its own basis, so `basis` is None then.

    Raises BadGain where both are given, or an amount of the basis is below zero.
    """
    if gift is not None:
        if basis is not None:
            raise BadGain("A gift takes its basis from the donor; give the basis or the gift, not both.")
        return _of_gift(proceeds, gift)
    if basis is None:
        return Gain(None, None, "Its cost is not known, so its gain cannot be said; it is not taken as zero.")
    _not_below_zero(basis)
    return Gain(basis, proceeds - basis)


def _of_gift(proceeds: int, gift: GiftBasis) -> Gain:
    """Two bases: one for a gain, one for a loss; a price between the two is neither."""
    _not_below_zero(gift.donor_basis, gift.value_at_gift, gift.gift_tax_addition, gift.paid, gift.added)
    for_gain = gift.for_gain
    if for_gain is None:
        return Gain(None, None, "The donor's basis is not known: ask the donor, or the donor's preparer.")
    if proceeds >= for_gain:
        return Gain(for_gain, proceeds - for_gain, "Gift: the donor's basis.", donor_basis_used=True)
    for_loss = gift.for_loss
    if for_loss is None:
        return Gain(None, None, "Sold below the donor's basis, and the value at the gift is not known: it decides.")
    if proceeds >= for_loss:
        return Gain(proceeds, 0, "Gift sold between its value at the gift and the donor's basis: no gain, no loss.")
    from_donor = for_loss == for_gain
    note = "Gift: the donor's basis." if from_donor else "Gift: for a loss, its value at the gift."
    return Gain(for_loss, proceeds - for_loss, note, donor_basis_used=from_donor)


def gift_tax_addition(
    tax: int, donor_basis: int, value: int, amount: int | None = None, given: date | None = None
) -> int:
    """What the gift tax paid adds to the basis: tax × (value − donor's basis) ÷ amount of the gift, in minor units.

    `amount` is the value less the annual exclusion (None: the value). Never above the tax, nor so much that the basis
    passes the value. Of a gift `given` before 1977 the whole tax counts. IRC 1015(d)(1), (6). Rounded half up. Raises
    BadGain.
    """
    whole = value if amount is None else amount
    _not_below_zero(tax, donor_basis, value, whole)
    rise = max(0, value - donor_basis)
    if not tax or not rise:
        return 0
    if given is not None and given <= rules.value("gift_tax_from"):
        return min(tax, rise)
    if not whole:
        raise BadGain("Tax was paid on a gift of nothing; give the amount of the gift.")
    return min(half_up(Fraction(tax * rise, whole)), tax, rise)


def _not_below_zero(*amounts: int | None) -> None:
    if any(amount is not None and amount < 0 for amount in amounts):
        raise BadGain("A basis, a value or a tax cannot be below zero.")
