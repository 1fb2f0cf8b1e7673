"""What a coin's row tells of its purchase and its sale."""

from ...money import cents
from ..kinds import spec
from .cells import Cells
from .draft import REFUSED
from .present import Held
from .sheet import flat

COSTS = spec()["words"]["costs"]


def _costs(cells: Cells, prefix: str, kinds=COSTS) -> list[dict]:
    lines = [(what, cells.amount(f"{prefix}_{what}")) for what in kinds]
    return [{"what": what, "cents": amount} for what, amount in lines if amount is not None]


def purchase(cells: Cells, held: Held | None) -> dict | None:
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
            cells.error("purchase_date", "A coin with a cost needs the day it was bought; give one for all such rows.")
    return {"costs": costs, "from": party, "date": day, "show": show, "payment": payment, "note": note}


def sale(cells: Cells, held: Held | None) -> dict | None:
    """The sale without its coin, or None where the row tells of none."""
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


def given(deal: dict) -> dict:
    """A deal without what is not known; its cost lines stay even when there are none."""
    return {name: value for name, value in deal.items() if value not in (None, "") and (value != [] or name == "costs")}


def compare_purchase(cells: Cells, held: Held, bought: dict) -> None:
    """Tell where a row differs from the recorded purchase."""
    written = {line["what"]: line["cents"] for line in bought["costs"]}
    if {k: v for k, v in written.items() if v} != {k: v for k, v in held.costs.items() if v}:
        cells.warn("cost_price", "The cost differs from the book's; a recorded purchase is not changed by a file.")
    _compare(cells, held.purchase, bought, {"from": "from", "date": "purchase_date"})


def compare_sale(cells: Cells, held: Held, sold: dict) -> None:
    """Tell where a row differs from the recorded sale."""
    if sold["price"] != held.sale["price"]:
        cells.warn("sold_price", "The price differs from the book's; a recorded sale is not changed by a file.")
    _compare(cells, held.sale, sold, {"to": "sold_to", "date": "sold_date"})


def _compare(cells: Cells, held: dict, written: dict, names: dict[str, str]) -> None:
    for name, column in names.items():
        if cells.filled(column) and flat(written[name]) != flat(held[name] or ""):
            cells.warn(column, f"The book has “{held[name]}”; what is recorded is not changed by a file.")
