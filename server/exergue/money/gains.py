"""Gain or loss: amount realised less adjusted basis (IRC 1001(a)); of a gift, by two bases (IRC 1015(a), Reg. 1.1015-1)."""

from typing import NamedTuple


class Gain(NamedTuple):
    basis_used: int | None
    gain: int | None  # None: not known, since the basis is not
    note: str


def gain(proceeds: int, basis: int | None, gift: int | None = None) -> Gain:
    """Cents all. `gift`: the fair value at the gift, where that counts; a loss is reckoned from the lower of it and `basis`."""
    if basis is None:
        return Gain(None, None, "The cost is not known.")
    if gift is None or gift >= basis or proceeds >= basis:
        return Gain(basis, proceeds - basis, "")
    if proceeds < gift:
        return Gain(gift, proceeds - gift, "A loss on a gift is reckoned from its value when given.")
    return Gain(proceeds, 0, "Between the donor's basis and the value at the gift there is neither gain nor loss.")
