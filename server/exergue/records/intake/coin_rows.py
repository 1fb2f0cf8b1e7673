"""Rows of coins: a new coin with or without its purchase and sale, or changes to a coin of the book."""

from ...labels import ids
from ...money import cents
from ..kinds import MAX_PIECES
from . import about, deals
from .cells import Cells
from .draft import CHANGE, NEW, REFUSED, SAME
from .present import Held
from .sheet import flat

PLAIN = {"certified_by": 60, "certificate": 40, "place": 60}
MONEY = ("ask", "floor")
HELD = ("stock", "investment", "personal")
PUBLISH = ("identity", "grade", "price", "photos")


def read(cells: Cells) -> None:
    """Set fate, title and facts of the row."""
    coin_id, held = _id(cells)
    exact = cells.filled("id")
    fields = about.identify(cells, held.fields if held else None, exact)
    fields |= _fields(cells)
    bought, sold = deals.purchase(cells, held), deals.sale(cells, held)
    cells.row.title = headline(cells, (held.fields if held else {}) | fields)
    if cells.row.fate == REFUSED:
        return
    if held is None:
        _new(cells, coin_id, fields, bought, sold)
    else:
        _known(cells, coin_id, held, fields, bought, sold)


def headline(cells: Cells, fields: dict) -> str:
    """The line for people: "1806 Half cent, Draped Bust VF-20"."""
    catalogue = cells.situation.view.catalogue()
    denom = catalogue.denominations.get(fields.get("denom") or "")
    what = fields.get("title") or ""
    if fields.get("type"):
        what = catalogue.title(fields["type"])
    elif denom:
        what = f"{denom.name}, {what}" if what else denom.name
    year, mint = fields.get("year"), fields.get("mint")
    date = f"{year}-{mint}" if year and mint else str(year or "")
    return " ".join(filter(None, [date, what, fields.get("grade")])) or "Coin not named"


# --- reading --------------------------------------------------------------------------------------


def _id(cells: Cells) -> tuple[str, Held | None]:
    if not cells.filled("id"):
        return ids.new_id(), None
    text = cells.raw("id")
    coin_id = parse_id(text)
    if not coin_id:
        hint = " A spreadsheet took it for a number; mark the column as text." if "E+" in text.upper() else ""
        cells.error("id", f"{_slip(text)}{hint}")
        return "", None
    if _slip(text):
        cells.warn("id", f"A spreadsheet dropped the zero in front; it is read as {ids.show(coin_id)}.")
    if coin_id in cells.situation.seen_ids:
        cells.error("id", f"{ids.show(coin_id)} stands in an earlier row of this file too.")
    cells.situation.seen_ids.add(coin_id)
    return coin_id, cells.situation.held.get(coin_id)


def parse_id(text: str) -> str:
    """The ID of a cell, zeros in front that a spreadsheet dropped put back; "" if it is none."""
    if not _slip(text):
        return ids.parse(text)
    whole = text.strip().zfill(ids.LENGTH)
    proved = text.isascii() and text.isdigit() and len(text) >= 6 and not _slip(whole)  # by the check character
    return whole if proved else ""


def _slip(text: str) -> str:
    """What is wrong with an ID, in a sentence; "" for a right one."""
    try:
        ids.parse(text)
    except ids.BadLabel as problem:
        return str(problem)
    return ""


def _fields(cells: Cells) -> dict:
    found = {name: cells.text(name, most) for name, most in PLAIN.items() if cells.has(name)}
    found |= {name: cells.amount(name) for name in MONEY if cells.has(name)}
    if cells.has("grade"):
        found["grade"] = cells.grade("grade")
    if cells.has("publish"):
        words = [word.lower() for word in cells.raw("publish").replace(",", " ").split()]
        if wrong := [word for word in words if word not in PUBLISH]:
            cells.error("publish", f"“{wrong[0]}” cannot be published; known are {', '.join(PUBLISH)}.")
        found["publish"] = sorted(set(words))
    found |= _lot(cells)
    number = found.get("certificate", "")
    if "E+" in number.upper() and number[:1].isdigit():
        cells.error("certificate", f"A spreadsheet shortened this number to “{number}”; write it out, as text.")
    elif number and not cells.filled("id"):
        alike = cells.situation.once("certificates", cells.situation.view.certificates)
        other = alike.get((found.get("certified_by", "").casefold(), number))
        if other:
            cells.warn("certificate", f"The book has a coin with this certificate already: {ids.show(other)}.")
    return found


