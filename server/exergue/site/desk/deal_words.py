"""Entries about money and whereabouts in plain words: (what was done, details) of each."""

from ...records import reading
from . import showing

COSTS = {"price": "Price", "fee": "Buyer’s fee", "tax": "Tax", "shipping": "Shipping", "insurance": "Insurance",
         "grading": "Grading", "other": "Other"}  # fmt: skip
LINES = COSTS | {  # and what a coin counts as having cost that was not bought
    "opening": "Cost brought forward", "inherited": "Value when inherited", "gift": "Donor’s basis", "found": "Face value",
    "trade": "Value in trade",
}  # fmt: skip
HELD = {"stock": "stock", "investment": "an investment", "personal": "personal property"}
MONEY = {"expense": "Paid an expense", "income": "Received", "owner_in": "The owner put in", "owner_out": "The owner took out",
         "tax_paid": "Paid tax", "transfer": "Moved", "consignor": "Paid a consignor"}  # fmt: skip
ROADS = {"opening": "In the book from the start", "inherited": "Inherited", "gift": "Received as a gift", "found": "Found"}
AWAY = {"grading": "for grading", "conservation": "for conservation", "display": "for display", "other": ""}


OURS = {"fee": "Fees of the sale", "shipping": "Shipping paid", "other": "Other costs"}  # what a sale cost the seller


def costs(lines: list[dict] | None, names: dict = LINES) -> list[str]:
    return [f"{names.get(line['what']) or LINES.get(line['what'], line['what'])}: {showing.money(line['cents'])}" for line in lines or []]


def about(body: dict) -> list[str]:
    """Where, by what way of payment, and the note."""
    show = next((s["name"] for s in reading.shows() if s["id"] == body["show"]), "") if body.get("show") else ""
    return [text for text in (f"At {show}" if show else "", f"By {body['payment']}" if body.get("payment") else "",
                              body.get("note") or "") if text]  # fmt: skip


def paid(body: dict) -> list[str]:
    """One line for each way of payment, and what was paid in another currency."""
    lines = [f"{row['how'].capitalize()}: {showing.money(row['cents'])}" for row in body.get("payments") or []]
    foreign = body.get("foreign")
    return lines + ([f"Paid in {foreign['currency']}, at {foreign['rate']}"] if foreign else [])


def beside(body: dict) -> list[str]:
    """What there is to tell of an entry whose sums are shown already."""
    foreign, exempt = body.get("foreign"), body.get("exempt")
    told = [f"Paid in {foreign['currency']}, at {foreign['rate']}"] if foreign else []
    told += [f"No sales tax: {exempt['reason']}" + (f", certificate {exempt['certificate']}" if exempt.get("certificate") else "")] if exempt else []
    return told + about(body)


def many(rows: list) -> str:
    return showing.count(len(rows), "coin")


def _with(body: dict, name: str, word: str) -> str:
    return f" {word} {body[name]}" if body.get(name) else ""


def _on(body: dict) -> str:
    return f" on {showing.day(body['date'])}"


def _acquired(body: dict):
    return (f"{ROADS[body['how']]}: {many(body['coins'])}{_with(body, 'from', 'from')},{_on(body)}", about(body))


def _cost(body: dict):
    total = sum(line["cents"] for line in body["costs"])
    return (f"A later cost of {showing.money(total)} for {many(body['coins'])}{_with(body, 'from', 'from')}{_on(body)}",
            costs(body["costs"]) + paid(body) + about(body))  # fmt: skip


def _ticket(body: dict):
    tax, exempt = body.get("tax"), body.get("exempt")
    details = [f"Discount: {showing.money(body['discount'])}"] if body.get("discount") else []
    details += [f"Sales tax: {showing.money(tax['cents'])}"] if tax else []
    details += [f"No sales tax: {exempt['reason']}"] if exempt else []
    return (f"Sold {many(body['sold'])}{_with(body, 'to', 'to')}{_on(body)} for {showing.money(body['price'])}",
            details + costs(body.get("costs"), OURS) + paid(body) + about(body))  # fmt: skip


def _return(body: dict):
    what = many(body["coins"]) if body.get("coins") else "A sale"
    what = f"{showing.count(body['pieces'], 'piece')} of a lot" if body.get("pieces") else what
    tax = [f"Sales tax given back: {showing.money(body['tax'])}"] if body.get("tax") else []
    return (f"{what} came back{_on(body)}, refund {showing.money(body['refund'])}",
            tax + costs(body.get("costs"), OURS) + paid(body) + about(body))  # fmt: skip


def _trade(body: dict):
    boot = body["boot"]
    cash = f", boot {showing.money(abs(boot))} {'received' if boot > 0 else 'paid'}" if boot else ""
    return (f"Traded {many(body['out'])} for {many(body['in'])}{_with(body, 'with', 'with')}{_on(body)}{cash}",
            costs(body.get("costs"), OURS) + paid(body) + about(body))  # fmt: skip


def _memo(body: dict):
    way, word = ("Gave", "to") if body["way"] == "out" else ("Took", "from")
    due = [f"Due {showing.day(body['due'])}"] if body.get("due") else []
    return f"{way} {many(body['coins'])} on {body['kind']}{_with(body, 'with', word)}{_on(body)}", due + about(body)


def _away(body: dict):
    return f"Sent {many(body['coins'])} away {AWAY[body['why']]}".rstrip() + f"{_with(body, 'with', 'to')}{_on(body)}", about(body)


def _lost(body: dict):
    how = {"missing": "Missing", "lost": "Lost", "stolen": "Stolen", "destroyed": "Destroyed"}[body["how"]]
    back = [f"Reimbursed: {showing.money(body['reimbursed'])}"] if body.get("reimbursed") else []
    return f"{how}{_on(body)}", back + about(body)


def _money(body: dict):
    said = f"{MONEY[body['what']]} {showing.money(body['cents'])}{_with(body, 'to', 'to')}{_on(body)}"
    if body.get("to_how"):
        said += f", {body['how']} to {body['to_how']}"
    return said, [line for line in (body.get("about"), body.get("place")) if line] + about(body)


SAID = {
    "acquired": _acquired, "cost": _cost, "ticket": _ticket, "return": _return, "trade": _trade, "memo": _memo,
    "away": _away, "lost": _lost, "money": _money,
    "back": lambda b: (f"Back: {many(b['coins'])}{_on(b)}", about(b)),
    "withdrawn": lambda b: (f"From now on {HELD[b['to']]}: {many(b['coins'])}{_on(b)}", about(b)),
}  # fmt: skip
