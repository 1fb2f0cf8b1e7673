"""How reports name coins: read at once for the whole book."""

from typing import NamedTuple

from ...labels import ids
from .. import cards, photos, quick
from ..knowledge import denomination_name, type_name


class Named(NamedTuple):
    """A coin's words. `said` is its title with the date, `id` its ID as labels show it."""

    id: str
    said: str
    grade: str
    place: str
    identity: str
    pieces: int  # ever; of a coin of others with us


def coins() -> dict[str, Named]:
    """Words of every coin, by ID."""
    sql = "select id, denom, type, title, year, mint, variety, grade, place, certified_by, certificate, pieces from coin"
    found = {}
    for key, denom, type_, title, year, mint, variety, grade, place, by, certificate, pieces in quick.rows(sql):
        name = cards.title(denomination_name(denom), type_name(type_) or title)
        said = ", ".join(filter(None, (name, cards.date_text(year, mint) if year is not None else "", variety)))
        found[key] = Named(ids.show(key), said, grade, place, " ".join(filter(None, (by, certificate))), pieces)
    return found


def named(words: dict[str, Named], coin: str) -> Named:
    """The words of a coin; of one whose record is gone, its ID alone."""
    return words.get(coin) or Named(ids.show(coin), "Coin not in the book", "", "", "", 1)


def pictures(book) -> dict[str, dict[str, object]]:
    """{coin: {side: path}} of the photos whose files are there; the latest of each side."""
    found: dict[str, dict[str, object]] = {}
    for coin, side, photo in quick.rows("select coin, side, photo from photo order by fact"):
        path = photos.path(book.photos, photo, "thumb")
        if path.is_file():
            found.setdefault(coin, {})[side] = path
    return found
