"""Finding a type in what people write: "draped bust half cent", "Braided Head", "chain"."""

from exergue.coins import spelling
from exergue.coins.denominations import Denomination
from exergue.coins.model import Type

_IDLE = {"type", "us", "usa", "the", "coin", "design", "head"}


def candidates(types: list[Type], text: str, year: int | None, denomination: Denomination) -> list[Type]:
    """Types that `text` may mean, best first; more than one means that it does not say enough.

    A whole name beats a part of one. The year narrows the list where it leaves anything in it. Without text, the
    types of that year. Nothing is returned for words that no type knows.
    """
    by_key = [t for t in types if text in (t.key, t.key.partition("/")[2])]
    if by_key:
        return by_key
    aside = _aside(types, denomination)
    wanted = frozenset(w for w in _words(text) if w not in aside and not _is_year(w))
    if not wanted:
        return [t for t in types if year in t.years] if year is not None else []
    ranks = [(_rank(t, wanted, aside), t) for t in types]
    whole = [t for rank, t in ranks if rank == 1]
    fitting = whole + [t for rank, t in ranks if rank == 2]
    best = whole or fitting
    if year is None:
        return best
    return [t for t in best if year in t.years] or [t for t in fitting if year in t.years] or best


def _aside(types: list[Type], denomination: Denomination) -> set[str]:
    """Words that say the denomination and nothing of the type: "cartwheel penny" is said of a penny, but only by type."""
    own = {w for said in (denomination.name, denomination.plural) for w in _words(said)}
    telling = {w for t in types for w in _words(t.name)}
    return own | {w for said in denomination.said for w in _words(said) if w not in telling}


def _rank(t: Type, wanted: frozenset[str], aside: set[str]) -> int:
    """1 where the words are a whole name of the type, 2 where they are a part of one, 0 where neither."""
    best = 0
    for said in (t.name, *t.said):
        name = frozenset(w for w in _words(said) if w not in aside)
        if name == wanted:
            return 1
        if wanted < name:
            best = 2
    return best


def _words(text: str) -> list[str]:
    return [w for w in spelling.tokens(text) if w.isalnum() and w not in _IDLE]


def _is_year(word: str) -> bool:
    return word.isdigit() and len(word) == 4
