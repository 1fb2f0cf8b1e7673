"""What one label says."""

from dataclasses import dataclass

from exergue.labels import ids


@dataclass(frozen=True)
class Label:
    """One coin's label.

    `id` is the coin's ID, `address` what its QR holds (labels.ids.address). `lines` are what it is, its date and
    mint, and its grade, in this order; any may be "". `ask` and `code` are the asking price and the cost code as
    they are to be read, "" where the owner leaves them off. A `blank` label has an ID and lines to write on.
    """

    id: str
    address: str
    lines: tuple[str, ...] = ()
    ask: str = ""
    code: str = ""
    blank: bool = False

    def __post_init__(self):
        object.__setattr__(self, "lines", tuple(self.lines))
        if len(self.lines) > 3:
            raise ValueError("A label has three lines: what it is, date and mint, grade.")

    @classmethod
    def for_later(cls, coin_id: str, base: str) -> "Label":
        """A blank label: a valid ID that no coin has yet, and room to write."""
        return cls(coin_id, ids.address(base, coin_id), blank=True)

    @property
    def title(self) -> str:
        return self.lines[0] if self.lines else ""

    @property
    def date(self) -> str:
        return self.lines[1] if len(self.lines) > 1 else ""

    @property
    def grade(self) -> str:
        return self.lines[2] if len(self.lines) > 2 else ""