def _lot(cells: Cells) -> dict:
    """How many alike coins the record stands for, and how they are held."""
    found, pieces, held = {}, cells.raw("pieces"), cells.raw("held").lower()
    if pieces.isascii() and pieces.isdigit() and 1 <= int(pieces) <= MAX_PIECES:
        found["pieces"] = int(pieces)
    elif pieces:
        cells.error("pieces", f"“{pieces}” is not a number of pieces; write it like 20.")
    if held in HELD:
        found["held"] = held
    elif held:
        cells.error("held", f"“{held}” is no way to hold a coin; known are {', '.join(HELD)}.")
    return found


# --- what follows ---------------------------------------------------------------------------------


def _new(cells: Cells, coin_id: str, fields: dict, bought: dict | None, sold: dict | None) -> None:
    given = {name: value for name, value in fields.items() if value not in (None, "", []) and (name, value) != ("pieces", 1)}
    if not (given.keys() & {"denom", "type", "title", "year"}):
        return cells.error("", "Nothing says which coin this is.")
    facts = cells.row.facts
    if bought:
        facts.append(("purchase", {"bought": [{"coin": coin_id, "set": given}]} | deals.given(bought)))
    else:
        facts.append(("coin.add", {"coin": coin_id, "set": given}))
    notes = cells.text("notes", 2000, lines=True)
    if notes:
        facts.append(("note", {"coin": coin_id, "text": notes}))
    if sold:
        facts.append(("sale", {"coin": coin_id} | deals.given(sold)))
        if bought and sold["date"] < bought["date"]:
            cells.warn("sold_date", "The coin was sold before it was bought.")
    cells.row.fate = NEW


def _known(cells: Cells, coin_id: str, held: Held, fields: dict, bought: dict | None, sold: dict | None) -> None:
    differs = changes(cells, held.fields, fields)
    facts = cells.row.facts
    if differs:
        base = {name: held.fields[name] for name in differs}
        facts.append(("coin.edit", {"coin": coin_id, "base": base, "set": differs}))
    if bought and not held.purchase:
        facts.append(("purchase", {"bought": [{"coin": coin_id, "set": {}}]} | deals.given(bought)))
    elif bought:
        deals.compare_purchase(cells, held, bought)
    notes = cells.text("notes", 2000, lines=True)
    if notes and flat(notes) not in [flat(note) for note in (*held.notes, " ".join(held.notes))]:
        facts.append(("note", {"coin": coin_id, "text": notes}))
    if sold and not held.sale:
        facts.append(("sale", {"coin": coin_id} | deals.given(sold)))
    elif sold:
        deals.compare_sale(cells, held, sold)
    cells.row.fate = CHANGE if facts else SAME


def changes(cells: Cells, held: dict, fields: dict) -> dict:
    """The fields that differ from what is held, each told."""
    differs = {name: value for name, value in fields.items() if _plain(value) != _plain(held.get(name))}
    for name, value in differs.items():
        before, after = (_said(cells, name, v) for v in (held.get(name), value))
        cells.tell(name, f"{before} becomes {after}.")
    return differs


def _plain(value):
    if isinstance(value, str):
        value = flat(value)
    return None if value in ("", []) else value


def _said(cells: Cells, name: str, value) -> str:
    if _plain(value) is None:
        return "nothing"
    if name in (*MONEY, "ceiling", "float"):
        return cents.show(value, cells.situation.view.currency)
    return f"“{', '.join(value) if isinstance(value, list) else value}”"
