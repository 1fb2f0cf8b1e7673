"""Rows of coins: a new coin with or without its purchase and sale, or changes to a coin of the book."""

from ...labels import ids
from ...money import cents
from ..kinds import spec
from . import about
from .cells import Cells
from .draft import CHANGE, NEW, REFUSED, SAME
from .present import Held
from .sheet import flat

PLAIN = {"certified_by": 60, "certificate": 40, "place": 60}
MONEY = ("ask", "floor")
COSTS = spec()["words"]["costs"]
PUBLISH = ("identity", "grade", "price", "photos")


def read(cells: Cells) -> None:
    """Set fate, title and facts of the row."""
    coin_id, held = _id(cells)
    exact = cells.filled("id")
    fields = about.identify(cells, held.fields if held else None, exact)
    fields |= _fields(cells)
    bought, sold = _purchase(cells, held), _sale(cells, held)
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
    number = found.get("certificate", "")
    if "E+" in number.upper() and number[:1].isdigit():
        cells.error("certificate", f"A spreadsheet shortened this number to “{number}”; write it out, as text.")
    elif number and not cells.filled("id"):
        alike = cells.situation.once("certificates", cells.situation.view.certificates)
        other = alike.get((found.get("certified_by", "").casefold(), number))
        if other:
            cells.warn("certificate", f"The book has a coin with this certificate already: {ids.show(other)}.")
    return found


def _costs(cells: Cells, prefix: str, kinds=COSTS) -> list[dict]:
    lines = [(what, cells.amount(f"{prefix}_{what}")) for what in kinds]
    return [{"what": what, "cents": amount} for what, amount in lines if amount is not None]


def _purchase(cells: Cells, held: Held | None) -> dict | None:
    """The purchase without its coin, or None where the row has no cost."""
    costs, total = _costs(cells, "cost"), cells.amount("cost_total")
    day = cells.day("purchase_date")
    if total is not None and not costs:
        costs = [{"what": "price", "cents": total}]
    elif total is not None and total != (sum_ := sum(line["cents"] for line in costs)):
        code = cells.situation.view.currency
        cells.warn("cost_total", f"The lines add up to {cents.show(sum_, code)}, not {cents.show(total, code)}; "
                                 "the lines are taken.")  # fmt: skip
    show, lost = cells.show("purchase_show", day)
    note = "\n".join(filter(None, [cells.text("purchase_note", 1800, lines=True), lost]))
    party, payment = cells.text("from", 120), cells.payment("purchase_payment")
    if not costs:
        if held is None and (day or party) and cells.row.fate != REFUSED:
            kept = "from" if party else "purchase_date"
            cells.warn(kept, "There is no cost, so no purchase is recorded; write 0 for a coin that cost nothing.")
        return None
    if not day and not (held and held.purchase) and cells.row.fate != REFUSED:
        day = cells.situation.undated or ""
        if not day:
            cells.situation.asked.add("undated")
            cells.error("purchase_date", "A coin with a cost needs the day it was bought; give one above for all such rows.")
    return {"costs": costs, "from": party, "date": day, "show": show, "payment": payment, "note": note}


def _sale(cells: Cells, held: Held | None) -> dict | None:
    price, day = cells.amount("sold_price"), cells.day("sold_date")
    costs = _costs(cells, "sold", ["fee", "tax", "shipping", "insurance", "grading", "other"])
    show, lost = cells.show("sold_show", day)
    note = "\n".join(filter(None, [cells.text("sold_note", 1800, lines=True), lost]))
    party, payment = cells.text("sold_to", 120), cells.payment("sold_payment")
    state = cells.raw("state").lower()
    if price is None:
        if day or party or costs:
            column = "sold_date" if day else "sold_to" if party else "sold_price"
            cells.error(column, "The row tells of a sale, but not its price; fill in the price, 0 for a gift.")
        elif state == "sold" and not (held and held.state == "sold"):
            cells.error("state", "The row says sold, but has no sold price and date.")
        elif state not in ("", "in stock", "stock", "available", "owned", "sold", held.state if held else ""):
            cells.warn("state", f"“{cells.raw('state')}” is not brought in; the coin is entered as in stock.")
        return None
    if not day:
        cells.error("sold_date" if cells.has("sold_date") else "sold_price", "A sale needs its day, such as 2024-05-31.")
    return {"price": price, "costs": costs, "to": party, "date": day, "show": show, "payment": payment, "note": note}


# --- what follows ---------------------------------------------------------------------------------


def _new(cells: Cells, coin_id: str, fields: dict, bought: dict | None, sold: dict | None) -> None:
    given = {name: value for name, value in fields.items() if value not in (None, "", [])}
    if not (given.keys() & {"denom", "type", "title", "year"}):
        return cells.error("", "Nothing says which coin this is.")
    facts = cells.row.facts
    if bought:
        facts.append(("purchase", {"bought": [{"coin": coin_id, "set": given}]} | _given(bought)))
    else:
        facts.append(("coin.add", {"coin": coin_id, "set": given}))
    notes = cells.text("notes", 2000, lines=True)
    if notes:
        facts.append(("note", {"coin": coin_id, "text": notes}))
    if sold:
        facts.append(("sale", {"coin": coin_id} | _given(sold)))
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
        facts.append(("purchase", {"bought": [{"coin": coin_id, "set": {}}]} | _given(bought)))
    elif bought:
        _same_purchase(cells, held, bought)
    notes = cells.text("notes", 2000, lines=True)
    if notes and flat(notes) not in [flat(note) for note in (*held.notes, " ".join(held.notes))]:
        facts.append(("note", {"coin": coin_id, "text": notes}))
    if sold and not held.sale:
        facts.append(("sale", {"coin": coin_id} | _given(sold)))
    elif sold:
        _same_sale(cells, held, sold)
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


def _given(deal: dict) -> dict:
    """A deal without what is not known; its cost lines stay even when there are none."""
    return {name: value for name, value in deal.items() if value not in (None, "") and (value != [] or name == "costs")}


def _same_purchase(cells: Cells, held: Held, bought: dict) -> None:
    written = {line["what"]: line["cents"] for line in bought["costs"]}
    if {k: v for k, v in written.items() if v} != {k: v for k, v in held.costs.items() if v}:
        cells.warn("cost_price", "The cost differs from the book's; a recorded purchase is not changed by a file.")
    _same_deal(cells, held.purchase, bought, {"from": "from", "date": "purchase_date"})


def _same_sale(cells: Cells, held: Held, sold: dict) -> None:
    if sold["price"] != held.sale["price"]:
        cells.warn("sold_price", "The price differs from the book's; a recorded sale is not changed by a file.")
    _same_deal(cells, held.sale, sold, {"to": "sold_to", "date": "sold_date"})


def _same_deal(cells: Cells, held: dict, written: dict, names: dict[str, str]) -> None:
    for name, column in names.items():
        if cells.filled(column) and flat(written[name]) != flat(held[name] or ""):
            cells.warn(column, f"The book has “{held[name]}”; what is recorded is not changed by a file.")
