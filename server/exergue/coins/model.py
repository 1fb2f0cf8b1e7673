"""What the catalogue knows of one design type. Plain frozen values, made by read.py and checked by check.py."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

ASKS = ("genuine", "type", "issue")  # what a diagnostic settles: is it right, which type, which issue


@dataclass(frozen=True)
class Feature:
    """A word of the shared vocabulary: something one can look at on any coin. `values` may be empty (measures)."""

    key: str
    name: str
    look: str
    values: dict[str, str]  # key → in words
    effort: int  # 1 at a glance, 2 with a glass, 3 out of the holder or on a scale
    error: float  # the share of careful lookers who get it wrong; an estimate of common practice
    seen_at: str = "G-4"  # lowest grade that shows it, where a type says nothing else
    core: bool = False  # every type says what it shows


@dataclass(frozen=True)
class Law:
    key: str
    name: str
    cite: str
    says: str
    grains: dict[str, tuple[Fraction, ...]]  # by denomination
    tolerance: dict[str, Fraction]  # grains, by denomination: how far one piece might differ


@dataclass(frozen=True)
class Weight:
    """What the law asked of the years named, in grains. `note`: what the flans really did."""

    years: tuple[int, ...]
    grains: Fraction
    law: str
    note: str = ""
    composition: str = ""  # key of alloys.toml where it differs from the type's


@dataclass(frozen=True)
class Diagnostic:
    """One thing to look at. `instead`: type key → what a near type shows. `seen_at`: lowest grade that shows it."""

    key: str
    feature: str
    look: str
    fits: str
    values: tuple[str, ...]
    instead: dict[str, str]
    seen_at: str
    asks: str
    kills: bool  # a wrong answer ends the deal
    effort: int
    error: float
    years: tuple[int, ...] = ()  # the dates it is asked of; empty: all
    caution: str = ""


@dataclass(frozen=True)
class Issue:
    """A date and mint. `mintage` None: not known well enough to print; `source` says whence it is."""

    year: int
    mint: str = ""
    mintage: int | None = None
    source: str = ""
    proof_only: bool = False
    note: str = ""
    varieties: tuple[str, ...] = ()


@dataclass(frozen=True)
class Subtype:
    """A division that collectors make inside the type. `marks`: how it is known; `whole`: every piece of its years is of it."""

    key: str
    name: str
    years: tuple[int, ...]
    marks: str
    note: str = ""
    whole: bool = False


@dataclass(frozen=True)
class Question:
    """Something the literature has not settled, and the answers that are held.

    Where it asks what counts as a type: `splits` names the subtypes that some count as types of their own, `joins`
    the type of which some count this one as a part.
    """

    key: str
    ask: str
    held: tuple[str, ...]
    splits: tuple[str, ...] = ()
    joins: str = ""


@dataclass(frozen=True)
class Type:
    """A design type. `years` holds every date that was struck, proof-only dates among them.

    `proof_disputed`: dates of which the literature has not settled whether any were made for circulation.
    `alongside`: types of the denomination that share more than one year with this one, as keys.
    """

    key: str  # denomination/slug
    denomination: str
    name: str
    said: tuple[str, ...]
    years: tuple[int, ...]
    proof_only: tuple[int, ...]
    proof_disputed: tuple[int, ...]
    mints: tuple[str, ...]  # mint marks in use; empty: none
    designer: str
    obverse: str
    reverse: str
    edge: str
    axis: str
    composition: str  # key of alloys.toml
    diameter: tuple[Fraction, Fraction]  # least and greatest usual, millimetres
    weights: tuple[Weight, ...]
    subtypes: tuple[Subtype, ...]
    questions: tuple[Question, ...]
    issues: tuple[Issue, ...]
    looks: tuple[Diagnostic, ...]
    family: str = ""  # the design family, such as Seated Liberty, that runs over denominations
    survivors: int = 0  # how many may survive in all grades, to an order of magnitude; 0: not said
    shows: dict[str, tuple[str, ...]] = field(default_factory=dict)  # feature → values that its pieces show
    alongside: tuple[str, ...] = ()
    source: str = field(compare=False, default="")  # file it came from

    @property
    def single_year(self) -> bool:
        return len(self.years) == 1

    @cached_property
    def stated(self) -> dict[str, set[str]]:
        """feature → every value that its pieces show: of `shows`, and of the looks that all dates share."""
        found = {key: set(values) for key, values in self.shows.items()}
        for look in self.looks:
            if look.values and not look.years:
                found.setdefault(look.feature, set()).update(look.values)
        return found

    def grains(self, year: int | None = None) -> tuple[Fraction, ...]:
        """Lawful weights, heaviest first: of that year, or of all."""
        found = {w.grains for w in self.weights if year is None or year in w.years}
        return tuple(sorted(found, reverse=True))


@dataclass(frozen=True)
class Series:
    """What one catalogue file says of its denomination as a whole."""

    denomination: str
    gaps: dict[int, str]  # year without coins → why
    ended: str  # sentence for later years, or ""
    begun: str  # sentence for earlier years, or ""
    mint_note: str  # sentence for a mint mark that never was
