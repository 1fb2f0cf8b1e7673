"""Cards of the show floor: contacts, sightings, rounds of counting, scans, and what a show's card says of them."""

from . import quick, show_money
from .knowledge import date_text, denomination_name, title, type_name
from .tables import Contact, Show, Sighting

MOST = 20  # deals and sightings on one card, the newest
_CLOSED = "select closed, date from closing where show = ? order by seq desc limit 1"


def packed(coin: str) -> dict:
    """{show, box?}: the show for which a coin was packed last."""
    show, box = quick.row("select show, box from packed where coin = ? order by seq desc limit 1", coin)
    return {"show": show} | ({"box": box} if box else {})


def closed(show: str) -> str:
    """The day on which a show was closed, "" while it is open."""
    last = quick.row(_CLOSED, show)
    return last[1] if last and last[0] else ""


def standing(show: str) -> dict:
    """{packed?, closed?}: how many coins are packed for a show, and on which day it was closed."""
    many, day = quick.row("select count(*) from packed where show = ?", show)[0], closed(show)
    return ({"packed": many} if many else {}) | ({"closed": day} if day else {})


def money(show: Show) -> dict:
    """{cash?, spent?, budget?, left?, drawer?} in cents: cash that should be in the box, spent on coins, left of the budget."""
    rows = show_money.paid(show.id, show.ends or show.starts)
    spent, counted = show_money.spent(rows), show_money.drawer(show.id)
    told = {"cash": (show.float or 0) + show_money.cash(rows)} if rows or show.float is not None else {}
    told |= {"spent": spent} if spent else {}
    told |= {"budget": show.budget, "left": show.budget - spent} if show.budget is not None else {}
    return told | ({"drawer": {"cents": counted["cents"], "date": counted["date"]}} if counted else {})


def contact(key: str):
    row = Contact.get_or_none(Contact.id == key)
    if row is None or row.gone:
        return None
    about = {"id": row.id, "name": row.name, "table": row.table, "phone": row.phone, "note": row.note}
    return about | where_seen("contact", key), {"deals": deals(row.name)}


_DEALS = (
    "select fact, kind, date, show, cents from ("
    "select s.fact, 'sale' as kind, s.date, s.show, s.price as cents from sale s where s.party = ? and s.live = ? "
    "and not exists (select 1 from deal d where d.fact = s.fact) union all "
    "select fact, how as kind, date, show, total as cents from purchase where party = ? and how <> 'trade' union all "
    "select fact, kind, date, show, cents from deal where party = ?) as found order by date desc, fact desc limit ?"
)


def deals(name: str) -> list[dict]:
    """[{fact, kind, date, show, cents}] of the newest deals with somebody of this name."""
    if not name:
        return []
    rows = quick.rows(_DEALS, name, True, name, name, MOST)
    return [dict(zip(("fact", "kind", "date", "show", "cents"), row, strict=True)) for row in rows]


def sighting(key: str):
    row = Sighting.get_or_none(Sighting.id == key)
    if row is None or row.gone:
        return None
    name, denomination = type_name(row.type), denomination_name(row.denom)
    return {
        "id": row.id, "contact": row.contact, "dealer": _dealer(row.contact, row.dealer), "table": row.table, "show": row.show,
        "date": row.date, "denom": row.denom, "type": row.type, "denomName": denomination, "typeName": name,
        "title": title(denomination, name or row.title), "year": row.year, "mint": row.mint,
        "dateText": date_text(row.year, row.mint), "grade": row.grade, "ask": row.ask, "photo": row.photo, "note": row.note,
    }, {"want": row.want, "offer": row.offer, "answer": row.answer}  # fmt: skip


def _dealer(contact: str | None, said: str) -> str:
    found = quick.row("select name from contact where id = ? and gone = ?", contact, "") if contact else None
    return found[0] if found and found[0] else said


_SEEN = (
    'select id, date, contact, dealer, "table", show, year, mint, grade, ask, denom, type, title from sighting '
    "where {} = ? and gone = ? order by date desc, id desc limit ?"
)


def where_seen(what: str, key: str) -> dict:
    """{sightings?: [{id, title, date, dealer, table, show, dateText, grade, ask}]} of a want or a contact, the newest first."""
    found = []
    for row in quick.rows(_SEEN.format(what), key, "", MOST):
        one, day, contact, dealer, table, show, year, mint, grade, ask, denom, type_, said = row
        about = {"id": one, "title": title(denomination_name(denom), type_name(type_) or said), "date": day}
        found.append(about | {"dealer": _dealer(contact, dealer), "table": table, "show": show, "dateText": date_text(year, mint),
                              "grade": grade, "ask": ask})  # fmt: skip
    return {"sightings": found} if found else {}


def round_of(key: str):
    found = quick.row("select id, show, when_ms, seen, scans from round where id = ?", key)
    return (dict(zip(("id", "show", "when", "seen", "scans"), found, strict=True)), None) if found else None


_SCANS = (
    "select s.coin, s.how, s.round, r.show, s.place, s.device, s.when_ms from seen s join round r on r.id = s.round "
    "where s.fact = ? order by s.coin"
)


WEEK_MS = 7 * 86_400_000
_PAST = (
    "select 1 from round n join round r on r.id = ? where r.show is null and n.show is null and n.began_ms >= r.began_ms + ?"
)


def seen(key: str):
    """What one entry scanned, so that phones of one round know of each other.

    None of it once the show is closed; of the whole stock, once another round was begun a week later or more, by the desk's clock.
    """
    rows = quick.rows(_SCANS, key)
    if not rows or (rows[0][3] and closed(rows[0][3])) or quick.there(_PAST, rows[0][2], WEEK_MS):
        return None
    _, _, round_id, show, place, device, when = rows[0]
    by_hand = [coin for coin, how, *_ in rows if how == "hand"]
    return {"id": key, "round": round_id, "show": show, "place": place, "by": device, "when": when,
            "coins": [row[0] for row in rows]} | ({"hand": by_hand} if by_hand else {}), None  # fmt: skip


MAKERS = {"contact": contact, "sighting": sighting, "round": round_of, "seen": seen}
