"""Gain or loss: amount realised less adjusted basis (IRC 1001(a)); of a gift, by two bases (IRC 1015(a), Reg. 1.1015-1)."""

from dataclasses import dataclass


@dataclass(frozen=True)
class GiftBasis:
    """Cents. `since`: what was spent on the coin after the gift."""

    donor_basis: int | None
    value_at_gift: int | None
    gift_tax_addition: int = 0
    paid: int = 0
    since: int = 0


@dataclass(frozen=True)
class Gain:
    """`gain` is None where it cannot be said; `note` says why, or is empty."""

    basis_used: int | None
    gain: int | None
    note: str = ""
    donor_basis_used: bool = False  # then the donor's time of holding counts, too


def gain(proceeds: int, basis: int | None, gift: GiftBasis | None = None) -> Gain:
    """Cents. A gift has its own basis, so `basis` is None then."""
    if gift is None:
        return Gain(basis, proceeds - basis) if basis is not None else Gain(None, None, "The cost is not known.")
    if gift.donor_basis is None:
        return Gain(None, None, "The donor's basis is not known.")
    for_gain = max(gift.paid, gift.donor_basis) + gift.gift_tax_addition + gift.since
    if proceeds >= for_gain:
        return Gain(for_gain, proceeds - for_gain, "Gift: the donor's basis.", True)
    if gift.value_at_gift is None:
        return Gain(None, None, "The value at the gift is not known, and it decides.")
    for_loss = min(for_gain, gift.value_at_gift + gift.since)
    if proceeds >= for_loss:
        return Gain(proceeds, 0, "Gift: between its value at the gift and the donor's basis is neither gain nor loss.")
    return Gain(for_loss, proceeds - for_loss, "Gift: for a loss, the lower basis.", for_loss == for_gain)
